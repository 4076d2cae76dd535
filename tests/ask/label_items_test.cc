// What labels say, in made houses and in any house: what to switch off, what is not known, and nothing that may not stand there.
#include "ask/label_items.h"

#include <gmock/gmock.h>

#include <set>

#include "ask/room_directory.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/plain_words.h"
#include "rules/wording.h"
#include "survey/entry.h"
#include "tests/print/house_maker.h"
#include "tests/support/proved_house.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using test::HouseMaker;
using testing::AllOf;
using testing::ElementsAre;
using testing::EndsWith;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;
using testing::StartsWith;

constexpr const char* kAsOf = "2026-11-25 rev 12";

/// First ways of all lines.
std::vector<std::string> said(const LabelItem& item) {
  std::vector<std::string> lines;
  for (const LabelLine& line : item.lines) lines.push_back(line.ways.front());
  return lines;
}

struct Small : HouseMaker {
  Id<Room> kitchen = room("Kitchen", floor("Ground floor", 0)), hall = room("Hall", house.floors[0].id), garage = room("Garage", house.floors[0].id);
  Id<Panel> main = panel("Main", garage, 20);
  Id<Breaker> one = breaker(main, 1), three = breaker(main, 3), five = breaker(main, 5, 2);
  Id<Point> counter = point(one, kitchen, "receptacle 1"), second = point(one, kitchen, "receptacle 2"), light = point(one, hall, "light", PointKind::light);
  Id<Point> range = point(five, kitchen, "range", PointKind::appliance), unknown = point({}, hall, "receptacle 1");

  [[nodiscard]] Record record() const { return make_record(house); }
  [[nodiscard]] std::size_t at(Id<Point> id) const { return static_cast<std::size_t>(Index<Point>(house.points).at(id)); }
  void add_backup() {
    const auto source = add(house.sources, Source{next<Source>(), "Generator", SourceKind::generator, SourceOutput::full, 3600, 4500});
    TransferDevice device;
    device.id = next<TransferDevice>(), device.name = "T", device.room = garage, device.source = source;
    add(house.transfer_devices, device);
    for (int number = 1; number <= 4; ++number) {
      Position position;
      position.id = next<Position>(), position.device = device.id, position.number = number, position.amps = 20, position.leg = 1 + number % 2;
      house.positions.push_back(position);
    }
  }
  void carry(int number, Id<Breaker> breaker, int pole = 1) {
    Position& position = house.positions[static_cast<std::size_t>(number - 1)];
    position.breaker = breaker, position.pole = pole;
  }
};

LabelItem plate_of(const Record& record, std::size_t point) { return plate_labels({record, kAsOf}, {point}).at(0); }

TEST(Plates, say_breaker_panel_backup_name_and_what_else_goes_off) {
  Small small;
  small.add_backup();
  small.carry(3, small.one);
  const Record record = small.record();
  const LabelItem item = plate_of(record, small.at(small.counter));
  EXPECT_EQ(item.key, "plate:" + small.counter.text());
  EXPECT_EQ(item.name, "plate of Kitchen receptacle 1");
  EXPECT_THAT(said(item), ElementsAre("Breaker 1", "Panel Main", "Backup position 3", "Kitchen receptacle 1", "Also off: Kitchen receptacle; Hall light"));
  EXPECT_EQ(item.codes.front(), "Breaker 1, Panel Main. Kitchen receptacle 1. Backup position 3. Also off with it, Kitchen receptacle; Hall light. As of 2026-11-25 rev 12.");
  const LabelItem range = plate_of(record, small.at(small.range));
  EXPECT_THAT(said(range), ElementsAre("Breaker 5-7", "Panel Main", "Not on backup", "Kitchen range", "Nothing else known to go off"));
}

TEST(Plates, a_point_that_is_not_traced_says_so_and_nothing_is_called_dead) {
  const Small small;
  const LabelItem item = plate_of(small.record(), small.at(small.unknown));
  EXPECT_THAT(said(item), ElementsAre("Breaker not found yet", "Hall receptacle 1"));
  for (const std::string& code : item.codes) EXPECT_THAT(code, AllOf(StartsWith("Breaker not found yet."), Not(HasSubstr("dead"))));
}

TEST(Plates, what_is_only_likely_carries_its_sign_in_words_and_code) {
  const Small small;
  Record record = small.record();
  record.feeds.of_point[small.at(small.counter)].standing = Standing::likely;
  record.feeds.of_point[small.at(small.second)].standing = Standing::disputed;
  for (const Id<Point> id : {small.counter, small.second}) {
    const LabelItem item = plate_of(record, small.at(id));
    EXPECT_EQ(said(item)[0], "Breaker 1?");
    for (const std::string& way : item.lines[0].ways) EXPECT_THAT(way, EndsWith("?"));
    EXPECT_THAT(item.codes.front(), StartsWith("Breaker 1? (not proved), Panel Main."));
    EXPECT_TRUE(std::ranges::any_of(item.lines, [](const LabelLine& line) { return line.required && line.ways[0] == "?: not proved yet, may be wrong"; }));
  }
  record.feeds.of_point[small.at(small.counter)].standing = Standing::proved;
  EXPECT_EQ(said(plate_of(record, small.at(small.counter)))[0], "Breaker 1");
}

TEST(Plates, tied_handles_and_a_subpanel_on_the_breaker_go_off_too) {
  Small small;
  for (Breaker& breaker : small.house.breakers)
    if (breaker.id == small.one || breaker.id == small.three) breaker.tie = small.one;
  small.point(small.three, small.garage, "door opener", PointKind::appliance);
  EXPECT_THAT(said(plate_of(small.record(), small.at(small.counter))).back(), HasSubstr("Garage door opener"));
  Panel shed{small.next<Panel>(), "Shed", small.garage, 6, Numbering::odd_left_even_right, Supply::breaker, small.one, {}, 0};
  small.house.panels.push_back(shed);
  EXPECT_THAT(said(plate_of(small.record(), small.at(small.counter))).back(), StartsWith("Also off: A subpanel; "));
}

TEST(Plates, halves_with_one_feed_share_a_label_and_halves_with_two_do_not) {
  Small small;
  const auto split = [&](Id<Breaker> upper, Id<Breaker> lower) {
    const Id<Point> a = small.point(upper, small.garage, "receptacle " + std::to_string(small.house.points.size()) + " upper"),
                    b = small.point(lower, small.garage, "receptacle " + std::to_string(small.house.points.size() - 1) + " lower");
    row(small.house, a).half = ReceptacleHalf::upper, row(small.house, b).half = ReceptacleHalf::lower;
    row(small.house, a).mate = b, row(small.house, b).mate = a;
    return std::vector<std::size_t>{small.at(a), small.at(b)};
  };
  const auto same = split(small.one, small.one), two = split(small.one, small.three);
  const Record record = small.record();
  ASSERT_THAT(plate_labels({record, kAsOf}, same), SizeIs(1));
  EXPECT_THAT(plate_labels({record, kAsOf}, same)[0].name, EndsWith("(both halves)"));
  EXPECT_THAT(plate_labels({record, kAsOf}, two), SizeIs(2));
}

TEST(Plates, names_of_persons_and_signs_that_mean_something_are_not_on_them) {
  Small small;
  small.house.rooms[0].name = "Bob's room?";
  small.house.points[0].name = "Ann's lamp: left; right";
  const Record record = small.record();
  const LabelItem item = plate_of(record, 0);
  for (const LabelLine& line : item.lines)
    for (const std::string& way : line.ways) EXPECT_THAT(way, AllOf(Not(HasSubstr("'s")), Not(HasSubstr("?")), Not(HasSubstr("; right"))));
  for (const std::string& code : item.codes) EXPECT_THAT(code, AllOf(Not(HasSubstr("'s")), Not(HasSubstr(":"))));
}

TEST(Plates, keys_stay_the_same_when_other_things_change) {
  Small small;
  const std::string before = plate_of(small.record(), small.at(small.counter)).key;
  small.house.rooms[0].name = "Cookroom";
  small.house.points.insert(small.house.points.begin(), small.house.points.back());
  small.house.points.pop_back();
  EXPECT_EQ(plate_of(small.record(), small.at(small.counter)).key, before);
}

void check_ways(const LabelItem& item) {
  ASSERT_FALSE(item.lines.empty());
  EXPECT_TRUE(item.lines[0].required);
  for (const LabelLine& line : item.lines) {
    ASSERT_FALSE(line.ways.empty());
    for (std::size_t i = 0; i < line.ways.size(); ++i) {
      EXPECT_EQ(line.ways[i], printable(line.ways[i])) << "one line, no controls";
      if (i > 0) { EXPECT_LT(line.ways[i].size(), line.ways[i - 1].size()); }
    }
    if (line.required) { EXPECT_LE(character_count(line.ways.back()), 40u) << item.name << ": what must be there is short"; }
  }
}

/// Numbers of the breakers on a point, as they are stamped.
std::vector<std::string> numbers_of(const Record& record, std::size_t point) {
  std::vector<std::string> numbers;
  for (const Tap& tap : record.feeds.of_point[point].taps)
    if (const Breaker* breaker = find_row(record.house, tap.breaker)) numbers.push_back(breaker_number(row(record.house, breaker->panel), *breaker));
  return numbers;
}

TEST(Labels, in_any_house_codes_are_short_end_in_a_sign_and_begin_with_the_answer) {
  std::size_t codes = 0, not_found = 0;
  std::set<std::string> keys;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 6)));
    for (std::size_t p = 0; p < record.house.points.size(); ++p) {
      SCOPED_TRACE("seed " + std::to_string(seed) + " point " + std::to_string(p));
      const LabelItem item = plate_of(record, p);
      check_ways(item);
      const auto numbers = numbers_of(record, p);
      not_found += numbers.empty();
      for (const std::string& code : item.codes) {
        EXPECT_LE(code.size(), kMostLabelCodeBytes);
        EXPECT_THAT(code, AllOf(EndsWith("."), Not(HasSubstr(":"))));
        const std::string front = code.substr(0, 40);
        if (numbers.empty()) { EXPECT_THAT(front, StartsWith("Breaker not found yet.")); }
        for (const std::string& number : numbers) { EXPECT_THAT(front, HasSubstr(number)); }
        ++codes;
      }
    }
    for (const LabelItem& item : panel_labels({record, kAsOf}, std::nullopt)) {
      check_ways(item);
      for (const std::string& code : item.codes) EXPECT_LE(code.size(), kMostLabelCodeBytes);
      EXPECT_TRUE(keys.insert(item.key).second);
    }
  }
  EXPECT_GT(codes, 1000u);
  EXPECT_GT(not_found, 10u);
}

void check_strip(const LabelStrip& strip) {
  int end = 0;
  for (const LabelCell& cell : strip.cells) {
    check_ways(cell.item);
    EXPECT_EQ(cell.first_half, end) << strip.name << ": no gap and nothing over another";
    EXPECT_GT(cell.halves, 0);
    end = cell.first_half + cell.halves;
  }
  EXPECT_EQ(end, 2 * strip.places) << strip.name;
}

TEST(Strips, in_any_house_cells_fill_their_strip_in_order) {
  std::size_t strips = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 6)));
    SCOPED_TRACE("seed " + std::to_string(seed));
    for (const LabelStrip& strip : breaker_strips({record, kAsOf}, std::nullopt)) check_strip(strip), ++strips;
    for (const LabelStrip& strip : transfer_strips({record, kAsOf})) check_strip(strip), ++strips;
  }
  EXPECT_GT(strips, 40u);
}

TEST(Strips, of_a_panel_have_the_words_of_its_directory_and_two_poles_are_one_tall_cell) {
  Small small;
  small.add_backup();
  small.carry(3, small.one);
  const Record record = small.record();
  const auto strips = breaker_strips({record, kAsOf}, small.main);
  ASSERT_THAT(strips, SizeIs(2));
  EXPECT_EQ(strips[0].head, "Panel Main, left");
  EXPECT_EQ(strips[0].places, 10);
  EXPECT_THAT(said(strips[0].cells[0].item), ElementsAre("1", circuit_description(record.house, record.feeds, small.one), "20 A, backup G3"));
  const auto tall = std::ranges::find_if(strips[0].cells, [](const LabelCell& cell) { return cell.item.lines[0].ways[0] == "5-7"; });
  ASSERT_NE(tall, strips[0].cells.end());
  EXPECT_EQ(tall->first_half, 4);
  EXPECT_EQ(tall->halves, 4);
  EXPECT_THAT(said(strips[0].cells.back().item), ElementsAre("19")) << "an empty space has its number alone";
}

TEST(Dots, have_the_number_of_each_breaker_column_by_column) {
  const Small small;
  std::vector<std::string> numbers;
  for (const LabelItem& item : breaker_dots({small.record(), kAsOf}, std::nullopt)) numbers.push_back(item.lines[0].ways[0]);
  EXPECT_THAT(numbers, ElementsAre("1", "3", "5-7"));
  const auto of_points = point_dots({small.record(), kAsOf}, {small.at(small.range), small.at(small.unknown)});
  EXPECT_EQ(said(of_points[0])[0], "5-7");
  EXPECT_EQ(said(of_points[1])[0], "?");
}

Record transfer_house(bool wired) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, std::string("Cellar: freezer 100/400 W nameplate !, well pump 240 V 750/2200 W nameplate !, 1l\nKitchen: microwave 1100 W nameplate, 1l\n"
                                        "Panel Main in Cellar 12 spaces, 100 A main: 1 20; 3 15; 2+4 20\nBy J.\nCellar freezer <- Main 3\nCellar well pump <- Main 2+4\nKitchen microwave <- Main 1\n"
                                        "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 4 positions from G: 1 15") +
                                (wired ? " <- Main 3" : "") + "; 2 20; 3+4 20\n").house;
  for (Load& load : house.loads)
    if (load.name == "microwave") load.use = LoadUse::on_demand;
  const auto breaker = [&](int space) { return std::ranges::find(house.breakers, space, &Breaker::space)->id; };
  const auto position = [&](int number) { return std::ranges::find(house.positions, number, &Position::number)->id; };
  house.planned = {{Id<Planned>::fresh(), breaker(3), 1, position(1)}, {Id<Planned>::fresh(), breaker(1), 1, position(2)},
                   {Id<Planned>::fresh(), breaker(2), 1, position(3)}, {Id<Planned>::fresh(), breaker(2), 2, position(4)}};
  return make_record(std::move(house));
}

TEST(TransferStrip, says_what_each_position_carries_its_watts_and_whether_that_is_wired) {
  const Record record = transfer_house(true);
  const auto wired = transfer_strips({record, kAsOf});
  ASSERT_THAT(wired, SizeIs(1));
  EXPECT_THAT(wired[0].head, EndsWith(", as wired"));
  ASSERT_THAT(wired[0].cells, SizeIs(4));
  EXPECT_THAT(said(wired[0].cells[0].item), ElementsAre("1", "Cellar freezer", "100 W, 400 W to start", "Breaker 3 of Panel Main", "wired now, not proved"));
  EXPECT_THAT(said(wired[0].cells[1].item), ElementsAre("2", "nothing wired"));
  const auto planned = transfer_strips({record, kAsOf}, StripOf::kept_plan);
  EXPECT_THAT(planned[0].head, EndsWith(", by the plan"));
  ASSERT_THAT(planned[0].cells, SizeIs(3)) << "tied positions with one breaker are one cell";
  EXPECT_EQ(said(planned[0].cells[0].item).back(), "wired now, not proved");
  EXPECT_THAT(said(planned[0].cells[1].item), ElementsAre("2", "Kitchen microwave", "1,100 W when wanted", "Breaker 1 of Panel Main", "PLAN, not wired yet"));
  EXPECT_THAT(said(planned[0].cells[2].item), ElementsAre("3-4", "Cellar well pump", "750 W, 2,200 W to start", "Breaker 2-4 of Panel Main", "PLAN, not wired yet"));
  EXPECT_EQ(planned[0].cells[2].halves, 4);
}

TEST(TransferStrip, shows_the_plan_where_nothing_is_wired_and_refuses_one_that_is_not_kept) {
  Record record = transfer_house(false);
  EXPECT_THAT(transfer_strips({record, kAsOf})[0].head, EndsWith(", by the plan"));
  record.house.planned.clear();
  EXPECT_THAT(transfer_strips({record, kAsOf})[0].head, EndsWith(", as wired"));
  EXPECT_THROW((void)transfer_strips({record, kAsOf}, StripOf::kept_plan), Error);
}

TEST(TransferStrip, and_every_plate_says_what_proving_found) {
  const Record good = after_proving(false), bad = after_proving(true);
  EXPECT_EQ(said(transfer_strips({good, kAsOf})[0].cells[0].item).back(), "wired now, proved");
  EXPECT_THAT(said(plate_of(good, 0)), testing::Contains("Backup position 1"));
  EXPECT_EQ(room_directory(good).parts[0].rows[0].backup, "G1");
  EXPECT_EQ(said(transfer_strips({bad, kAsOf})[0].cells[0].item).back(), "FOUND WRONG, do not use");
  const LabelItem plate = plate_of(bad, 0);
  EXPECT_THAT(said(plate), testing::Contains("Backup position 1, FOUND WRONG"));
  for (const LabelLine& line : plate.lines)
    if (line.ways[0].starts_with("Backup")) { EXPECT_THAT(line.ways, testing::Each(HasSubstr("WRONG"))); }
  EXPECT_THAT(plate.codes, testing::Each(HasSubstr("FOUND WRONG")));
  EXPECT_EQ(room_directory(bad).parts[0].rows[0].backup, "G1!");
  EXPECT_THAT(room_directory(bad).key, testing::Contains("!: proving found the wiring of this position wrong: do not use it."));
}

TEST(PanelLabels, say_what_feeds_the_panel_and_where_it_is) {
  Small small;
  Panel shed{small.next<Panel>(), "Shed", small.garage, 6, Numbering::odd_left_even_right, Supply::breaker, small.five, {}, 60};
  small.house.panels.push_back(shed);
  const auto items = panel_labels({small.record(), kAsOf}, std::nullopt);
  ASSERT_THAT(items, SizeIs(2));
  EXPECT_THAT(said(items[0]), ElementsAre("Panel Main", "Fed by the utility", "120/240 V. No main breaker in it", "In Garage"));
  EXPECT_THAT(said(items[1]), ElementsAre("Panel Shed", "Fed by breaker 5-7 of Panel Main", "120/240 V. Main 60 A", "In Garage"));
}

}  // namespace
}  // namespace ohmstead
