#include "json/json_diagnose.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "ask/diagnosis_words.h"
#include "json/json_text.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json handle_json(const House& house, const HandleRef& handle) { return {{"ref", text_of_ref(handle)}, {"name", handle_name(house, handle)}}; }

std::string throw_word(const DiagnosisMove& move) {
  if (move.handle.kind == HandleKind::position) return move.to == kOff ? "off" : move.to == kUtilitySide ? "utility" : "backup";
  return move.to == kOff ? "off" : "on";
}

Json causes_json(const DiagnosisSession& session) {
  constexpr std::size_t kMost = 20;
  Json list = Json::array();
  for (std::size_t c = 0; c < std::min(session.causes().size(), kMost); ++c) {
    const RankedCause& cause = session.causes()[c];
    Json row{{"kind", text_of(cause.cause.kind)}, {"belief", std::round(cause.belief * 1000) / 1000}, {"text", cause_words(session, cause.cause)}};
    if (cause.cause.handle) row["handle"] = handle_json(session.house(), cause.cause.handle);
    if (cause.cause.kind == CauseKind::itself || cause.cause.kind == CauseKind::not_recorded) row["point"] = session.house().points[cause.cause.point].id.text();
    list.push_back(row);
  }
  return list;
}

void add_step(Json& line, const DiagnosisSession& session) {
  const DiagnosisStep& step = session.step();
  line["kind"] = text_of(step.kind), line["end"] = text_of(step.end);
  if (step.kind == DiagnosisStepKind::look) line["what"] = text_of(step.what);
  line["text"] = diagnosis_step_text(session);
  line["answers"] = Json::array();
  for (const LookSaw saw : answers_of(step)) line["answers"].push_back(text_of(saw));
  line["meter"] = step.meter;
  if (step.point) line["point"] = {{"id", step.point.text()}, {"name", point_name(session.house(), step.point)}};
  if (step.handle) line["handle"] = handle_json(session.house(), step.handle);
  if (step.source) line["source"] = step.source.text();
  line["moves"] = Json::array();
  for (const DiagnosisMove& move : step.moves) {
    Json row = handle_json(session.house(), move.handle);
    row["to"] = throw_word(move);
    line["moves"].push_back(row);
  }
  line["causes"] = causes_json(session);
}

}  // namespace

nlohmann::ordered_json diagnosis_step_json(const DiagnosisSession& session, int number) {
  Json line{{"type", "step"}, {"step", number}};
  add_step(line, session);
  if (session.step().kind == DiagnosisStepKind::done) line["lines"] = lines_json(words_of_diagnosis(session));
  return line;
}

std::string json_of_diagnosis(const DiagnosisSession& session) {
  Json json = started_json("diagnose", words_of_diagnosis(session));
  add_step(json, session);
  return json_text(json);
}

}  // namespace ohmstead
