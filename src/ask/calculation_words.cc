#include "ask/calculation_words.h"

#include "ask/sentence.h"
#include "ask/watts.h"

namespace ohmstead {

namespace {

using sentence::say;

Lines with_steps(std::string result, const Calculation& calculation) {
  Lines lines;
  say(lines, LineKind::answer, std::move(result));
  std::vector<std::string> items;
  for (const WorkedStep& step : calculation.steps)
    items.push_back(step.what + ": " + (step.how.empty() ? "" : step.how + " = ") + value_text(step) + (step.rule.empty() ? "" : " [" + step.rule + "]"));
  say(lines, LineKind::detail, calculation.title + ":", std::move(items));
  for (std::size_t n = 0; n + 1 < calculation.notes.size(); ++n) say(lines, LineKind::detail, calculation.notes[n]);
  return lines;
}

void say_who_decides(Lines& lines) { say(lines, LineKind::caution, kLocalCodeDecides); }

/// The result, its steps, and who decides.
Lines answered(std::string result, const Calculation& calculation) {
  Lines lines = with_steps(std::move(result), calculation);
  say_who_decides(lines);
  return lines;
}

std::string amperes(double amps) { return thousands(whole_amps(amps)) + " A"; }

std::string verdict_text(const AddAnswer& answer, const std::string& name, const RecordedDwelling& dwelling) {
  const std::string service = std::to_string(dwelling.service_amps) + " A";
  const std::string now = "the calculated load is " + amperes(answer.amps_now) + " now, ";
  switch (answer.verdict) {
    case MayAdd::fits:
      return (dwelling.missing.empty() ? "By this record " + name + " fits: " : "By what this record has " + name + " fits, but something is missing in it: ") + now + amperes(answer.amps_by_rule) + " with it by the rule for existing dwellings, " + amperes(answer.amps_careful) + " with it counted whole; the service is " + service + ".";
    case MayAdd::close:
      return "It is close: " + now + amperes(answer.amps_by_rule) + " with " + name + " by the rule for existing dwellings, which fits the service of " + service + ", but " + amperes(answer.amps_careful) + " with it counted whole. Ask an electrician to measure the load, or take a smaller one, or one that is turned down when the house draws much.";
    case MayAdd::does_not_fit:
      return sentence::capital(name) + " does not fit: " + now + "and " + amperes(answer.amps_by_rule) + " with it by the rule for existing dwellings; the service is " + service + ".";
    case MayAdd::not_known: break;
  }
  return "The rating of the service is not recorded; read the main breaker and give --service. " + sentence::capital(now) + amperes(answer.amps_by_rule) + " with " + name + " by the rule for existing dwellings, " + amperes(answer.amps_careful) + " with it counted whole.";
}

}  // namespace

Lines words_of_load(const LoadAnswer& answer) {
  const bool even = answer.line_a_amps == answer.line_b_amps;
  const std::string lines_text = even ? amperes(answer.amps) : amperes(answer.line_a_amps) + " on line A and " + amperes(answer.line_b_amps) + " on line B";
  return answered("Calculated load: " + number_text(answer.va) + " VA, " + lines_text + "; neutral " + amperes(answer.neutral_amps) + ". " +
                               (answer.service_amps == 0 ? "That is above the standard ratings known here." : "Smallest service: " + std::to_string(answer.service_amps) + " A."), answer.calculation);
}

Lines words_of_drop(const DropAnswer& answer) {
  return answered("Voltage drop: " + number_text(answer.volts, 2) + " V, " + number_text(answer.percent, 2) + " %.", answer.calculation);
}

Lines words_of_ampacity(const AmpacityAnswer& answer) {
  return answered("It may carry " + amps_text(answer.amps) + (answer.breaker_amps == 0 ? "; no standard breaker known here fits." : ", behind a breaker of at most " + std::to_string(answer.breaker_amps) + " A; of that " + amps_text(answer.continuous_amps) + " for three hours or more."), answer.calculation);
}

Lines words_of_neutral(const NeutralAnswer& answer) {
  return answered("The neutral carries " + number_text(answer.amps, 2) + " A. With all these loads on one leg, or from a source whose legs are in phase, it would be " + number_text(answer.same_leg_amps, 2) + " A, and no breaker would see it.", answer.calculation);
}

Lines words_of_gaps(const RecordedDwelling& dwelling) {
  Lines lines;
  if (!dwelling.missing.empty()) say(lines, LineKind::detail, "Missing in the record:", dwelling.missing);
  if (!dwelling.assumed.empty()) say(lines, LineKind::detail, "Assumed:", dwelling.assumed);
  return lines;
}

Lines words_of_add(const RecordedDwelling& dwelling, const DwellingItem& added, const AddAnswer& answer) {
  const std::string name = "the " + added.name + " of " + plain_number(answer.added_amps) + " A";
  Lines lines = with_steps(verdict_text(answer, name, dwelling), answer.calculation);
  if (answer.circuit_amps > 0)
    lines.insert(lines.begin() + 1, {LineKind::answer, "Its circuit needs a breaker of at least " + std::to_string(answer.circuit_amps) + " A" +
                                     (added.kind == LoadClass::vehicle ? ", since charging runs for hours (125 %). If " + plain_number(answer.added_amps) + " A" + " is the rating of its breaker, it draws 80 % of that: ask again with " + plain_number(answer.added_amps * 0.8) + " A" + "." : "."), {}});
  const Lines gaps = words_of_gaps(dwelling);
  lines.insert(lines.end(), gaps.begin(), gaps.end());
  say_who_decides(lines);
  return lines;
}

}  // namespace ohmstead
