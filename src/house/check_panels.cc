// What must hold of panels, their breakers and circuits.

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "house/check.h"
#include "house/numbering.h"

namespace ohmstead::house_detail {

namespace {

constexpr int kMostSpaces = 200;

/// Are the places of all breakers of a tie one unbroken run down one column?
bool is_one_run(const Panel& panel, const std::vector<PolePlace>& places) {
  std::set<PanelPlace> rows;
  for (const PolePlace& place : places)
    if (const auto at = place_of(panel, place.space)) rows.insert(*at);
  if (rows.empty()) return false;
  return rows.begin()->column == rows.rbegin()->column &&
         rows.rbegin()->row - rows.begin()->row + 1 == static_cast<int>(rows.size());
}

}  // namespace

void check_row(Report& report, const Panel& panel) {
  check_name(report, panel.name);
  check_range(report, "spaces", panel.spaces, 1, kMostSpaces);
  check_range(report, "main_amps", panel.main_amps, 0, kMostAmps);
  if (panel.supply == Supply::breaker && !panel.feeder)
    report.add("feeder", "Panel '" + panel.name + "' is fed by a breaker, but by which one is missing.");
  if (panel.supply == Supply::position && !panel.position)
    report.add("position", "Panel '" + panel.name + "' is fed by a transfer position, but by which one is missing.");
  if (report.circular(panel))
    report.add("supply", "Panel '" + panel.name + "' feeds itself: follow its feeder and you come back to it.");
}

void check_row(Report& report, const Breaker& breaker) {
  check_range(report, "poles", breaker.poles, 1, 3);
  check_range(report, "amps", breaker.amps, 0, kMostAmps);
  const Panel* panel = report.find(breaker.panel);
  if (panel == nullptr) return report.add("panel", "A breaker is in no panel.");
  const std::string name = "Breaker " + breaker_number(*panel, breaker) + " of panel '" + panel->name + "'";
  if (!place_of(*panel, breaker.space))
    return report.add("space", name + ": the panel has spaces 1 to " + std::to_string(panel->spaces) + " only.");
  const auto places = pole_places(*panel, breaker);
  if (static_cast<int>(places.size()) < breaker.poles)
    return report.add("space", name + " runs out of the panel: there is no space below " +
                                   std::to_string(places.back().space) + ".");
  const int legs = report.legs(*panel);
  std::set<int> used;
  for (const PolePlace& place : places) used.insert(bus_leg(*panel, place.space, legs));
  if (static_cast<int>(used.size()) < std::min(breaker.poles, legs))
    report.add("poles", name + " has two poles on one leg.");
  if (breaker.poles > 1 && legs == 1 && leg_count(report.house().dwelling.system) > 1)
    report.add("poles", name + " has " + std::to_string(breaker.poles) + " poles on one leg: the panel is fed with one leg only.");
}

void check_row(Report& report, const Circuit& circuit) {
  if (!circuit.breaker) report.add("breaker", "A circuit has no breaker.");
  if (const Circuit* first = report.find(circuit.multiwire); first != nullptr && first->multiwire != first->id)
    report.add("multiwire", "A multiwire branch circuit carries the id of the first of its circuits, and so does that one.");
  check_range(report, "length_m", circuit.length_m, 0, 10'000);
}

void check_spaces_taken_once(Report& report) {
  const House& house = report.house();
  std::map<std::pair<Id<Panel>, PolePlace>, std::size_t> taken;
  const Index<Panel> panel_at(house.panels);
  for (std::size_t i = 0; i < house.breakers.size(); ++i) {
    const Breaker& breaker = house.breakers[i];
    const long at = panel_at.at(breaker.panel);
    if (at < 0) continue;
    const Panel& panel = house.panels[static_cast<std::size_t>(at)];
    report.at(Breaker::kTable, i);
    for (const PolePlace& place : pole_places(panel, breaker)) {
      const auto clash = [&](Half half) { return taken.contains({panel.id, {place.space, half}}); };
      const bool occupied = place.half == Half::whole ? clash(Half::whole) || clash(Half::a) || clash(Half::b)
                                                      : clash(Half::whole) || clash(place.half);
      if (occupied)
        report.add("space", "Two breakers are in space " + std::to_string(place.space) + " of panel '" + panel.name + "'.");
      taken.emplace(std::pair{panel.id, place}, i);
    }
  }
}

void check_breaker_ties(Report& report) {
  const House& house = report.house();
  std::map<Id<Breaker>, std::vector<std::size_t>> ties;
  for (std::size_t i = 0; i < house.breakers.size(); ++i)
    if (house.breakers[i].tie) ties[house.breakers[i].tie].push_back(i);
  for (const auto& [tie, members] : ties) {
    report.at(Breaker::kTable, members.front());
    if (members.size() < 2) report.add("tie", "A handle tie joins at least two breakers.");
    const Panel* panel = report.find(house.breakers[members.front()].panel);
    if (panel == nullptr) continue;
    std::vector<PolePlace> places;
    bool one_panel = true, names_a_member = false;
    for (const std::size_t i : members) {
      names_a_member = names_a_member || house.breakers[i].id == tie;
      one_panel = one_panel && house.breakers[i].panel == panel->id;
      std::ranges::copy(pole_places(*panel, house.breakers[i]), std::back_inserter(places));
    }
    if (!names_a_member) report.add("tie", "A handle tie carries the id of one of its own breakers.");
    if (!one_panel || !is_one_run(*panel, places))
      report.add("tie", "A handle tie joins breakers that are not neighbours in one column of one panel.");
  }
}

}  // namespace ohmstead::house_detail
