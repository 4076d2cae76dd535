#include "cli/json_backup.h"

#include <nlohmann/json.hpp>

#include "backup/figures.h"
#include "cli/json_text.h"
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

}  // namespace

std::string json_of_lines(const char* question, const Lines& lines) { return json_text(started_json(question, lines)); }

std::string json_of_wishes(const House& house, const Names& names) {
  Json json = started_json("wish", words_of_wishes(house, names));
  Json loads = Json::array();
  for (const Load& load : house.loads)
    if (wanted_use(load) != LoadUse::not_wanted) loads.push_back(load_json(house, load));
  json["loads"] = loads;
  return json_text(json);
}

}  // namespace ohmstead
