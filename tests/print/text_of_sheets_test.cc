// What another program reads from the PDF of each sheet and label is what was drawn, in that order and nothing else; and what was drawn has
// every text of the plain value that it was made from, in its order.
#include <gmock/gmock.h>

#include <algorithm>
#include <iterator>
#include <map>

#include "ask/floor_plan.h"
#include "ask/label_items.h"
#include "ask/packet.h"
#include "ask/plan_sheet.h"
#include "ask/room_directory.h"
#include "ask/signs.h"
#include "ask/wall_sheet.h"
#include "print/paper.h"
#include "print/symbols.h"
#include "rules/panel_cells.h"
#include "tests/print/decode.h"
#include "tests/print/set_of_sheets.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using test::SheetOfSet, test::SetOfSheets;
using Texts = std::vector<std::string>;

/// Without what does not print: spaces, line ends, marks of direction, and the break that a long word is given.
std::string bare(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const auto is = [&](std::string_view sign) { return text.compare(i, sign.size(), sign) == 0; };
    if (text[i] == ' ' || text[i] == '\n' || text[i] == '\f') ++i;
    else if (is("\u00A0")) i += 2;
    else if (is("\u200B") || is("\u200E") || is("\u200F") || is("\u202A") || is("\u202B") || is("\u202C")) i += 3;
    else out += text[i++];
  }
  return out;
}

std::string drawn(const SheetOfSet& sheet) {
  std::string all;
  for (const DrawnText& text : sheet.canvas.texts) all += bare(text.words);
  return all;
}

std::vector<std::string> characters(const std::string& text) {
  std::vector<std::string> all;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) == 0x80U && !all.empty()) all.back() += c;
    else all.emplace_back(1, c);
  }
  return all;
}

/// Letters of Hebrew and Arabic: their lead bytes in UTF-8.
bool from_right(const std::string& letter) { return letter.size() == 2 && static_cast<unsigned char>(letter[0]) >= 0xD6 && static_cast<unsigned char>(letter[0]) <= 0xDB; }

/// What no font can draw is printed, and read, as U+FFFD. The reader parts words that run from the right and moves the signs beside them:
/// on such a sheet the same characters are there, in whatever order.
void expect_same(const std::string& read, const std::string& drawn, const std::string& what) {
  std::vector<std::string> one = characters(read), other = characters(drawn);
  ASSERT_EQ(one.size(), other.size()) << what << " ends in: " << read.substr(read.size() > 80 ? read.size() - 80 : 0);
  if (std::ranges::any_of(other, from_right)) {
    for (auto* list : {&one, &other}) std::ranges::sort(*list);
    Texts read_alone;
    std::ranges::set_difference(one, other, std::back_inserter(read_alone));
    std::erase(read_alone, "\uFFFD");
    EXPECT_THAT(read_alone, testing::IsEmpty()) << what;
    return;
  }
  for (std::size_t i = 0; i < one.size(); ++i) {
    if (one[i] == other[i] || one[i] == "\uFFFD") continue;
    std::string before;
    for (std::size_t k = i > 60 ? i - 60 : 0; k < i; ++k) before += one[k];
    FAIL() << what << ": '" << one[i] << "' is read for '" << other[i] << "' after " << before;
  }
}

void expect_read_as_drawn(const SetOfSheets& sheets) {
  for (const auto& sheet : sheets)
    if (sheet->name != "copy") expect_same(bare(test::text_of_pdf(sheet->pdf)), drawn(*sheet), sheet->name);
}

TEST(TextOfSheets, is_read_from_the_pdf_in_the_order_in_which_it_was_drawn_and_nothing_else) { expect_read_as_drawn(test::set_of_sheets(test::planned_sample())); }

class TextOfSheetsMany : public testing::TestWithParam<std::uint64_t> {};
INSTANTIATE_TEST_SUITE_P(Ten, TextOfSheetsMany, testing::Range<std::uint64_t>(0, 10));
TEST_P(TextOfSheetsMany, is_read_from_the_pdf_of_houses_with_hostile_names_as_it_was_drawn) {
  for (std::uint64_t seed = 1 + 4 * GetParam(); seed <= 4 + 4 * GetParam(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    expect_read_as_drawn(test::sheets_without_plan(make_record(random_house(seed, 1 + static_cast<int>(seed % 4)))));
  }
}

/// Each of the texts, in this order, one after the other.
void expect_in_order(const std::string& all, const Texts& texts, const std::string& what) {
  std::size_t at = 0, found = 0;
  for (const std::string& text : texts) {
    const std::string wanted = bare(paper_text(text));
    if (wanted.empty()) continue;
    const std::size_t place = all.find(wanted, at);
    ASSERT_NE(place, std::string::npos) << what << ": '" << text << "' is not after '" << all.substr(at > 60 ? at - 60 : 0, std::min<std::size_t>(at, 60)) << "'";
    at = place + wanted.size(), ++found;
  }
  EXPECT_GT(found, 0U) << what;
}

const SheetOfSet& sheet_named(const SetOfSheets& sheets, const std::string& name, int which = 0) {
  for (const auto& sheet : sheets)
    if (sheet->name == name && which-- == 0) return *sheet;
  throw std::runtime_error("no sheet " + name);
}

Texts heads(const std::vector<LabelItem>& items) {
  Texts texts;
  for (const LabelItem& item : items)
    if (!item.heading) texts.push_back(item.lines[0].ways[0]);
  return texts;
}
Texts heads(const std::vector<LabelStrip>& strips) {
  Texts texts;
  for (const LabelStrip& strip : strips)
    for (const LabelCell& cell : strip.cells) texts.push_back(cell.item.lines[0].ways[0]);
  return texts;
}

Texts cells_of(const Record& record, const Panel& panel) {
  Texts texts;
  for (const PanelCell& cell : panel_cells(record.house, panel, panel_words(record.house, record.feeds, panel.id)).cells) {
    texts.insert(texts.end(), cell.numbers.begin(), cell.numbers.begin() + 1);
    texts.push_back(cell.text);
  }
  return texts;
}

Texts rooms_of(const RoomDirectory& directory) {
  Texts texts;
  for (const RoomDirectoryPart& part : directory.parts) {
    texts.push_back(part.room);
    for (const RoomDirectoryRow& row : part.rows) texts.insert(texts.end(), {row.what, row.breaker, row.backup});
  }
  texts.insert(texts.end(), directory.key.begin(), directory.key.end());
  return texts;
}

Texts plan_of(const PlanSheet& sheet) {
  Texts texts{sheet.what};
  for (const PlanSheetRow& row : sheet.rows) {
    texts.insert(texts.end(), {row.place, row.legs, row.breaker});
    for (const PlanSheetLoad& load : row.loads) texts.insert(texts.end(), {load.words, load.running, load.starting});
  }
  return texts;
}

Texts wall_of(const WallSheet& sheet) {
  Texts texts;
  for (const WallPart& part : sheet.parts) {
    texts.insert(texts.end(), {part.title, part.first});
    for (const WallItem& item : part.items) texts.push_back(item.text);
  }
  return texts;
}

Texts packet_of(const Packet& packet) {
  Texts texts;
  for (const PacketFact& fact : packet.cover) texts.insert(texts.end(), {fact.name, fact.value});
  texts.insert(texts.end(), packet.inside.begin(), packet.inside.end());
  texts.insert(texts.end(), packet.limits.begin(), packet.limits.end());
  for (const auto* groups : {&packet.shared, &packet.chains})
    for (const PacketGroup& group : *groups) {
      texts.push_back(group.head);
      texts.insert(texts.end(), group.items.begin(), group.items.end());
    }
  for (const char* standing : {"open", "disputed", "likely", "declared", "proved"})
    for (const PacketPoint& point : packet.points)
      if (point.standing == standing) texts.insert(texts.end(), {point.point, point.circuit});
  for (const PacketFinding& finding : packet.findings) texts.insert(texts.end(), {finding.text, finding.rule});
  texts.insert(texts.end(), packet.history.begin(), packet.history.end());
  return texts;
}

Texts floors_of(const FloorPlan& plan) {
  Texts texts;
  for (const PlanFloor& floor : plan.floors) texts.insert(texts.end(), {floor.name, floor.scale});
  for (const std::string& letter : plan.letters) texts.push_back(letter);
  for (const PlanFloor& floor : plan.floors)  // the list
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points) texts.insert(texts.end(), {point.name, point.label, point.standing});
  return texts;
}

Texts signs_of(const SignSet& set) {
  Texts texts;
  for (const std::string& words : set.not_decided) texts.push_back(words);
  for (const Sign& sign : set.signs) {
    texts.insert(texts.end(), {sign.where, sign.why, sign.rule, signal_word(sign.word), sign.title});
    texts.insert(texts.end(), sign.lines.begin(), sign.lines.end());
    texts.insert(texts.end(), sign.to_fill.begin(), sign.to_fill.end());
  }
  return texts;
}

TEST(TextOfSheets, has_every_text_of_the_value_in_its_order) {
  const Record& record = test::planned_sample();
  const SetOfSheets sheets = test::set_of_sheets(record);
  const LabelRecord from{record, ""};
  const PlanAnswer plan = kept_plan_for(record, 0);
  std::vector<std::size_t> points(record.house.points.size());
  for (std::size_t p = 0; p < points.size(); ++p) points[p] = p;
  for (std::size_t p = 0; p < record.house.panels.size(); ++p) expect_in_order(drawn(sheet_named(sheets, "directory", static_cast<int>(p))), cells_of(record, record.house.panels[p]), "directory");
  const std::vector<std::pair<std::string, Texts>> values{{"by room", rooms_of(room_directory(record))},
                                                          {"plates", heads(plate_labels(from, points))},
                                                          {"dots", heads(breaker_dots(from, std::nullopt))},
                                                          {"panels", heads(panel_labels(from, std::nullopt))},
                                                          {"strips", heads(breaker_strips(from, std::nullopt))},
                                                          {"transfer", heads(transfer_strips(from))},
                                                          {"plan", plan_of(plan_sheet(record, Names(record.house), plan))},
                                                          {"wall", wall_of(wall_sheet(record, plan))},
                                                          {"packet", packet_of(packet(record, 714, {}))},
                                                          {"floor-plan", floors_of(floor_plan(record, kPatterns))},
                                                          {"signs", signs_of(signs_for(record))}};
  for (const auto& [name, texts] : values) expect_in_order(drawn(sheet_named(sheets, name)), texts, name);
}

}  // namespace
}  // namespace ohmstead
