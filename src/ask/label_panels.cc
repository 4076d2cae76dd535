#include <array>
#include <map>

#include "ask/label_parts.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/circuit_phrases.h"
#include "rules/panel_cells.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/wording.h"

namespace ohmstead {

using namespace label_parts;

namespace {

constexpr std::size_t kLongestRoomName = 24;

std::vector<const Panel*> panels_meant(const House& house, std::optional<Id<Panel>> panel) {
  if (panel) return {&row(house, *panel)};
  std::vector<const Panel*> all;
  for (const Panel& one : house.panels) all.push_back(&one);
  return all;
}

std::vector<const Breaker*> breakers_in_order(const House& house, const Panel& panel) {
  std::vector<const Breaker*> breakers;
  for (const Breaker& breaker : house.breakers)
    if (breaker.panel == panel.id) breakers.push_back(&breaker);
  const auto place = [&](const Breaker* breaker) {
    const PanelPlace at = place_of(panel, breaker->space).value_or(PanelPlace{});
    return std::tuple{at.column, at.row, breaker->half};
  };
  std::ranges::stable_sort(breakers, {}, place);
  return breakers;
}

LabelItem panel_label(const LabelRecord& from, const Panel& panel) {
  const House& house = from.record.house;
  const std::string title = panel_title(panel), fed = fed_by_text(house, panel);
  const Room* room = find_row(house, panel.room);
  const std::string where = room == nullptr ? "" : label_name(room->name, kLongestRoomName);
  LabelItem item{"panel:" + panel.id.text(), "label of " + title, {}, {}, location_of(house, panel.room)};
  const std::string feed = fed.empty() ? "Supply not recorded" : "Fed by " + fed;
  const std::string main = panel.main_amps > 0 ? "Main " + std::to_string(panel.main_amps) + " A" : "No main breaker in it";
  add_line(item, {title}, true);
  add_line(item, {feed, fed.substr(0, fed.find(" (normally")) == fed ? "" : "Fed by " + fed.substr(0, fed.find(" (normally"))});
  const std::string volts = printable(volts_text(house.dwelling.system));
  add_line(item, {volts + ". " + main, volts});
  if (!where.empty()) add_line(item, {"In " + where});
  const std::string as_of = "As of " + from.as_of + ".";
  offer_code(item, {title + ".", feed + ".", main + ".", where.empty() ? "" : "In " + where + ".", as_of});
  offer_code(item, {title + ".", feed + ".", as_of});
  return item;
}

/// Before the dots of a panel.
LabelItem heading_of(const House& house, const Panel& panel) {
  LabelItem item{"", panel_title(panel), {}, {}, Location::dry, true};
  add_line(item, panel_title_ways(house, panel), true);
  return item;
}

/// "left", "right", or "" where there is one column.
std::string column_words(const PanelCells& table, int column) { return table.columns < 2 ? "" : column == 0 ? ", left" : ", right"; }

/// Ways to say what a circuit is, the exact one first. The last one does not grow with the house.
std::vector<std::string> circuit_ways(const WordingFacts& facts, const PanelCell& cell) {
  const auto items = fed_items(facts, cell.breaker);
  const std::string count = items.empty() ? "" : phrasings(facts, items, Detail::none).back();
  return {cell.text, count, "See list"};
}

LabelItem strip_label(const WordingFacts& facts, const Panel& panel, const PanelCell& cell, const std::string& as_of) {
  const std::string numbers = cell.numbers.size() > 1 ? cell.numbers.front() + "-" + cell.numbers.back() : cell.numbers.front();
  LabelItem item{"strip:" + (cell.breaker ? cell.breaker.text() : panel.id.text() + "-" + numbers), "strip cell " + numbers + " of " + panel_title(panel), {}, {}};
  add_line(item, {numbers}, true);
  if (!cell.breaker) return item;
  add_line(item, circuit_ways(facts, cell), true);
  const std::string amps = cell.amps > 0 ? std::to_string(cell.amps) + " A" : "";
  if (cell.mark.empty()) add_line(item, {amps});
  else add_line(item, {(amps.empty() ? "B" : amps + ", b") + "ackup " + cell.mark, "Backup " + cell.mark, cell.mark});
  const std::string breaker = "Breaker " + numbers + ", " + panel_title(panel) + ".", rating = amps.empty() ? "" : amps + ".", backup = cell.mark.empty() ? "" : "Backup " + cell.mark + ".", dated = "As of " + as_of + ".";
  for (const std::string& way : circuit_ways(facts, cell)) offer_code(item, {breaker, way + ".", rating, backup, dated});
  return item;
}

LabelStrip strip_of_column(const WordingFacts& facts, const LabelRecord& from, const Panel& panel, const PanelCells& table, int column) {
  const Location location = location_of(from.record.house, panel.room);
  LabelStrip strip;
  strip.key = "strip:" + panel.id.text() + ":" + std::to_string(column);
  strip.head = panel_title(panel) + column_words(table, column);
  strip.name = "strip of " + strip.head;
  for (const std::string& way : panel_title_ways(from.record.house, panel)) strip.short_heads.push_back(way + column_words(table, column));
  for (const PanelCell& cell : table.cells)
    if (cell.column == column) strip.cells.push_back({strip_label(facts, panel, cell, from.as_of), cell.first_half, cell.halves});
  for (LabelCell& cell : strip.cells) cell.item.location = location;
  std::ranges::sort(strip.cells, {}, &LabelCell::first_half);
  if (!strip.cells.empty()) strip.places = (strip.cells.back().first_half + strip.cells.back().halves + 1) / 2;  // of an odd panel the right column is shorter
  return strip;
}

}  // namespace

std::vector<LabelItem> breaker_dots(const LabelRecord& from, std::optional<Id<Panel>> panel) {
  const House& house = from.record.house;
  std::vector<LabelItem> items;
  const std::vector<const Panel*> panels = panels_meant(house, panel);
  for (const Panel* one : panels) {
    const std::vector<const Breaker*> breakers = breakers_in_order(house, *one);
    if (panels.size() > 1 && !breakers.empty()) items.push_back(heading_of(house, *one));
    for (const Breaker* breaker : breakers) {
      const std::string number = breaker_number(*one, *breaker);
      items.push_back({"dot:" + breaker->id.text(), "dot " + number + " of " + panel_title(*one), {{{number}, true}}, {}});
    }
  }
  return items;
}

std::vector<LabelItem> panel_labels(const LabelRecord& from, std::optional<Id<Panel>> panel) {
  std::vector<LabelItem> items;
  for (const Panel* one : panels_meant(from.record.house, panel)) items.push_back(panel_label(from, *one));
  return items;
}

std::vector<LabelStrip> breaker_strips(const LabelRecord& from, std::optional<Id<Panel>> panel) {
  const House& house = from.record.house;
  const WordingFacts facts = wording_facts(house, from.record.feeds);
  std::vector<LabelStrip> strips;
  for (const Panel* one : panels_meant(house, panel)) {
    const PanelCells table = panel_cells(house, *one, panel_words(house, from.record.feeds, one->id));
    for (int column = 0; column < table.columns; ++column) strips.push_back(strip_of_column(facts, from, *one, table, column));
  }
  return strips;
}

}  // namespace ohmstead
