#include "json/json_prove.h"

#include <nlohmann/json.hpp>

#include "ask/proving_words.h"
#include "json/json_text.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json handle_json(const House& house, const HandleRef& handle) { return {{"ref", text_of_ref(handle)}, {"name", handle_name(house, handle)}}; }

std::string throw_word(const HandleRef& handle, Throw to) {
  if (handle.kind == HandleKind::position) return to == kOff ? "off" : to == kUtilitySide ? "utility" : "backup";
  return to == kOff ? "off" : "on";
}

/// Where everything stands now.
Json stands_json(const ProvingSession& session) {
  const ProofState now = session.now();
  Json json{{"utility", now.utility}, {"source_runs", now.running}, {"let_in", now.let_in}, {"positions", Json::array()}, {"off", Json::array()}};
  for (std::size_t u = 0; u < now.units.size(); ++u)
    for (const std::size_t p : session.wiring().units[u].positions) {
      const HandleRef handle{HandleKind::position, session.house().positions[p].id.value};
      Json row = handle_json(session.house(), handle);
      row["stands"] = throw_word(handle, now.units[u]);
      json["positions"].push_back(row);
    }
  for (const Id<Breaker> breaker : now.off) json["off"].push_back(handle_json(session.house(), {HandleKind::breaker, breaker.value}));
  return json;
}

Json points_json(const House& house, const std::vector<std::size_t>& points) {
  Json list = Json::array();
  for (const std::size_t p : points) list.push_back({{"id", house.points[p].id.text()}, {"name", point_name(house, house.points[p].id)}});
  return list;
}

Json unit_json(const House& house, const ProofReport& report, std::size_t u) {
  const UnitProof& unit = report.units[u];
  Json json{{"positions", Json::array()}, {"result", text_of(unit.result)}, {"fault", text_of(unit.fault)}, {"text", fault_words(house, report, u)}};
  for (const std::size_t p : unit.positions) json["positions"].push_back(handle_json(house, {HandleKind::position, house.positions[p].id.value}));
  json["carries"] = Json::array();
  for (const Id<Breaker> breaker : unit.breakers) json["carries"].push_back(handle_json(house, {HandleKind::breaker, breaker.value}));
  json["missing"] = Json::array();
  for (const ProofMissing missing : unit.missing) json["missing"].push_back(text_of(missing));
  json["last_seen"] = unit.last_seen;
  return json;
}

Json panel_json(const House& house, const PanelProof& proof) {
  const auto breaker = [&](Id<Breaker> id) { return handle_json(house, {HandleKind::breaker, id.value}); };
  Json json{{"result", text_of(proof.result)}, {"fault", text_of(proof.fault)}, {"which", Json::array()}, {"by_plan", proof.by_plan}, {"ordinary_seen", proof.ordinary_seen}};
  for (const Id<Breaker> id : proof.which) json["which"].push_back(breaker(id));
  json["tries"] = Json::array(), json["circuits"] = Json::array();
  for (std::size_t t = 0; t < proof.tries.size(); ++t)
    json["tries"].push_back({{"on", handle_json(house, proof.tries[t].on)}, {"tried", handle_json(house, proof.tries[t].tried)}, {"result", text_of(proof.tried[t])}});
  for (const CircuitProof& one : proof.circuits)
    json["circuits"].push_back({{"breaker", breaker(one.breaker)}, {"kept", one.kept}, {"result", text_of(one.result)}, {"fault", text_of(one.fault)}, {"no_point", one.no_point}, {"last_seen", one.last_seen}});
  return json;
}

}  // namespace

nlohmann::ordered_json proof_step_json(const ProvingSession& session, int number) {
  const ProofStep& step = session.step();
  const House& house = session.house();
  Json line{{"type", "step"}, {"step", number}, {"kind", text_of(step.kind)}, {"reason", text_of(step.reason)}, {"text", proof_step_text(session)}};
  line["moves"] = Json::array();
  for (const ProofMove& move : step.moves) {
    Json row = handle_json(house, move.handle);
    row["to"] = throw_word(move.handle, move.to);
    line["moves"].push_back(row);
  }
  if (step.point) line["point"] = {{"id", step.point.text()}, {"name", point_name(house, step.point)}};
  for (const Id<Load> load : step.loads) line["loads"].push_back(load.text());
  line["briefly"] = step.briefly;
  line["stands"] = stands_json(session);
  line["answers"] = Json::array();
  for (std::size_t i = 0; i < words_of(ProofAnswerKind{}).size(); ++i)
    if (fits(step, static_cast<ProofAnswerKind>(i))) line["answers"].push_back(words_of(ProofAnswerKind{})[i]);
  const ProofProgress progress = session.progress();
  line["progress"] = {{"looks", progress.looks}, {"looks_left", progress.looks_left}, {"moves_left", progress.moves_left}};
  return line;
}

std::string json_of_proof(const House& house, const ProofReport& report, const std::string& left) {
  Json json = started_json("prove", words_of_proof(house, report));
  json["units"] = Json::array();
  for (std::size_t u = 0; u < report.units.size(); ++u) json["units"].push_back(unit_json(house, report, u));
  if (report.panel) json["panel"] = panel_json(house, *report.panel);
  json["backfed"] = points_json(house, report.backfed);
  json["panel_live"] = points_json(house, report.panel_live);
  json["left"] = left;
  json["nothing_fed_from_two"] = report.nothing_fed_from_two;
  return json_text(json);
}

}  // namespace ohmstead
