#include "db/row_change_text.h"

#include <nlohmann/json.hpp>

#include "db/cell_json.h"
#include "house/error.h"

namespace ohmstead {

using json = nlohmann::ordered_json;

namespace {

constexpr int kDepth = 4;

[[noreturn]] void refuse() {
  throw Error(ErrorKind::storage, "The history in this house file is damaged, so it cannot go back there; the house itself is not concerned.");
}

Cell cell_of_json(const json& value) {
  switch (value.type()) {
    case json::value_t::null: return {};
    case json::value_t::boolean: return value.get<bool>();
    case json::value_t::number_integer:
    case json::value_t::number_unsigned: return value.get<std::int64_t>();
    case json::value_t::string: return value.get<std::string>();
    default: refuse();
  }
}

void read_fields(const json& fields, RowChange& change) {
  if (!fields.is_object()) refuse();
  for (const auto& [name, value] : fields.items()) {
    FieldChange field{name, {}, {}};
    if (change.kind == RowChangeKind::changed) {
      if (!value.is_array() || value.size() != 2) refuse();
      field.from = cell_of_json(value[0]), field.to = cell_of_json(value[1]);
    } else {
      (change.kind == RowChangeKind::added ? field.to : field.from) = cell_of_json(value);
    }
    change.fields.push_back(std::move(field));
  }
}

std::size_t number(const json& value) {
  if (!value.is_number_integer() || value < 0 || value > kLargestNumber) refuse();
  return value.get<std::size_t>();
}

}  // namespace

std::string text_of_row_change(const RowChange& change) {
  json text = json::object();
  if (change.kind == RowChangeKind::added || change.kind == RowChangeKind::removed) text[std::string(text_of(change.kind))] = change.place;
  if (change.kind == RowChangeKind::reordered) {
    text["order"] = change.order;
    return text.dump();
  }
  json& fields = text["fields"] = json::object();
  for (const FieldChange& field : change.fields) {
    if (change.kind == RowChangeKind::changed) fields[field.name] = json::array({json_of_cell<json>(field.from), json_of_cell<json>(field.to)});
    else fields[field.name] = json_of_cell<json>(change.kind == RowChangeKind::added ? field.to : field.from);
  }
  return text.dump();
}

RowChange row_change_of_text(const std::string& table, std::uint64_t id, std::string_view text) try {
  const json whole = json::parse(text, [](int depth, json::parse_event_t, json&) {
    if (depth > kDepth) refuse();
    return true;
  });
  RowChange change;
  change.table = table, change.id = id;
  if (!whole.is_object()) refuse();
  for (const RowChangeKind kind : {RowChangeKind::added, RowChangeKind::removed})
    if (const auto place = whole.find(std::string(text_of(kind))); place != whole.end()) change.kind = kind, change.place = number(*place);
  if (const auto order = whole.find("order"); order != whole.end()) {
    if (!order->is_array()) refuse();
    change.kind = RowChangeKind::reordered;
    for (const auto& place : *order) change.order.push_back(number(place));
    return change;
  }
  if (!whole.contains("fields")) refuse();
  read_fields(whole.at("fields"), change);
  return change;
} catch (const json::exception&) {
  refuse();
}

}  // namespace ohmstead
