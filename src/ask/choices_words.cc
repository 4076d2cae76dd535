// Why not, what else, what size: the questions about a plan, in sentences.

#include <algorithm>

#include "ask/plan_answer.h"
#include "ask/plan_parts.h"
#include "ask/sentence.h"
#include "ask/watts.h"

namespace ohmstead {

namespace {

std::string amps(int number) { return std::to_string(number) + " A"; }

}  // namespace

std::string plan_words::reason_words(const std::string& what, const std::string& source, const WhyNotAnswer& answer) {
  const std::string need = watts_text(answer.needed), there = watts_text(answer.there);
  switch (answer.why) {
    case WhyNot::served: return what + " is served.";
    case WhyNot::pinned_out: return what + " is pinned: it never gets a place. Take the pin away with `ohmstead plan --unpin`.";
    case WhyNot::no_two_legs: return what + " needs two legs (240 V), and " + source + " has one output only.";
    case WhyNot::shared_neutral:
      return what + " shares its neutral with another circuit. From a source with one output the neutral would carry both currents added up, with no breaker to stop it; so it is never carried.";
    case WhyNot::no_tied_pair: return what + " needs two positions with tied handles on different legs, and the transfer device has no such pair for it.";
    case WhyNot::positions_too_large:
      return what + " has a breaker of " + amps(answer.needed) + ", and the smallest position that could carry it has " + amps(answer.there) + ": a position's breaker may be no larger than the circuit's own (common practice, for the sake of its wire).";
    case WhyNot::breaker_too_small: return what + " needs a breaker of at least " + amps(answer.needed) + ", and no position that it may be on has more than " + amps(answer.there) + ".";
    case WhyNot::running_alone: return what + " runs with " + need + ", even alone, and " + source + " gives " + there + (answer.there > 0 ? " there." : ".");
    case WhyNot::starting_alone: return what + " starts with " + need + ", even alone, and " + source + " gives " + there + " for a start.";
    case WhyNot::partner: return what + " shares a neutral with a circuit that cannot be carried; both go together or not at all.";
    case WhyNot::pins: return "With what is pinned there is no place for " + what + ". Take a pin away with `ohmstead plan --unpin`.";
    case WhyNot::no_position_left: return "Every position that could carry " + what + " has something more important, or better placed, on it.";
    case WhyNot::running: return "With " + what + " on as well, " + source + " would have to run more watts than it gives.";
    case WhyNot::starting: return "With " + what + " on as well, " + source + " could not start the largest motor any more.";
    case WhyNot::several: return "For " + what + " positions and watts of " + source + " are short together.";
  }
  return what;
}

using namespace plan_words;
using sentence::capital, sentence::say;

namespace {

/// What of the plan is not in the other, in a person's words.
std::vector<std::string> losers(const Record& record, const PlanAnswer& answer, const WhyNotAnswer& why) {
  std::vector<std::string> lost;
  for (const int circuit : why.circuits_lost) {
    const CarriedCircuit& row = answer.backup.circuits[static_cast<std::size_t>(circuit)];
    for (const CarriedLoad& carried : row.loads) lost.push_back(load_words(record.house, carried));
    if (row.loads.empty()) lost.push_back(breaker_words(record.house, row));
  }
  for (const auto& [circuit, load] : why.loads_lost)
    lost.push_back(load_words(record.house, answer.backup.circuits[static_cast<std::size_t>(circuit)].loads[static_cast<std::size_t>(load)]));
  return lost;
}

void say_why(const Record& record, const PlanAnswer& answer, const std::string& what, const WhyNotAnswer& why, Lines& lines) {
  say(lines, LineKind::answer, capital(reason_words(what, record.house.sources[answer.backup.source].name, why)));
  if (why.why == WhyNot::served || !why.instead) return;
  const auto lost = losers(record, answer, why);
  if (!lost.empty()) say(lines, LineKind::answer, "To give it a place, this would have to give:", lost);
  else say(lines, LineKind::answer, "It could have a place; the plan would then be " + std::string(why.instead->score.importance < answer.plan.score.importance ? "worth less" : "less balanced, or need more wires moved") + ".");
}

/// Everything that is served, in the order of the case.
std::vector<std::string> served_names(const Record& record, const PlanAnswer& answer, const Plan& plan) {
  std::vector<std::string> names;
  for (const Placed& placed : plan.placed) {
    const auto& loads = answer.backup.circuits[static_cast<std::size_t>(placed.circuit)].loads;
    for (std::size_t l = 0; l < loads.size(); ++l)
      if (placed.served[l]) names.push_back(load_text(record.house, record.house.loads[loads[l].load]));
  }
  return names;
}

/// "with A and B; without C", against the plan.
std::string difference(const Record& record, const PlanAnswer& answer, const Plan& other) {
  const auto before = served_names(record, answer, answer.plan), after = served_names(record, answer, other);
  std::vector<std::string> with, without;
  std::ranges::copy_if(after, std::back_inserter(with), [&](const std::string& name) { return std::ranges::find(before, name) == before.end(); });
  std::ranges::copy_if(before, std::back_inserter(without), [&](const std::string& name) { return std::ranges::find(after, name) == after.end(); });
  std::string words = with.empty() ? "" : "with " + joined(with);
  if (!without.empty()) words += (words.empty() ? "" : "; ") + std::string("without ") + joined(without);
  return words;
}

std::string everything_but(const Record& record, const PlanAnswer& answer, const Plan& plan) {
  std::vector<std::string> missing;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const auto placed = std::ranges::find(plan.placed, static_cast<int>(c), &Placed::circuit);
    const auto& loads = answer.backup.circuits[c].loads;
    for (std::size_t l = 0; l < loads.size(); ++l)
      if (placed == plan.placed.end() || !placed->served[l]) missing.push_back(load_text(record.house, record.house.loads[loads[l].load]));
  }
  return missing.empty() ? "everything that is wished for" : "all but " + joined(missing);
}

}  // namespace

Lines words_of_why_not(const Record& record, const Names& names, const PlanAnswer& answer, Id<Breaker> breaker) {
  Lines lines;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const CarriedCircuit& circuit = answer.backup.circuits[c];
    if (std::ranges::find(circuit.poles, breaker, &BreakerPole::breaker) == circuit.poles.end()) continue;
    const int at = static_cast<int>(c);
    const std::string what = "the circuit of " + breaker_words(record.house, circuit);
    const WhyNotAnswer why = why_not(answer.backup.problem, answer.plan, at);
    say_why(record, answer, what, why, lines);
    if (why.why != WhyNot::served) return lines;
    for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
      const WhyNotAnswer load = why_not(answer.backup.problem, answer.plan, at, static_cast<int>(l));
      if (load.why != WhyNot::served) say_why(record, answer, load_words(record.house, circuit.loads[l]), load, lines);
    }
    return lines;
  }
  say(lines, LineKind::answer, "Nothing on " + names.name_of(HandleRef{HandleKind::breaker, breaker.value}) + " is wished for in an outage; say so first: `ohmstead wish THING`.");
  return lines;
}

Lines words_of_alternatives(const Record& record, const PlanAnswer& answer) {
  constexpr std::size_t kMost = 4;
  Lines lines;
  std::vector<std::string> items;
  for (const Plan& other : alternatives(answer.backup.problem, answer.plan, kMost)) items.push_back(difference(record, answer, other));
  if (items.empty()) say(lines, LineKind::answer, "No other plan serves something else.");
  else say(lines, LineKind::answer, "Other plans, the best first, against the best one. To have one of them pin it: --must THING or --never THING.", items);
  return lines;
}

Lines words_of_sizes(const Record& record, const PlanAnswer& answer, const std::vector<int>& sizes) {
  Lines lines;
  std::vector<std::string> items;
  for (const int size : sizes) {
    if (size < 100 || size > 100'000) throw Error(ErrorKind::invalid_input, "A source of " + std::to_string(size) + " W makes no sense here; give running watts from 100 to 100000.");
    const PlanProblem problem = with_source_of(answer.backup.problem, size);
    const Plan plan = best_plan(problem);
    items.push_back(watts_text(size) + " (" + watts_text(problem.source.starting) + " to start): " +
                    (plan.end == PlanEnd::impossible ? "what is pinned cannot be served" : everything_but(record, answer, plan)));
  }
  say(lines, LineKind::answer, "What sources of other sizes would serve, with starting watts and legs in the same ratio and the positions as they are:", items);
  return lines;
}

Lines words_of_smallest(const Record& record, const PlanAnswer& answer) {
  Lines lines;
  PlanProblem problem = answer.backup.problem;
  SmallestSource managed = smallest_source(problem, true);
  if (!managed.possible) {
    for (const int circuit : managed.blocked) problem = with_positions_for(std::move(problem), circuit);
    std::vector<std::string> blocked;
    for (const int circuit : managed.blocked)
      for (const CarriedLoad& carried : answer.backup.circuits[static_cast<std::size_t>(circuit)].loads) blocked.push_back(load_words(record.house, carried));
    say(lines, LineKind::answer, "Whatever the source, the positions are too few, or of the wrong size, to carry everything that is wished for. Without a place stays one of:", blocked);
  }
  const auto size = [](const SmallestSource& source) {
    return watts_text(source.running) + " running and " + watts_text(source.starting) + " starting (" + watts_text(source.leg_running[0]) + " on the heavier leg)";
  };
  if (!managed.possible) {
    managed = smallest_source(problem, true);
    if (!managed.possible) return lines;
    say(lines, LineKind::answer, "With further positions for these:");
  }
  const SmallestSource plain = smallest_source(problem, false);
  const bool alike = plain.possible && size(plain) == size(managed);
  say(lines, LineKind::answer, std::string("The smallest source that serves every wish, ") + (alike ? "even with everything on demand at once: " : "one thing on demand at a time: ") + size(managed) + ".");
  if (!managed.proven || !plain.proven) say(lines, LineKind::detail, "The search was cut off: a somewhat smaller one might do.");
  if (plain.possible && !alike) say(lines, LineKind::answer, "With everything on demand running at once: " + size(plain) + ".");
  say(lines, LineKind::detail, "Sources are rated at sea level and mild weather; about 3 % less for each 1,000 ft of height, 1 % for each 10 degrees F above 77 (an engine text). Plan to about 80 % of it (common practice, no source).");
  return lines;
}

}  // namespace ohmstead
