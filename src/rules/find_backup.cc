// What moves to a source in an outage: protection that stays behind, and the marks that warn of it.

#include <algorithm>

#include "rules/findings_look.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"

namespace ohmstead::findings_detail {

namespace {

/// A position that stands behind a breaker with GFCI or AFCI has it on the utility; on the source its own small breaker stands there.
void find_bypassed(Look& look, const Position& position) {
  const Breaker* breaker = find_row(look.house(), position.breaker);
  const TransferDevice* device = find_row(look.house(), position.device);
  if (breaker == nullptr || device == nullptr || device->kind != TransferKind::circuits || breaker->protection == Protection::plain) return;
  const std::string kind = breaker->protection == Protection::gfci ? "GFCI" : breaker->protection == Protection::afci ? "AFCI" : "GFCI and AFCI";
  look.add("protection_bypassed", Severity::note, {thing(position.id), thing(breaker->id)},
           with_capital(transfer_device_text(look.house(), device->id)) + ", position " + std::to_string(position.number) + ", carries " + breaker_label(look.house(), breaker->id) + ", which has " + kind + ": on the source that breaker does not stand before the circuit. Whether the position has the same protection is not recorded.",
           "In an outage the circuit may be without what protects it every other day.");
  look.cite("common practice, no source");
}

/// A circuit that a smaller breaker protects on the source may have receptacles rated above it.
void find_smaller_position(Look& look, const Position& position) {
  const Breaker* breaker = find_row(look.house(), position.breaker);
  const TransferDevice* device = find_row(look.house(), position.device);
  if (breaker == nullptr || device == nullptr || position.amps == 0 || position.amps >= breaker->amps) return;
  std::vector<std::size_t> receptacles;
  for (const std::size_t p : points_on(look, breaker->id))
    if (look.house().points[p].kind == PointKind::receptacle && look.house().points[p].hots == 1) receptacles.push_back(p);
  if (receptacles.size() < 2) return;
  look.add("position_below_receptacles", Severity::note, {thing(position.id), thing(breaker->id), thing(look.house().points[receptacles[0]].id)},
           with_capital(transfer_device_text(look.house(), device->id)) + ", position " + std::to_string(position.number) + " of " + std::to_string(position.amps) + " A, carries " + breaker_label(look.house(), breaker->id) + " of " + std::to_string(breaker->amps) + " A with " + std::to_string(receptacles.size()) +
               " receptacles: those rated above " + std::to_string(position.amps) + " A, if there are any, may not stay on it. Ratings of receptacles are not recorded.",
           "It trips sooner on the source than people are used to, and the receptacle promises more than its breaker gives.");
  look.cite("NFPA 70 210.21(B)(3), from memory");
  look.rests_on(receptacles);
}

void find_signs(Look& look) {
  const bool printed = std::ranges::any_of(look.house().printed, [](const Printed& one) { return one.item == "paper:signs"; });
  if (printed || look.house().sources.empty()) return;
  std::vector<ThingRef> things;
  std::vector<std::string> names;
  for (const Source& source : look.house().sources) things.push_back(thing(source.id)), names.push_back(source.name);
  look.add("signs_not_printed", Severity::tidy, things, "The code asks for signs at the service and at " + joined(names) + ", and none was printed from this record; `ohmstead paper signs` prints those that this house needs.",
           "Whoever pulls the main for a fire or for work has to know that there is another source.");
  look.cite("NFPA 70 702.7(A), text");
}

}  // namespace

void find_backup(Look& look) {
  find_signs(look);
  for (const Position& position : look.house().positions) find_bypassed(look, position), find_smaller_position(look, position);
}

}  // namespace ohmstead::findings_detail
