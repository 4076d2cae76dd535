// Shared neutrals, sources and what is fed twice.

#include <algorithm>
#include <set>

#include "house/numbering.h"
#include "house/voltage.h"
#include "rules/calculation.h"
#include "rules/findings_look.h"

namespace ohmstead::findings_detail {

namespace {

std::vector<ThingRef> refs_of(const std::vector<const Breaker*>& breakers) {
  std::vector<ThingRef> refs;
  for (const Breaker* breaker : breakers) refs.push_back(thing(breaker->id));
  return refs;
}

/// Amperes that the neutral would carry with every breaker of the group at its rating; 0: a rating was not read, or no such leg.
double neutral_at_ratings(const House& house, const std::vector<const Breaker*>& breakers) {
  std::vector<LegCurrent> currents;
  for (const Breaker* breaker : breakers)
    for (const int leg : legs_of(house, *breaker)) {
      if (breaker->amps == 0 || leg > leg_count(house.dwelling.system)) return 0;
      currents.push_back({static_cast<double>(breaker->amps), leg});
    }
  return currents.empty() ? 0 : neutral_amps(house.dwelling.system, currents);
}

void find_one_leg(Look& look, const std::vector<const Breaker*>& breakers) {
  std::vector<int> legs;
  for (const Breaker* breaker : breakers) std::ranges::copy(legs_of(look.house(), *breaker), std::back_inserter(legs));
  std::ranges::sort(legs);
  if (std::ranges::adjacent_find(legs) == legs.end()) return;
  const double amps = neutral_at_ratings(look.house(), breakers);
  look.add("neutral_on_one_leg", Severity::danger, refs_of(breakers),
           names_of(look.house(), breakers) + " share one neutral and are on one leg: the neutral carries the sum of their currents" + (amps == 0 ? "." : ", " + plain_number(amps) + " A with each at its rating."),
           "No breaker sees the current in the neutral, and its wire overheats.");
  look.cite("phasor sum, computed");
}

void find_group(Look& look, const std::vector<const Breaker*>& breakers) {
  const std::string names = names_of(look.house(), breakers);
  std::set<std::uint64_t> ties, panels;
  std::size_t moved = 0;
  for (const Breaker* breaker : breakers) {
    ties.insert(breaker->tie ? breaker->tie.value : breaker->id.value);
    panels.insert(breaker->panel.value);
    moved += std::ranges::any_of(look.house().positions, [&](const Position& p) { return p.breaker == breaker->id; }) ? 1 : 0;
  }
  if (panels.size() > 1) {
    look.add("neutral_of_two_panels", Severity::danger, refs_of(breakers), names + " share one neutral and are in different panels: all conductors of a multiwire branch circuit begin in one panel.",
             "The neutral can carry current while its own panel is off.");
    look.cite("NFPA 70 210.4(A) (2008 and later), text");
  } else {
    find_one_leg(look, breakers);
  }
  if (ties.size() > 1) {
    look.add("neutral_untied", Severity::danger, refs_of(breakers), names + " share one neutral, and their handles are not tied: all hot conductors of a multiwire branch circuit open together.",
             "With one of them off, the neutral still carries the other's current, and whoever opens it is on the line.");
    look.cite("NFPA 70 210.4(B) (2008 and later; before, where both fed one yoke), secondary");
  }
  if (moved > 0 && moved < breakers.size()) {
    look.add("neutral_split_by_transfer", Severity::danger, refs_of(breakers), names + " share one neutral, and only " + (moved == 1 ? "one of them" : "some of them") + " can be moved to the source: the neutral would carry currents of two sources.",
             "Two sources that are not in step add up in the neutral, and nothing sees it.");
    look.cite("common practice, no source");
  }
}

/// Does the source come onto this panel as a whole: backfed, through a switch, or by the panel before it?
bool comes_on_whole(const House& house, const Panel& panel, Id<Source> source, std::size_t depth = 0) {
  if (std::ranges::any_of(house.breakers, [&](const Breaker& b) { return b.panel == panel.id && b.backfed_from == source; })) return true;
  const Position* position = panel.supply == Supply::position ? find_row(house, panel.position) : nullptr;
  const TransferDevice* device = position == nullptr ? nullptr : find_row(house, position->device);
  if (device != nullptr && device->source == source) return true;
  const Breaker* feeder = panel.supply == Supply::breaker ? find_row(house, panel.feeder) : nullptr;
  const Panel* before = feeder == nullptr ? nullptr : find_row(house, feeder->panel);
  return before != nullptr && depth < house.panels.size() && comes_on_whole(house, *before, source, depth + 1);
}

bool is_reached(const House& house, const Breaker& breaker, Id<Source> source) {
  const bool by_position = std::ranges::any_of(house.positions, [&](const Position& position) {
    const TransferDevice* device = find_row(house, position.device);
    return position.breaker == breaker.id && device != nullptr && device->source == source;
  });
  const Panel* panel = find_row(house, breaker.panel);
  return by_position || (panel != nullptr && comes_on_whole(house, *panel, source));
}

/// Does a source with one 120 V output reach two conductors or more of circuits that share a neutral?
void find_bridged(Look& look, const Source& source) {
  for (const auto& [id, breakers] : neutral_groups(look.house())) {
    std::vector<const Breaker*> reached;
    int poles = 0;
    for (const Breaker* breaker : breakers)
      if (is_reached(look.house(), *breaker, source.id)) reached.push_back(breaker), poles += breaker->poles;
    if (poles < 2) continue;  // one of two is neutral_split_by_transfer
    std::vector<ThingRef> things = refs_of(reached);
    things.insert(things.begin(), thing(source.id));
    const std::string share = reached.size() == 1 ? " has two hot conductors and one neutral" : " share a neutral";
    look.add("neutral_on_120_source", Severity::danger, things, source.name + " has one 120 V output, and " + names_of(look.house(), reached) + share + ": on this source the neutral carries the sum of their currents, and no breaker sees it.",
             "A neutral made for the difference of two currents overheats with their sum.");
    look.cite("NFPA 70 710.15(C), from memory");
  }
}

void find_bond(Look& look, const Source& source) {
  if (source.kind != SourceKind::generator || source.neutral == NeutralBond::floating) return;
  const bool known = source.neutral == NeutralBond::bonded;
  look.add("source_neutral", Severity::note, {thing(source.id)},
           source.name + (known ? ": its neutral is bonded to its frame, so the transfer gear must switch the neutral. Whether it does is not recorded."
                                : ": whether its neutral is bonded to its frame is not recorded. The transfer gear must fit, and the sign at the inlet says which."),
           "With two bonds current returns over the grounding wires, and a GFCI may trip or fail to.");
  look.cite(known ? "NFPA 70 250.30, from memory" : "NFPA 70 702.7(C), from memory");
}

}  // namespace

std::map<std::uint64_t, std::vector<const Breaker*>> neutral_groups(const House& house) {
  std::map<std::uint64_t, std::vector<const Breaker*>> groups;
  for (const Circuit& circuit : house.circuits)
    if (const Breaker* breaker = circuit.multiwire ? find_row(house, circuit.breaker) : nullptr) groups[circuit.multiwire.value].push_back(breaker);
  return groups;
}

std::string names_of(const House& house, const std::vector<const Breaker*>& breakers) {
  std::vector<std::string> names;
  for (const Breaker* breaker : breakers) names.push_back(breaker_label(house, breaker->id));
  return joined(names);
}

std::vector<int> legs_of(const House& house, const Breaker& breaker) {
  std::vector<int> legs;
  const Panel* panel = find_row(house, breaker.panel);
  if (panel == nullptr) return legs;
  for (const PolePlace& place : pole_places(*panel, breaker)) legs.push_back(bus_leg(*panel, place.space, std::max(1, panel_legs(house, *panel))));
  return legs;
}

void find_neutrals(Look& look) {
  for (const Breaker& breaker : look.house().breakers) {
    const auto moves_with_it = [&](const HandleRef& handle) { return handle.kind == HandleKind::breaker && open_together(look.house(), {handle.id}, breaker.id); };
    const bool locked = std::ranges::any_of(look.house().interlocks, [&](const Interlock& lock) { return moves_with_it(lock.first) || moves_with_it(lock.second); });
    if (!breaker.backfed_from || locked) continue;
    look.add("backfed_without_interlock", Severity::danger, {thing(breaker.id)}, breaker_label(look.house(), breaker.id) + " is fed backwards from a source, and no interlock is recorded: the source and the utility can be tied together by mistake.",
             "A source on the street's lines can kill whoever works on them.");
    look.cite("NFPA 70 702.5, secondary");
  }
  for (const auto& [id, breakers] : neutral_groups(look.house()))
    if (breakers.size() > 1) find_group(look, breakers);
  for (const Source& source : look.house().sources)
    if (source.output != SourceOutput::full) find_bridged(look, source);
  for (const Source& source : look.house().sources) find_bond(look, source);
}

}  // namespace ohmstead::findings_detail
