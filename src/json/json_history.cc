#include "json/json_history.h"

#include <nlohmann/json.hpp>

#include "json/json_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json json_of_item(const HistoryItem& item) {
  Json json{{"kind", text_of(item.kind)}, {"table", item.table}, {"id", item.id}, {"thing", item.thing}};
  Json& fields = json["fields"] = Json::array();
  for (const HistoryField& field : item.fields) {
    Json one{{"field", field.name}};
    if (item.kind != HistoryItemKind::added) one["from"] = field.from;
    if (item.kind != HistoryItemKind::removed) one["to"] = field.to;
    fields.push_back(std::move(one));
  }
  return json;
}

}  // namespace

std::string json_of_history(const HistoryAnswer& answer) {
  Json json = started_json("history", words_of_history(answer));
  json["thing"] = answer.thing;
  Json& changes = json["changes"] = Json::array();
  for (const HistoryEntry& entry : answer.entries) {
    Json one{{"revision", entry.revision}, {"at", entry.at}, {"who", entry.who}, {"what", entry.what}, {"taken_back", entry.taken_back}, {"kept", entry.kept}};
    Json& items = one["rows"] = Json::array();
    for (const HistoryItem& item : entry.items) items.push_back(json_of_item(item));
    changes.push_back(std::move(one));
  }
  json["older"] = answer.older;
  return json_text(json);
}

}  // namespace ohmstead
