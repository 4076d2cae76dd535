// Wires and their breakers, positions of transfer devices, and what hangs on a circuit in amperes.

#include <algorithm>

#include "house/numbering.h"
#include "rules/calculation.h"
#include "rules/conductor.h"
#include "rules/findings_look.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"

namespace ohmstead::findings_detail {

namespace {

std::string amps_of(double amps) { return number_text(amps, amps < 100 && amps != static_cast<int>(amps) ? 1 : 0) + " A"; }

/// Is a motor or compressor recorded on it? Then 240.4(G) lets its breaker be larger.
bool feeds_motor(const Look& look, Id<Breaker> breaker) {
  constexpr const char* kMotors[] = {"pump", "compressor", "air condition", "heat pump", "motor", "saw", "welder"};
  const auto says = [&](const std::string& name) { return std::ranges::any_of(kMotors, [&](const char* word) { return holds_word(name, word); }); };
  return std::ranges::any_of(points_on(look, breaker), [&](std::size_t p) {
    const Point& point = look.house().points[p];
    return says(point.name) || std::ranges::any_of(look.house().loads, [&](const Load& load) { return load.point == point.id && (load.horsepower_hundredths > 0 || !load.code_letter.empty() || says(load.name)); });
  });
}

/// Most amperes of the breaker before this wire, at the best terminals there are; and the rule.
std::pair<int, std::string> most_before(const WireSize& size, WireMaterial metal) {
  if (const int small = small_conductor_amps(size, metal, kNewestEdition); small > 0) return {small, "NFPA 70 240.4(D), secondary"};
  const int table = table_310_16_amps(size, metal, 75, kNewestEdition);
  return {table == 0 ? 0 : standard_rating_from(table, kNewestEdition), "NFPA 70 310.16 (75 C column) and 240.4(B), secondary"};
}

/// A feeder may be the one that carries the whole dwelling, and then 83 % of its breaker's rating is enough for the wire.
bool may_be_main_feeder(const House& house, const Breaker& breaker, const WireSize& size, WireMaterial metal) {
  constexpr double kShare = 0.83;
  const bool feeds_panel = std::ranges::any_of(house.panels, [&](const Panel& panel) { return feeder_of(house, panel) == breaker.id; });
  return feeds_panel && breaker.amps >= 100 && breaker.amps <= 400 && table_310_16_amps(size, metal, 75, kNewestEdition) >= breaker.amps * kShare;
}

void find_wire(Look& look, const Circuit& circuit) {
  const Breaker* breaker = find_row(look.house(), circuit.breaker);
  const auto size = find_wire_size(circuit.wire);
  if (breaker == nullptr || !size || breaker->amps == 0) return;
  const auto [most, rule] = most_before(*size, circuit.material);
  if (most == 0 || breaker->amps <= most) return;
  const bool motor = feeds_motor(look, breaker->id), main = may_be_main_feeder(look.house(), *breaker, *size, circuit.material);
  look.add("breaker_over_wire", motor || main ? Severity::note : Severity::danger, {thing(breaker->id)},
           breaker_label(look.house(), breaker->id) + ": wire " + size_text(*size) + (circuit.material == WireMaterial::not_known ? ", taken as copper," : " " + metal_text(circuit.material)) + " behind " + std::to_string(breaker->amps) + " A; the limit is " + std::to_string(most) + " A." +
               (main ? " If this feeder carries the whole dwelling, 83 % of the breaker's rating is enough and it is right (310.12, from memory); a subpanel's is not." : motor ? " A motor or compressor is on it, and its nameplate may allow more." : " Circuits of motors and compressors may have more."),
           "The wire can overheat in the wall before the breaker trips.");
  look.cite(rule);
}

/// Ordinary receptacles and lights of 120 V belong on 15 or 20 A; a single receptacle may have a larger circuit of its own.
void find_large_breaker(Look& look, const Breaker& breaker) {
  if (breaker.amps <= 20 || breaker.backfed_from) return;
  std::vector<std::size_t> small;
  for (const std::size_t p : points_on(look, breaker.id))
    if (const Point& point = look.house().points[p]; point.hots == 1 && point.rating_amps == 0 && (point.kind == PointKind::receptacle || point.kind == PointKind::light)) small.push_back(p);
  if (small.size() < 2 || look.house().dwelling.system == VoltageSystem::single_230) return;
  std::vector<ThingRef> things{thing(breaker.id)};
  for (const std::size_t p : small) things.push_back(thing(look.house().points[p].id));
  look.add("receptacles_on_large_breaker", Severity::fix, things, breaker_label(look.house(), breaker.id) + " of " + std::to_string(breaker.amps) + " A feeds " + std::to_string(small.size()) + " receptacles or lights of 120 V, among them " + point_label(look.house(), small[0]) + ".",
           "Receptacles and cords made for 15 and 20 A can burn before this breaker trips.");
  look.cite("NFPA 70 210.21(B)(3) and 210.23, secondary");
  look.rests_on(small);
}

void find_position(Look& look, const Position& position) {
  const Breaker* breaker = find_row(look.house(), position.breaker);
  const TransferDevice* device = find_row(look.house(), position.device);
  if (breaker == nullptr || device == nullptr || breaker->amps == 0 || position.amps <= breaker->amps) return;
  look.add("position_over_breaker", Severity::danger, {thing(position.id), thing(breaker->id)},
           with_capital(transfer_device_text(look.house(), device->id)) + ", position " + std::to_string(position.number) + ", has a breaker of " + std::to_string(position.amps) + " A and carries " + breaker_label(look.house(), breaker->id) + " of " + std::to_string(breaker->amps) +
               " A: on the source nothing protects its wire at the lower rating, unless the wire is larger.",
           "On the source the wire can overheat before the position's breaker trips.");
  look.cite("NFPA 70 240.4(D), secondary");
}

/// Ratings of all breakers of a tie together: which of them feeds a load cannot be seen.
int rated_with_ties(const House& house, const Breaker& breaker) {
  int rated = 0;
  for (const Breaker& one : house.breakers) rated += one.id == breaker.id || (breaker.tie && one.tie == breaker.tie) ? one.amps : 0;
  return rated;
}

void find_load(Look& look, const BreakerLoad& load) {
  const Breaker* breaker = find_row(look.house(), load.breaker);
  if (breaker == nullptr || breaker->amps == 0) return;
  const int rated = rated_with_ties(look.house(), *breaker);
  const std::string name = breaker_label(look.house(), breaker->id);
  if (load.amps > rated) {
    look.add("overload", Severity::fix, {thing(breaker->id)}, name + ": the loads recorded on it draw " + amps_of(load.amps) + " if all run at once, and it is rated " + std::to_string(rated) + " A.", "It trips when they do, and in an outage nobody has time for that.");
    look.cite("connected load, computed");
  } else if (load.continuous_amps * 1.25 + (load.amps - load.continuous_amps) > rated + 1e-9) {
    look.add("continuous_load", Severity::fix, {thing(breaker->id)}, name + " of " + std::to_string(rated) + " A carries " + amps_of(load.continuous_amps) + " for three hours or more" + (load.amps > load.continuous_amps ? " and " + amps_of(load.amps - load.continuous_amps) + " besides" : "") + ": 125 % of the first and 100 % of the rest are more than its rating.",
             "A breaker that is loaded for hours runs hot, trips early and ages.");
    look.cite("NFPA 70 210.20(A), secondary");
  }
  for (const Position& position : look.house().positions) {
    if (position.breaker != load.breaker || position.amps == 0 || load.wanted_amps <= position.amps + 1e-9) continue;
    look.add("position_overload", Severity::fix, {thing(position.id), thing(breaker->id)}, "Position " + std::to_string(position.number) + " of " + std::to_string(position.amps) + " A carries " + name + ", and what is wanted together on it in an outage draws " + amps_of(load.wanted_amps) + ".",
             "It trips in the outage, and takes down what matters with what does not.");
    look.cite("connected load, computed");
  }
}

}  // namespace

void find_wires(Look& look) {
  for (const Circuit& circuit : look.house().circuits) find_wire(look, circuit);
  for (const Position& position : look.house().positions) find_position(look, position);
  for (const Breaker& breaker : look.house().breakers) find_large_breaker(look, breaker);
}

void find_loads(Look& look) {
  for (const BreakerLoad& load : look.input.loads) find_load(look, load);
}

}  // namespace ohmstead::findings_detail
