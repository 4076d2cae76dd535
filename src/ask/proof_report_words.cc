// What was proved of each position, in words.

#include <algorithm>

#include "ask/position_words.h"
#include "ask/proving_panel_words.h"
#include "ask/sentence.h"
#include "backup/proof_start.h"
#include "house/error.h"
#include "house/numbering.h"
#include "trace/conclude.h"

namespace ohmstead {

using sentence::capital, sentence::point_name, sentence::say;

namespace {

std::string number_of(const House& house, Id<Breaker> id) {
  const Breaker* breaker = find_row(house, id);
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  return panel == nullptr ? "?" : (house.panels.size() > 1 ? panel->name + " " : "") + breaker_number(*panel, *breaker);
}

/// Breakers of a unit by the record: "24", "9 and 11".
std::string own_breakers(const House& house, const UnitProof& unit) {
  std::vector<std::string> numbers;
  for (const std::size_t p : unit.positions)
    if (const std::string number = number_of(house, house.positions[p].breaker); std::ranges::find(numbers, number) == numbers.end()) numbers.push_back(number);
  return joined(numbers);
}

std::string other_breakers(const House& house, const UnitProof& unit) {
  std::vector<std::string> numbers;
  for (const Id<Breaker> breaker : unit.breakers) numbers.push_back(number_of(house, breaker));
  return joined(numbers);
}

std::string missing_words(const UnitProof& unit) {
  std::vector<std::string> parts;
  for (const ProofMissing missing : unit.missing) {
    switch (missing) {
      case ProofMissing::no_point:
        parts.push_back(std::string("no point on it is known by proof or declaration") + (unit.positions.size() > 1 ? " on each leg" : "") + " (trace it first: `ohmstead trace`)");
        break;
      case ProofMissing::may_not_be_off: parts.push_back("it may not be off by itself, or could not be moved"); break;
      case ProofMissing::utility: parts.push_back("not yet seen which circuit it carries from the utility"); break;
      case ProofMissing::backup: parts.push_back("not yet seen live from the source"); break;
      case ProofMissing::nothing_live: parts.push_back("not yet seen that nothing is live with the main off and no position on backup"); break;
      case ProofMissing::never_backup:
        parts.push_back("it is not put on backup: it shares a neutral, and with this source, whose output is on one leg or bridged to both, that neutral would carry "
                        "the sum of both currents; have it taken off the transfer device");
        break;
      case ProofMissing::panel: parts.push_back("not yet seen, on every leg, that what is on no position stays dead while the source runs"); break;
    }
  }
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return text;
}

/// Where a position stands; empty: it is wrong, which is said elsewhere.
std::string unit_stands(const UnitProof& unit) {
  const std::string day = unit.last_seen.substr(0, 10);
  if (unit.result == ProofResult::proved) return "proved" + (day.empty() ? "" : " on " + day) + ".";
  return unit.result == ProofResult::not_yet ? "not yet: " + missing_words(unit) + "." : "";
}

/// One line for all positions that stand alike, in the order of the first of each.
void say_alike(const House& house, const ProofReport& report, Lines& lines) {
  std::vector<std::pair<std::string, std::vector<std::string>>> alike;
  for (const UnitProof& unit : report.units) {
    const std::string stands = unit_stands(unit);
    if (stands.empty()) continue;
    auto found = std::ranges::find(alike, stands, &std::pair<std::string, std::vector<std::string>>::first);
    if (found == alike.end()) found = alike.insert(alike.end(), {stands, {}});
    found->second.push_back(position_numbers(house, unit.positions) + " (breaker " + own_breakers(house, unit) + ")");
  }
  for (const auto& [stands, names] : alike) say(lines, LineKind::answer, (names.size() == 1 ? "Position " : "Positions ") + joined(names) + ": " + stands);
}

}  // namespace

std::string position_numbers(const House& house, const std::vector<std::size_t>& positions) {
  std::string text;
  for (const std::size_t p : positions) text += (text.empty() ? "" : "+") + std::to_string(house.positions[p].number);
  return text + (positions.empty() ? "" : device_words(house, house.positions[positions.front()]));
}

std::string fault_words(const House& house, const ProofReport& report, std::size_t at) {
  const UnitProof& unit = report.units[at];
  const std::string me = position_numbers(house, unit.positions), own = own_breakers(house, unit), it = "Position " + me;
  switch (unit.fault) {
    case ProofFault::none: return "";
    case ProofFault::exchanged: {
      const UnitProof& other = report.units[static_cast<std::size_t>(unit.other)];
      const std::string them = position_numbers(house, other.positions);
      const bool first = at < static_cast<std::size_t>(unit.other);
      return (first ? me + " and " + them : them + " and " + me) + " are exchanged: position " + me + " carries breaker " + other_breakers(house, unit) + " instead of " + own + ".";
    }
    case ProofFault::other_circuit: return it + " carries breaker " + other_breakers(house, unit) + " instead of " + own + ".";
    case ProofFault::also_other_circuit: return it + " carries breaker " + other_breakers(house, unit) + " besides its own, " + own + ".";
    case ProofFault::carries_nothing: return it + " carries nothing: breaker " + own + " is fed past it, and nothing else was found on it.";
    case ProofFault::fed_another_way: return "Breaker " + own + " is still live with position " + me + " off: it is fed another way too.";
    case ProofFault::not_cut: return "Breaker " + own + " is still live with position " + me + " off: it is fed another way, or position " + me + " carries nothing.";
    case ProofFault::backup_side_only: return it + " is fed on the backup side only: on utility breaker " + own + " is dead. See first whether that breaker is on.";
    case ProofFault::dead_both_ways: return it + " gives nothing: breaker " + own + " is dead on utility and on backup. See first whether its breakers are on.";
    case ProofFault::dead_on_utility: return it + " is dead on the utility side. See first whether breaker " + own + " is on.";
    case ProofFault::utility_side_only: return it + " is fed on the utility side only: on backup breaker " + own + " is dead. See first whether the position's own breaker is on.";
    case ProofFault::one_leg: return "The two halves of " + me + " are on one leg of the source: what needs both legs does not work.";
    case ProofFault::half_dead: return "One half of " + me + " is dead on backup.";
    case ProofFault::turned_round:
      return "The two wires of position " + me + " are exchanged: on backup the source feeds the panel, and breaker " + own + " is dead.";
    case ProofFault::unclear: break;
  }
  return "What was seen of position " + me + " fits no simple wiring: have it looked at.";
}

std::string proving_left_text(const House& house, Id<Source> source) {
  try {
    const ProvingSession session(house, conclude(without_proofs(house)), source);
    const ProofState now = session.now();
    if (now.utility && !now.running && !now.let_in && now.off.empty() && now.all_on_utility()) return "";
    return "Proving was left in the middle. By the record: " + proof_stands_text(session) + " Finish it or take it back with `ohmstead prove`; or put everything back by hand "
           "in this order: the source parted and stopped, " + (session.wiring().panel ? "what lets it in off, then the main on (or the transfer switch on utility), then every breaker on."
                                                                                     : "every position on utility, then the main on.");
  } catch (const Error&) {
    return "";  // this source has nothing to prove
  }
}

Lines words_of_proof(const House& house, const ProofReport& report) {
  Lines lines;
  if (report.panel) {
    proving_words::say_panel(house, *report.panel, lines);
    return lines;
  }
  for (const std::size_t p : report.backfed)
    say(lines, LineKind::danger, point_name(house, p) + " was live with the main off and no position on backup: the source feeds it past the positions. Do not use the "
                                                        "transfer device until a licensed electrician has found why.");
  for (const std::size_t p : report.panel_live)
    say(lines, LineKind::danger, point_name(house, p) + " is on no position and was live from the source: it reaches the panel. Do not use the transfer device until a "
                                                        "licensed electrician has found why.");
  for (std::size_t u = 0; u < report.units.size(); ++u)
    if (report.units[u].result == ProofResult::wrong) say(lines, LineKind::danger, fault_words(house, report, u));
  say_alike(house, report, lines);
  if (report.nothing_fed_from_two)
    say(lines, LineKind::answer, "The source reached nothing but its positions: nothing was live with no position on backup, and what is on no position stayed dead.");
  const auto open = std::ranges::count_if(report.units, [](const UnitProof& unit) { return unit.result == ProofResult::not_yet; });
  if (open > 0) say(lines, LineKind::detail, "Go on with `ohmstead prove`.");
  return lines;
}

}  // namespace ohmstead
