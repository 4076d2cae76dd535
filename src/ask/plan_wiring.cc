#include "ask/plan_wiring.h"

#include <algorithm>

#include "ask/proving_words.h"
#include "ask/sentence.h"
#include "backup/proof_report.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead::plan_words {

using sentence::say;

namespace {

bool any(const ProofReport& report, ProofResult result) { return std::ranges::find(report.units, result, &UnitProof::result) != report.units.end(); }

Wiring wiring_by(const ProofReport& report, const PlanAnswer& answer) {
  const bool panel_is_wrong = report.panel && report.panel->result == ProofResult::wrong;
  if (panel_is_wrong || any(report, ProofResult::wrong) || !report.backfed.empty() || !report.panel_live.empty()) return Wiring::fault;
  if (!answer.wired) return Wiring::not_connected;
  return any(report, ProofResult::not_yet) || (report.panel && report.panel->result == ProofResult::not_yet) ? Wiring::not_proved : Wiring::proved;
}

}  // namespace

Wiring wiring_of(const Record& record, const PlanAnswer& answer) {
  const Source& source = record.house.sources[answer.backup.source];
  if (can_be_proved(record.house, source.id)) {
    try {
      return wiring_by(proved(record.house, record.feeds, source.id), answer);
    } catch (const Error&) {  // it cannot be proved as it is written down
    }
  }
  return answer.wired ? Wiring::nothing_to_prove : Wiring::not_connected;
}

std::string wiring_stands(const PlanAnswer& answer, Wiring wiring) {
  switch (wiring) {
    case Wiring::nothing_to_prove: return answer.backup.hookup == Hookup::positions ? "By the record it is wired so; not proved." : "No wire moves for it.";
    case Wiring::not_connected: return "Not wired yet: see the connecting worksheet.";
    case Wiring::not_proved: return "By the record it is wired so; NOT PROVED.";
    case Wiring::fault: return "FAULT FOUND in its wiring: do not use it.";
    case Wiring::proved: break;
  }
  return "It is wired so now, and proved.";
}

void say_wiring(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const Wiring wiring = wiring_of(record, answer);
  if (wiring == Wiring::not_connected)
    say(lines, LineKind::danger, "NOT CONNECTED YET: do not go by this before the connecting worksheet is done and the wiring is proved. Until then these handles carry other things, or nothing.");
  if (wiring == Wiring::not_proved)
    say(lines, LineKind::danger, "NOT PROVED YET: before you rely on this, prove it with `ohmstead prove`.");
  if (wiring != Wiring::fault) return;
  say(lines, LineKind::danger, "FAULT FOUND: proving found the wiring wrong. Do not use the transfer device until a licensed electrician has mended it and it is proved again "
                               "(`ohmstead prove --status`).");
  for (const Line& line : words_of_proof(record.house, proved(record.house, record.feeds, record.house.sources[answer.backup.source].id)))
    if (line.kind == LineKind::danger) lines.push_back(line);
}

void say_no_interlock(const Record& record, const PlanAnswer& answer, Lines& lines) {
  for (const Breaker& breaker : record.house.breakers) {
    if (breaker.backfed_from != record.house.sources[answer.backup.source].id) continue;
    const HandleRef handle{HandleKind::breaker, breaker.id.value};
    if (std::ranges::any_of(record.house.interlocks, [&](const Interlock& one) { return one.first == handle || one.second == handle; })) continue;
    const Panel* panel = find_row(record.house, breaker.panel);
    say(lines, LineKind::danger, "No interlock is written down for breaker " + (panel == nullptr ? std::string("?") : breaker_number(*panel, breaker) + " in " + panel->name) +
                                 ", through which the source feeds the panel. NEVER use it without one: with the main on it sends power out to the street and can kill "
                                 "line crews (the code wants the two never tied together: NFPA 70 702.5). A licensed electrician fits one; then write it down.");
  }
}

}  // namespace ohmstead::plan_words
