#include "json/json_ask.h"

#include <nlohmann/json.hpp>

#include "json/json_text.h"

namespace ohmstead {

namespace {

nlohmann::ordered_json things_json(const Names& names, const std::vector<ThingRef>& things) {
  auto list = nlohmann::ordered_json::array();
  for (const ThingRef& thing : things) list.push_back({{"ref", text_of_ref(thing)}, {"name", names.name_of(thing)}});
  return list;
}

}  // namespace

nlohmann::ordered_json json_of_ask(const Names& names, const AskAnswer& answer) {
  nlohmann::ordered_json json = started_json("ask", answer.lines);
  json["kind"] = text_of(answer.kind);
  json["understood"] = answer.understood;
  json["things"] = things_json(names, answer.things);
  json["asks_back"] = answer.asks_back;
  json["candidates"] = things_json(names, answer.candidates);
  return json;
}

}  // namespace ohmstead
