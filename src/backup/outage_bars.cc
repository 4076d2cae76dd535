#include "backup/outage_bars.h"

#include <algorithm>

#include "backup/proof_report.h"
#include "house/index.h"

namespace ohmstead {

namespace {

void bar(OutageGear& gear, std::uint32_t handle, OutageBarKind kind) {
  if (gear.bar_of(handle) == nullptr) gear.bars.push_back({handle, kind});
}

bool shares_neutral(const House& house, const Circuit& circuit) {
  if (!circuit.multiwire) return false;
  const Breaker* breaker = find_row(house, circuit.breaker);
  if (circuit.multiwire == circuit.id && breaker != nullptr && breaker->poles > 1) return true;
  return std::ranges::count(house.circuits, circuit.multiwire, &Circuit::multiwire) > 1;
}

bool has_proofs(const House& house) {
  return std::ranges::any_of(house.rounds, [](const auto& round) { return round.kind == RoundKind::proof; }) ||
         std::ranges::any_of(house.settings, [](const Setting& setting) { return setting.name.starts_with(kProveTry); });
}

void take_panel(const PanelProof& panel, OutageGear& gear) {
  gear.reaches_panel = panel.danger();
  gear.wiring = panel.result == ProofResult::wrong ? OutageWiring::wrong : panel.result == ProofResult::proved ? OutageWiring::proved : OutageWiring::not_proved;
}

void take_report(const House& house, const ProofReport& report, OutageGear& gear) {
  if (report.panel) return take_panel(*report.panel, gear);
  gear.reaches_panel = !report.backfed.empty() || !report.panel_live.empty();
  gear.wiring = gear.reaches_panel ? OutageWiring::wrong : OutageWiring::proved;
  for (const UnitProof& unit : report.units) {
    const bool wrong = unit.result == ProofResult::wrong;
    if (unit.result == ProofResult::not_yet && gear.wiring == OutageWiring::proved) gear.wiring = OutageWiring::not_proved;
    if (wrong) gear.wiring = OutageWiring::wrong;
    for (const std::size_t position : unit.positions) {
      const std::uint32_t handle = gear.graph.handle_of({HandleKind::position, house.positions[position].id.value});
      if (wrong) bar(gear, gear.graph.handles[handle].group, OutageBarKind::found_wrong);
    }
  }
  if (!gear.reaches_panel) return;
  for (const OutageUnit& unit : gear.units)
    if (unit.on == kBackupSide) bar(gear, unit.handle, OutageBarKind::found_wrong);
}

}  // namespace

void bar_shared_neutrals(const House& house, OutageGear& gear) {
  if (house.sources[gear.source].output == SourceOutput::full) return;
  for (const Circuit& circuit : house.circuits) {
    if (!shares_neutral(house, circuit)) continue;
    for (const GraphHandle& handle : gear.graph.handles) {
      const bool breaker = handle.ref.kind == HandleKind::breaker && handle.ref.id == circuit.breaker.value;
      const bool position = handle.ref.kind == HandleKind::position && std::ranges::any_of(house.positions, [&](const Position& p) {
        return p.id.value == handle.ref.id && p.breaker == circuit.breaker;
      });
      if (!breaker && !position) continue;
      const int unit = gear.unit_of(handle.group);
      if (unit >= 0) bar(gear, gear.units[static_cast<std::size_t>(unit)].handle, OutageBarKind::shared_neutral);
    }
  }
}

void bar_by_proof(const House& house, const Feeds& feeds, OutageGear& gear) {
  const Id<Source> source = house.sources[gear.source].id;
  if (!can_be_proved(house, source)) return;
  gear.wiring = OutageWiring::not_proved;
  if (!has_proofs(house)) return;
  try {
    take_report(house, proved(house, feeds, source), gear);
  } catch (const Error&) {  // it cannot be proved as it is written down
  }
}

}  // namespace ohmstead
