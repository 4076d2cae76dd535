// The electrician's packet, the floor plan and the signs as they are drawn, in any house.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "ask/floor_plan.h"
#include "ask/packet.h"
#include "ask/signs.h"
#include "ask/watts.h"
#include "db/base64.h"
#include "house/error.h"
#include "print/papers.h"
#include "print/schedule_table.h"
#include "print/symbols.h"
#include "tests/print/decode.h"
#include "tests/print/paper_checks.h"
#include "tests/print/paper_houses.h"
#include "tests/support/random_house.h"
#include "tests/support/small_jpeg.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using test::check_every_page, test::check_layout, test::draw, test::Drawn, test::plain, test::words_of;
using testing::HasSubstr;

constexpr PaperKind kKinds[] = {PaperKind::packet, PaperKind::floor_plan, PaperKind::signs};

PaperOptions options_for(PaperKind kind, Sheet sheet = Sheet::letter) {
  PaperOptions options;
  options.kind = kind, options.sheet = sheet, options.date = "2026-11-27", options.revision = 12;
  options.changes = {{1, "2026-11-25T09:00:00Z", "create"}, {12, "2026-11-26T09:00:00Z", "entered"}};
  return options;
}

/// Black on a color is read where the ratio of WCAG 2.1 is 4.5 or more (formula: secondary).
double contrast_with_black(Tint tint) {
  const auto linear = [](int value) {
    const double c = value / 255.0;
    return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  const Rgb rgb = rgb_of(tint);
  return (0.2126 * linear(rgb.red) + 0.7152 * linear(rgb.green) + 0.0722 * linear(rgb.blue) + 0.05) / 0.05;
}

void check_tints(const Drawn& drawn) {
  for (const DrawnTint& tint : drawn.canvas.tints)
    for (const DrawnText& text : drawn.canvas.texts) {
      const bool over = text.page == tint.page && text.area.x < tint.area.right() && tint.area.x < text.area.right() && text.area.y < tint.area.bottom() && tint.area.y < text.area.bottom();
      if (over) { EXPECT_GE(contrast_with_black(tint.tint), 4.5) << text.words; }
    }
}

void check_on(const Record& record, Sheet sheet) {
  for (const PaperKind kind : kKinds) {
    SCOPED_TRACE(std::to_string(static_cast<int>(kind)) + (sheet == Sheet::letter ? " letter" : " A4"));
    Drawn drawn;
    draw(record, options_for(kind, sheet), drawn);
    check_layout(drawn);
    check_every_page(drawn);
    check_tints(drawn);
  }
}

void check_house(const Record& record) {
  for (const Sheet sheet : {Sheet::letter, Sheet::a4}) check_on(record, sheet);
}

TEST(HousePapers, of_the_sample_house_nothing_overlaps_or_is_cut) { check_house(traced_sample()); }

TEST(HousePapers, of_houses_with_plans_and_of_long_and_odd_names) {
  for (const test::PlannedHouse& house : test::planned_houses()) {
    SCOPED_TRACE(house.name);
    check_house(house.record);
  }
}

TEST(HousePapers, of_an_empty_house_say_that_nothing_is_recorded) {
  House house;
  house.dwelling.id = {1};
  const Record record = make_record(house);
  check_house(record);
  Drawn drawn;
  draw(record, options_for(PaperKind::floor_plan), drawn);
  EXPECT_THAT(words_of(drawn.canvas), HasSubstr("No room is recorded yet."));
}

void check_random(std::uint64_t from, std::uint64_t to) {
  for (std::uint64_t seed = from; seed < to; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    check_on(make_record(random_house(seed, 1 + static_cast<int>(seed % 8))), seed / 8 % 2 == 0 ? Sheet::letter : Sheet::a4);
  }
}
TEST(HousePapers, of_random_houses_nothing_overlaps_or_is_cut) { check_random(0, 6); }
class HousePapersMany : public testing::TestWithParam<std::uint64_t> {};
INSTANTIATE_TEST_SUITE_P(Twenty, HousePapersMany, testing::Range<std::uint64_t>(0, 10));
TEST_P(HousePapersMany, of_random_houses_nothing_overlaps_or_is_cut) { check_random(6 + 20 * GetParam(), 26 + 20 * GetParam()); }

TEST(HousePapers, the_packet_has_every_entry_of_every_schedule_with_its_volt_amperes) {
  const Record record = traced_sample();
  Drawn drawn;
  draw(record, options_for(PaperKind::packet), drawn);
  const std::string words = words_of(drawn.canvas);
  for (const PanelSchedule& schedule : panel_schedules(record).panels) {
    const ScheduleTable table = schedule_table(record.house, schedule, 186);
    long long drawn_va = 0, va = 0;
    for (const PaperBlock& block : table.rows)
      for (const PlacedText& text : block.texts)
        if (text.style.align == Align::right) {
          std::string digits = text.words;
          std::erase(digits, ',');
          drawn_va += std::stoll(digits);
        }
    for (const long long leg : schedule.total) va += leg;
    EXPECT_EQ(drawn_va, va) << schedule.name;
    for (const std::string& sum : schedule.sums) EXPECT_THAT(words, HasSubstr(plain(sum)));
    for (const ScheduleEntry& entry : schedule.entries) {
      EXPECT_THAT(words, HasSubstr(plain(entry.words.text)));
      for (const SchedulePole& pole : entry.poles)
        if (pole.place.half == Half::whole) { EXPECT_THAT(words, HasSubstr(" " + std::to_string(pole.place.space) + " ")); }
    }
  }
}

TEST(HousePapers, volt_amperes_stand_in_the_column_of_their_leg_and_odd_spaces_left) {
  const Record record = traced_sample();
  const PanelSchedule schedule = panel_schedules(record).panels.at(0);
  const ScheduleTable table = schedule_table(record.house, schedule, 186);
  std::map<std::string, double> heads;
  for (const PlacedText& text : table.head.texts)
    if (text.area.x > 93 && text.words.starts_with("VA")) heads[text.words] = text.area.x;
  const ScheduleEntry& dryer = *std::ranges::find(schedule.entries, "2-4", &ScheduleEntry::number);
  std::set<double> columns;
  for (const PaperBlock& block : table.rows)
    for (const PlacedText& text : block.texts) {
      if (text.words == "1" && text.style.face == Face::bold) { EXPECT_LT(text.area.x, 20); }
      if (text.words == "2" && text.style.face == Face::bold) { EXPECT_GT(text.area.x, 90); }
      if (text.words == thousands(dryer.poles[0].va)) columns.insert(text.area.x);
    }
  EXPECT_EQ(columns, (std::set<double>{heads["VA L1"], heads["VA L2"]}));
}

TEST(HousePapers, a_panel_without_a_row_that_ends_all_its_breakers_is_parted_at_the_end_of_a_page) {
  std::string text = "Hall: 2r\nPanel Main in Hall 84 spaces, 200 A main: 2 20";
  for (int space = 1; space + 2 <= 84; space += 4) text += "; " + std::to_string(space) + "+" + std::to_string(space + 2) + " 30";
  for (int space = 4; space + 2 <= 84; space += 4) text += "; " + std::to_string(space) + "+" + std::to_string(space + 2) + " 30";
  const Record record = entered_record(text + "\n");
  check_house(record);
  Drawn drawn;
  draw(record, options_for(PaperKind::packet), drawn);
  std::set<std::string> numbers;
  for (const DrawnText& one : drawn.canvas.texts)
    if (one.style.face == Face::bold && one.style.points == 9.5) numbers.insert(one.words);
  for (int space = 1; space <= 84; ++space) EXPECT_TRUE(numbers.contains(std::to_string(space))) << space;
  EXPECT_THAT(words_of(drawn.canvas), HasSubstr("continued from"));
}

TEST(HousePapers, the_packet_says_cover_points_findings_and_history) {
  const Record record = traced_sample();
  Drawn drawn;
  draw(record, options_for(PaperKind::packet), drawn);
  const std::string words = words_of(drawn.canvas);
  const Packet made = packet(record, 12, options_for(PaperKind::packet).changes);
  for (const PacketFact& fact : made.cover) EXPECT_THAT(words, HasSubstr(plain(fact.name + " " + fact.value)));
  ASSERT_FALSE(made.findings.empty());
  for (const PacketFinding& finding : made.findings) EXPECT_THAT(words, HasSubstr(plain(finding.text)));
  for (const PacketPoint& point : made.points) EXPECT_THAT(words, HasSubstr(plain(point.point + " " + point.circuit + " " + std::to_string(point.dead))));
  for (const std::string& line : made.history) EXPECT_THAT(words, HasSubstr(plain(line)));
  for (const OneLinePanel& panel : made.line.panels) EXPECT_THAT(words, HasSubstr(plain(panel.name)));
  EXPECT_THAT(words, HasSubstr("Inlet 30 A"));
}

TEST(HousePapers, the_floor_plan_marks_every_point_with_its_number_and_lists_it) {
  const Record record = traced_sample();
  Drawn drawn;
  draw(record, options_for(PaperKind::floor_plan), drawn);
  const FloorPlan plan = floor_plan(record, kPatterns);
  std::map<std::string, long> wanted;
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points) ++wanted[plain(point.label)];
  const std::string all = words_of(drawn.canvas);
  for (const auto& [label, count] : wanted)
    EXPECT_EQ(std::ranges::count_if(drawn.canvas.texts, [&](const DrawnText& text) { return text.words == label && text.style.face == Face::bold && text.style.points == 9; }), count) << label;
  for (const PlanCircuitMark& mark : plan.circuits) EXPECT_THAT(all, HasSubstr(plain(mark.label + " " + mark.description + ", " + mark.amps)));
}

TEST(HousePapers, two_floors_share_a_page_where_every_point_has_its_place_on_both) {
  const auto pages_of_floors = [](const std::string& text) {
    Drawn drawn;
    draw(entered_record(text), options_for(PaperKind::floor_plan), drawn);
    check_layout(drawn);
    std::vector<int> pages;
    for (const DrawnText& one : drawn.canvas.texts)
      if (one.words == "Lower" || one.words == "Upper")
        if (one.style.points == 15) pages.push_back(one.page);
    return pages;
  };
  EXPECT_EQ(pages_of_floors("Floor Lower 0\nHall 8x9 m at 0,0: 4r, 2l\nFloor Upper 1\nLoft 7x10 m at 0,0: 4r, 2l\n"), (std::vector<int>{0, 0}));
  std::string full = "Floor Lower 0\n";
  for (int room = 0; room < 3; ++room) full += "Room " + std::to_string(room) + " 8x3 m at 0," + std::to_string(3 * room) + ": 40r\n";
  EXPECT_EQ(pages_of_floors(full + "Floor Upper 1\nLoft 7x10 m at 0,0: 4r\n"), (std::vector<int>{0, 1})) << "its rooms would be too small for their points";
}

TEST(HousePapers, a_list_that_goes_on_on_a_page_says_of_which_room_it_is) {
  Drawn drawn;
  draw(traced_sample(), options_for(PaperKind::floor_plan), drawn);
  int lists = 0;
  const std::vector<DrawnText>& texts = drawn.canvas.texts;
  for (std::size_t i = 3; i + 1 < texts.size(); ++i) {
    if (texts[i].words != "How well known") continue;
    ++lists;
    EXPECT_EQ(texts[i + 1].area.x, texts[i - 3].area.x) << "'" << texts[i + 1].words << "' on page " << texts[i].page << " has no room";
  }
  EXPECT_GE(lists, 3);
}

TEST(HousePapers, every_sign_has_its_words_and_letters_of_the_height_that_its_distance_asks_for) {
  const Record record = traced_sample();
  Drawn drawn;
  draw(record, options_for(PaperKind::signs), drawn);
  const std::string words = words_of(drawn.canvas);
  for (const Sign& sign : signs_for(record).signs) {
    const double points = letters_for(sign.distance_mm, sign.good_light).message_mm / kMmPerPoint / 0.688;
    const auto title = std::ranges::find_if(drawn.canvas.texts, [&](const DrawnText& text) { return text.words == plain(sign.title) && text.style.points > 11; });
    ASSERT_NE(title, drawn.canvas.texts.end()) << sign.title;
    EXPECT_GE(title->style.points, points - 0.01) << sign.title;
    for (const std::string& line : sign.lines) EXPECT_THAT(words, HasSubstr(plain(line)));
    EXPECT_THAT(words, HasSubstr(plain(sign.rule)));
  }
  EXPECT_FALSE(drawn.canvas.tints.empty());
}

TEST(HousePapersPdf, the_same_record_gives_the_same_bytes_and_another_program_reads_the_text) {
  const Record record = traced_sample();
  const Names names(record.house);
  for (const PaperKind kind : kKinds) {
    const PrintedPaper printed = print_paper(record, names, options_for(kind));
    EXPECT_EQ(printed.pdf, print_paper(record, names, options_for(kind)).pdf);
    EXPECT_LT(printed.pdf.size(), 250'000U);
    EXPECT_THAT(printed.warnings, testing::IsEmpty());
    std::string text = test::text_of_pdf(printed.pdf);
    std::ranges::replace(text, '\n', ' ');
    EXPECT_THAT(text, HasSubstr(kind == PaperKind::packet ? "Panel schedules" : kind == PaperKind::floor_plan ? "Middle" : "SERVICE DISCONNECT"));
    if (kind == PaperKind::packet) { EXPECT_THAT(text, HasSubstr("Yard well pump [G5-6]")); }
  }
}

TEST(HousePapersPdf, codes_of_the_packet_are_read_back_and_hold_no_name_of_a_person) {
  const Record record = traced_sample();
  const Names names(record.house);
  const PrintedPaper printed = print_paper(record, names, options_for(PaperKind::packet));
  ASSERT_FALSE(printed.code_texts.empty());
  Drawn drawn;
  draw(record, options_for(PaperKind::packet), drawn);
  std::set<std::string> read;
  for (const DrawnCode& code : drawn.canvas.codes) read.merge(test::zbar_read(test::cropped(test::rendered(printed.pdf, code.page, 200), code.area, 200, 1)));
  EXPECT_EQ(read, std::set<std::string>(printed.code_texts.begin(), printed.code_texts.end()));
  for (const std::string& text : printed.code_texts) EXPECT_THAT(text, testing::Not(HasSubstr("well driller")));
}

TEST(HousePapers, no_person_is_named_but_whoever_recorded) {
  Record record = traced_sample();
  record.house.dwelling.name = "Ana's cottage";
  record.house.rooms[0].name = "Ana's room", record.house.points[0].name = "Ana's lamp", record.house.panels[0].name = "Ana's panel";
  record.house.loads[0].name = "Ana's freezer", record.house.sources[0].name = "Ana's generator", record.house.transfer_devices[0].name = "Ana's switch";
  record.house.breakers[0].old_label = "Ana";
  for (const PaperKind kind : kKinds) {
    Drawn drawn;
    draw(record, options_for(kind), drawn);
    EXPECT_THAT(words_of(drawn.canvas), testing::Not(HasSubstr("Ana"))) << static_cast<int>(kind);
  }
}

TEST(HousePapers, no_plan_is_needed_and_a_date_that_is_none_is_refused) {
  Record record = traced_sample();
  ASSERT_TRUE(record.house.planned.empty());
  record.house.sources.clear(), record.house.transfer_devices.clear(), record.house.positions.clear();
  const Record bare = make_record(record.house);
  const Names names(bare.house);
  RecordingCanvas canvas;
  for (const PaperKind kind : kKinds) {
    EXPECT_GT(draw_paper(bare, names, options_for(kind), canvas).pages, 0);
    PaperOptions options = options_for(kind);
    options.date = "soon";
    EXPECT_THROW(draw_paper(bare, names, options, canvas), Error);
  }
}

TEST(HousePapers, the_packet_ends_with_its_photos_and_leaves_private_ones_out) {
  House house = traced_sample().house;
  const std::string picture = *from_base64(kJpeg24x16), sum(64, 'a'), gone(64, 'b');
  const auto photo = [&](ThingRef about, const char* caption, const std::string& which, bool is_private) {
    house.photos.push_back({Id<Photo>::fresh(), about, caption, which, gone, 1600, 1200, 250'000, is_private, "", "2026-11-27T10:00:00Z"});
  };
  const ThingRef panel{ThingKind::panel, house.panels[0].id.value};
  photo(panel, "before it was opened", sum, false), photo({}, "the meter", gone, false), photo(panel, "with a person", sum, true), photo(panel, "the inside", sum, false);
  PaperOptions options = options_for(PaperKind::packet);
  options.pictures = {{sum, picture}};
  Drawn drawn;
  draw(make_record(house), options, drawn);
  check_layout(drawn);
  check_every_page(drawn);
  const std::string text = words_of(drawn.canvas);
  for (const char* words : {"8. Photos", "before it was opened", "the inside", "the meter", "picture not here", "Private ones were left out: 1."}) EXPECT_THAT(text, HasSubstr(words));
  EXPECT_THAT(text, testing::Not(HasSubstr("with a person")));
  ASSERT_EQ(drawn.canvas.pictures.size(), 2U);
  for (const DrawnPicture& one : drawn.canvas.pictures) {
    EXPECT_EQ(one.jpeg, picture);
    EXPECT_NEAR(one.area.width / one.area.height, 4.0 / 3, 0.01);
  }
  house.photos.clear();
  Drawn without;
  draw(make_record(house), options, without);
  EXPECT_THAT(words_of(without.canvas), testing::Not(HasSubstr("Photos")));
}

}  // namespace
}  // namespace ohmstead
