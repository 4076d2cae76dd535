#include "json/json_backup.h"

#include <nlohmann/json.hpp>

#include "backup/figures.h"
#include "json/json_text.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json range_json(const WattRange& range) { return {{"low", range.low}, {"high", range.high}}; }

Json load_json(const House& house, const Load& load) {
  const LoadFigures figures = figures_of(house, load);
  const Point* point = find_row(house, load.point);
  Json json = {{"id", load.id.text()}, {"name", load.name}, {"point", point == nullptr ? "" : point->id.text()},
               {"use", text_of(wanted_use(load))}, {"importance", text_of(load.importance)}};
  json["running_watts"] = figures.known ? range_json(figures.running) : Json();
  json["starting_watts"] = figures.known ? range_json(figures.starting) : Json();
  json["running_basis"] = text_of(figures.running_basis);
  json["starting_basis"] = text_of(figures.starting_basis);
  return json;
}

Json score_json(const PlanScore& score) {
  return {{"life_safety", score.life_safety}, {"importance", score.importance}, {"imbalance_watts", score.imbalance}, {"moves", score.moves}};
}

Json placed_json(const Record& record, const Names& names, const PlanAnswer& answer, const Placed& placed) {
  const CarriedCircuit& circuit = answer.backup.circuits[static_cast<std::size_t>(placed.circuit)];
  Json poles = Json::array(), loads = Json::array();
  for (std::size_t k = 0; k < circuit.poles.size(); ++k) {
    const HandleRef breaker{HandleKind::breaker, circuit.poles[k].breaker.value};
    Json pole = {{"breaker", {{"ref", text_of_ref(breaker)}, {"name", names.name_of(breaker)}}}, {"pole", circuit.poles[k].pole}};
    const int at = placed.position[k];
    const HandleRef position{HandleKind::position, at < 0 ? 0 : answer.backup.positions[static_cast<std::size_t>(at)].value};
    pole["position"] = at < 0 ? Json() : Json{{"ref", text_of_ref(position)}, {"name", names.name_of(position)}};
    poles.push_back(pole);
  }
  for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
    Json load = load_json(record.house, record.house.loads[circuit.loads[l].load]);
    load["served"] = static_cast<bool>(placed.served[l]);
    loads.push_back(load);
  }
  return {{"poles", poles}, {"loads", loads}};
}

}  // namespace

std::string json_of_lines(const char* question, const Lines& lines) { return json_text(started_json(question, lines)); }

std::string json_of_plan(const Record& record, const Names& names, const PlanAnswer& answer, const Lines& lines) {
  Json json = started_json("plan", lines);
  json["source"] = record.house.sources[answer.backup.source].name;
  json["proven"] = answer.plan.end == PlanEnd::optimal;
  json["kept"] = answer.kept;
  json["circuits"] = Json::array();
  for (const Placed& placed : answer.plan.placed) json["circuits"].push_back(placed_json(record, names, answer, placed));
  json["score"] = score_json(answer.plan.score);
  json["bound"] = score_json(answer.plan.bound);
  json["legs"] = Json::array();
  const PlanPicture picture = plan_picture(answer.backup, answer.plan);
  for (const PictureColumn& column : picture.columns)
    json["legs"].push_back({{"leg", column.leg}, {"running_watts", column.running}, {"limit", column.limit}, {"largest_start_extra", column.start_extra}, {"starting_limit", column.starting_limit}});
  return json_text(json);
}

std::string json_of_wishes(const House& house, const Names& names) {
  Json json = started_json("wish", words_of_wishes(house, names));
  Json loads = Json::array();
  for (const Load& load : house.loads)
    if (wanted_use(load) != LoadUse::not_wanted) loads.push_back(load_json(house, load));
  json["loads"] = loads;
  return json_text(json);
}

}  // namespace ohmstead
