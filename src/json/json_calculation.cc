#include "json/json_calculation.h"

#include <nlohmann/json.hpp>

#include "json/json_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

/// The head of an answer, with the steps in full precision.
Json started(const char* question, const Calculation& calculation, const Lines& lines) {
  Json json = started_json(question, lines), steps = Json::array();
  for (const WorkedStep& step : calculation.steps)
    steps.push_back({{"what", step.what}, {"how", step.how}, {"value", step.value}, {"unit", step.unit}, {"rule", step.rule}});
  json["title"] = calculation.title;
  json["steps"] = std::move(steps);
  json["notes"] = calculation.notes;
  return json;
}

const char* word_of(MayAdd verdict) {
  switch (verdict) {
    case MayAdd::fits: return "fits";
    case MayAdd::close: return "close";
    case MayAdd::does_not_fit: return "does_not_fit";
    case MayAdd::not_known: break;
  }
  return "not_known";
}

}  // namespace

std::string json_of_load(const LoadAnswer& answer, const Lines& lines) {
  Json json = started("calculate load", answer.calculation, lines);
  json.update({{"va", answer.va}, {"amps", answer.amps}, {"line_a_amps", answer.line_a_amps}, {"line_b_amps", answer.line_b_amps},
               {"neutral_va", answer.neutral_va}, {"neutral_amps", answer.neutral_amps}, {"service_amps", answer.service_amps}});
  return json_text(json);
}

std::string json_of_drop(const DropAnswer& answer, const Lines& lines) {
  Json json = started("calculate drop", answer.calculation, lines);
  json.update({{"drop_volts", answer.volts}, {"drop_percent", answer.percent}, {"formula_volts", answer.formula_volts}, {"longest_ft", answer.longest_ft}, {"size_enough", answer.size_enough}});
  return json_text(json);
}

std::string json_of_ampacity(const AmpacityAnswer& answer, const Lines& lines) {
  Json json = started("calculate ampacity", answer.calculation, lines);
  json.update({{"amps", answer.amps}, {"breaker_amps", answer.breaker_amps}, {"continuous_amps", answer.continuous_amps}});
  return json_text(json);
}

std::string json_of_neutral(const NeutralAnswer& answer, const Lines& lines) {
  Json json = started("calculate neutral", answer.calculation, lines);
  json.update({{"neutral_amps", answer.amps}, {"same_leg_amps", answer.same_leg_amps}});
  return json_text(json);
}

std::string json_of_add(const RecordedDwelling& dwelling, const AddAnswer& answer, const Lines& lines) {
  Json json = started("calculate add", answer.calculation, lines);
  json.update({{"verdict", word_of(answer.verdict)}, {"amps_now", answer.amps_now}, {"amps_by_rule", answer.amps_by_rule}, {"amps_careful", answer.amps_careful}, {"added_amps", answer.added_amps},
               {"circuit_amps", answer.circuit_amps}, {"service_amps", dwelling.service_amps}, {"missing", dwelling.missing}, {"assumed", dwelling.assumed}});
  return json_text(json);
}

}  // namespace ohmstead
