// What stands against a rule of the trade in this record, with the rule and how the rule is known (docs/standards.md).

#include <algorithm>
#include <map>
#include <set>

#include "ask/packet.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "house/index.h"
#include "house/invariants.h"
#include "rules/panel_text.h"

namespace ohmstead {

namespace {

using Findings = std::vector<PacketFinding>;

/// Circuits by what they share a neutral with.
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

void find_shared_neutrals(const House& house, Findings& found) {
  for (const auto& [id, breakers] : neutral_groups(house)) {
    if (breakers.size() < 2) continue;
    const std::string names = names_of(house, breakers);
    std::set<std::uint64_t> ties;
    std::vector<int> legs;
    std::size_t moved = 0;
    for (const Breaker* breaker : breakers) {
      ties.insert(breaker->tie ? breaker->tie.value : breaker->id.value);
      std::ranges::copy(legs_of(house, *breaker), std::back_inserter(legs));
      moved += std::ranges::any_of(house.positions, [&](const Position& p) { return p.breaker == breaker->id; }) ? 1 : 0;
    }
    std::ranges::sort(legs);
    if (std::ranges::adjacent_find(legs) != legs.end())
      found.push_back({names + " share one neutral and are on one leg: the neutral carries the sum of their currents.", "phasor sum, computed", true});
    if (ties.size() > 1)
      found.push_back({names + " share one neutral, and their handles are not tied: all hot conductors of a multiwire branch circuit open together.", "NFPA 70 210.4(B), secondary", true});
    if (moved > 0 && moved < breakers.size())
      found.push_back({names + " share one neutral, and only " + (moved == 1 ? "one of them" : "some of them") + " can be moved to the source: the neutral would carry currents of two sources.", "common practice, no source", true});
  }
}

void find_backfed(const House& house, Findings& found) {
  for (const Breaker& breaker : house.breakers) {
    const HandleRef own{HandleKind::breaker, breaker.id.value};
    const bool locked = std::ranges::any_of(house.interlocks, [&](const Interlock& lock) { return lock.first == own || lock.second == own; });
    if (breaker.backfed_from && !locked)
      found.push_back({breaker_label(house, breaker.id) + " is fed backwards from a source, and no interlock is recorded: the source and the utility can be tied together by mistake.", "NFPA 70 702.5, secondary", true});
  }
}

/// Most amperes of the breaker before a small conductor; 0 where the rule says nothing.
int small_conductor_amps(const Circuit& circuit) {
  const bool aluminum = circuit.material == WireMaterial::aluminium || circuit.material == WireMaterial::copper_clad_aluminium;
  if (circuit.wire == "14") return aluminum ? 0 : 15;
  if (circuit.wire == "12") return aluminum ? 15 : 20;
  if (circuit.wire == "10") return aluminum ? 25 : 30;
  return 0;
}

void find_wires(const House& house, Findings& found) {
  for (const Circuit& circuit : house.circuits) {
    const Breaker* breaker = find_row(house, circuit.breaker);
    const int most = small_conductor_amps(circuit);
    if (breaker == nullptr || most == 0 || breaker->amps <= most) continue;
    const std::string metal = circuit.material == WireMaterial::not_known ? ", taken as copper," : "";
    found.push_back({breaker_label(house, breaker->id) + ": wire " + circuit.wire + " AWG" + metal + " behind " + std::to_string(breaker->amps) + " A; the limit is " + std::to_string(most) + " A. Circuits of motors and compressors may have more.",
                     "NFPA 70 240.4(D), secondary", true});
  }
}

void find_positions(const House& house, Findings& found) {
  for (const Position& position : house.positions) {
    const Breaker* breaker = find_row(house, position.breaker);
    const TransferDevice* device = find_row(house, position.device);
    if (breaker == nullptr || device == nullptr || breaker->amps == 0 || position.amps <= breaker->amps) continue;
    found.push_back({sentence::capital(transfer_device_text(house, device->id)) + ", position " + std::to_string(position.number) + ", has a breaker of " + std::to_string(position.amps) + " A and carries " + breaker_label(house, breaker->id) + " of " + std::to_string(breaker->amps) +
                         " A: on the source nothing protects its wire at the lower rating, unless the wire is larger.", "NFPA 70 240.4(D), secondary", true});
  }
}

/// Does a source with one 120 V output reach circuits that share a neutral?
void find_bridged(const House& house, Findings& found) {
  const auto groups = neutral_groups(house);
  for (const Source& source : house.sources) {
    if (source.output == SourceOutput::full) continue;
    std::vector<const Breaker*> reached;
    for (const auto& [id, breakers] : groups)
      for (const Breaker* breaker : breakers) {
        const bool by_position = std::ranges::any_of(house.positions, [&](const Position& p) {
          const TransferDevice* device = find_row(house, p.device);
          return p.breaker == breaker->id && device != nullptr && device->source == source.id;
        });
        const bool by_panel = std::ranges::any_of(house.breakers, [&](const Breaker& b) { return b.panel == breaker->panel && b.backfed_from == source.id; });
        if (by_position || by_panel) reached.push_back(breaker);
      }
    if (!reached.empty())
      found.push_back({source.name + " has one 120 V output, and " + names_of(house, reached) + " share a neutral: on this source the neutral carries the sum of both currents, and no breaker sees it.", "NFPA 70 710.15(C), from memory", true});
  }
}

void find_sources(const House& house, Findings& found) {
  for (const Source& source : house.sources) {
    if (source.kind != SourceKind::generator) continue;
    if (source.neutral == NeutralBond::not_known)
      found.push_back({source.name + ": whether its neutral is bonded to its frame is not recorded. The transfer gear must fit, and the sign at the inlet says which.", "NFPA 70 702.7(C), from memory", false});
    if (source.neutral == NeutralBond::bonded)
      found.push_back({source.name + ": its neutral is bonded to its frame, so the transfer gear must switch the neutral. Whether it does is not recorded.", "NFPA 70 250.30, from memory", false});
  }
}

void find_fed_twice(const Record& record, Findings& found) {
  for (std::size_t p = 0; p < record.house.points.size(); ++p) {
    std::vector<Tap> taps = record.feeds.of_point[p].taps;
    std::ranges::sort(taps);
    for (std::size_t i = 1; i < taps.size(); ++i)
      if (taps[i].hot == taps[i - 1].hot) {
        found.push_back({sentence::point_name(record.house, p) + ": one conductor of it is fed from " + breaker_label(record.house, taps[i - 1].breaker) + " and " + breaker_label(record.house, taps[i].breaker) + ".", "common practice, no source", true});
        break;
      }
  }
}

/// Connected load against the rating of the breaker, where amperes simply add up.
void find_overloads(const House& house, const PanelSchedules& schedules, Findings& found) {
  const bool plain = house.dwelling.system == VoltageSystem::split_phase_120_240 || house.dwelling.system == VoltageSystem::single_230;
  for (const PanelSchedule& panel : schedules.panels)
    for (const ScheduleEntry& entry : panel.entries) {
      const Breaker& breaker = row(house, entry.words.breaker);
      long long most = 0;
      for (const SchedulePole& pole : entry.poles) most = std::max(most, pole.va);
      const double amps = static_cast<double>(most) / volts_to_neutral(house.dwelling.system);
      int rated = 0;  // which of tied breakers feeds a load cannot be seen: together they carry it
      for (const Breaker& one : house.breakers) rated += one.id == breaker.id || (breaker.tie && one.tie == breaker.tie) ? one.amps : 0;
      if (breaker.amps == 0 || amps <= rated || (!plain && breaker.poles > 1)) continue;
      found.push_back({panel.name + " " + entry.number + ": the loads recorded on it draw " + amps_text(amps) + " if all run at once, and it is rated " + std::to_string(rated) + " A.", "connected load, computed", false});
    }
}

void find_gaps(const Record& record, Findings& found) {
  const House& house = record.house;
  std::vector<std::string> not_read, nothing;
  for (const Breaker& breaker : house.breakers)
    if (breaker.amps == 0) not_read.push_back(breaker_label(house, breaker.id));
  std::set<std::uint64_t> used, tied;  // tied: which of them feeds a thing cannot be seen
  for (const Feed& feed : record.feeds.of_point)
    for (const Tap& tap : feed.taps) {
      used.insert(tap.breaker.value);
      if (const Breaker* breaker = find_row(house, tap.breaker); breaker != nullptr && breaker->tie) tied.insert(breaker->tie.value);
    }
  for (const Panel& panel : house.panels) used.insert(feeder_of(house, panel).value);
  for (const Breaker& breaker : house.breakers)
    if (!used.contains(breaker.id.value) && !breaker.backfed_from && !(breaker.tie && tied.contains(breaker.tie.value))) nothing.push_back(breaker_label(house, breaker.id));
  if (!not_read.empty()) found.push_back({"Rating not read: " + joined(not_read) + ".", "", false});
  if (!nothing.empty()) found.push_back({"Nothing is known to hang on " + joined(nothing) + ". That is no proof that they feed nothing.", "", false});
  for (const Problem& problem : problems_of(house)) found.push_back({"The record contradicts itself: " + problem.message, "", false});
}

}  // namespace

std::vector<PacketFinding> findings_of(const Record& record, const PanelSchedules& schedules, const std::vector<Contradiction>& contradictions) {
  Findings found;
  find_backfed(record.house, found);
  find_shared_neutrals(record.house, found);
  find_bridged(record.house, found);
  find_fed_twice(record, found);
  find_wires(record.house, found);
  find_positions(record.house, found);
  for (const Line& line : words_of_contradictions(record.house, contradictions)) {
    found.push_back({line.text, "", true});
    for (const std::string& item : line.items) found.back().text += " " + item;
  }
  find_sources(record.house, found);
  find_overloads(record.house, schedules, found);
  find_gaps(record, found);
  std::ranges::stable_sort(found, std::ranges::greater{}, &PacketFinding::urgent);
  return found;
}

}  // namespace ohmstead
