#include "db/columns.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "house/id.h"
#include "house/moment.h"

namespace ohmstead {

using nlohmann::ordered_json;

namespace {

using Values = std::vector<const ordered_json*>;
using Numbers = std::vector<std::int64_t>;

/// Number of the first row that has an id, 1 and up.
using Places = std::map<std::string, std::int64_t>;

Numbers differences(const Numbers& numbers) {
  Numbers steps;
  std::int64_t before = 0;
  for (const std::int64_t number : numbers) steps.push_back(number - before), before = number;
  return steps;
}

bool none(const Numbers& rows) {
  return std::ranges::all_of(rows, [](std::int64_t row) { return row == 0; });
}

/// How, with "+" for differences where they take less room, and the numbers.
void put_numbers(ordered_json& column, const std::string& how, const Numbers& numbers) {
  const ordered_json plain = numbers, steps = differences(numbers);
  const bool shorter = steps.dump().size() < plain.dump().size();
  column[1] = how + (shorter ? "+" : "");
  column.push_back(shorter ? steps : plain);
}

/// Number of each value in the list of different values, from 0.
Numbers listed(const Values& values, ordered_json& words) {
  std::map<std::string, std::int64_t> at;
  Numbers numbers;
  for (const ordered_json* value : values) {
    const auto [found, is_new] = at.try_emplace(value->dump(), static_cast<std::int64_t>(words.size()));
    if (is_new) words.push_back(*value);
    numbers.push_back(found->second);
  }
  return numbers;
}

bool put_plain_numbers(ordered_json& column, const Values& values) {
  if (!std::ranges::all_of(values, [](const ordered_json* v) { return v->is_number_integer(); })) return false;
  Numbers numbers;
  for (const ordered_json* value : values) numbers.push_back(value->get<std::int64_t>());
  put_numbers(column, "n", numbers);
  return true;
}

bool put_rows(ordered_json& column, const Values& values, const Places& places) {
  Numbers rows;
  for (const ordered_json* value : values) {
    const auto found = value->is_string() ? places.find(value->get<std::string>()) : places.end();
    if (!value->is_null() && found == places.end()) return false;
    rows.push_back(value->is_null() ? 0 : found->second);
  }
  if (none(rows)) return false;
  put_numbers(column, "r", rows);
  return true;
}

bool put_moments(ordered_json& column, const Values& values) {
  Numbers seconds;
  for (const ordered_json* value : values) {
    if (!value->is_string()) return false;
    const auto& text = value->get_ref<const std::string&>();
    const long at = text.empty() ? 0 : seconds_since_1970(text);
    if (at < 0 || (at == 0 && !text.empty()) || (at > 0 && moment_at(at) != text)) return false;
    seconds.push_back(at);
  }
  put_numbers(column, "t", seconds);
  return true;
}

/// Texts such as "breaker:0123456789ab".
bool put_kinds_and_rows(ordered_json& column, const Values& values, const Places& places) {
  std::vector<ordered_json> kinds;
  Numbers rows;
  for (const ordered_json* value : values) {
    if (!value->is_string()) return false;
    const auto& text = value->get_ref<const std::string&>();
    const auto colon = text.find(':');
    const auto found = colon == std::string::npos ? places.end() : places.find(text.substr(colon + 1));
    kinds.emplace_back(found == places.end() ? text : text.substr(0, colon));
    rows.push_back(found == places.end() ? 0 : found->second);
  }
  if (none(rows)) return false;
  Values each;
  for (const ordered_json& kind : kinds) each.push_back(&kind);
  ordered_json words = ordered_json::array();
  const Numbers numbers = listed(each, words);
  column.push_back(words), column.push_back(numbers);
  put_numbers(column, "k", rows);
  return true;
}

void put_words(ordered_json& column, const Values& values) {
  ordered_json words = ordered_json::array();
  const Numbers numbers = listed(values, words);
  if (words.size() == values.size()) {
    column[1] = "l";
    column.push_back(std::move(words));
    return;
  }
  column.push_back(std::move(words));
  put_numbers(column, "w", numbers);
}

ordered_json column_of(const std::string& name, const Values& values, const Places& places) {
  ordered_json column = {name, ""};
  const auto same = [&](const ordered_json* value) { return *value == *values[0]; };
  if (name == "id") column[1] = "id";
  else if (put_rows(column, values, places) || put_kinds_and_rows(column, values, places)) return column;
  else if (std::ranges::all_of(values, same)) column[1] = "=", column.push_back(*values[0]);
  else if (!put_plain_numbers(column, values) && !put_moments(column, values)) put_words(column, values);
  return column;
}

ordered_json table_of_rows(const std::string& name, const ordered_json& rows, const Places& places) {
  const bool single = rows.is_object();
  ordered_json table = {name, single ? ordered_json() : ordered_json(rows.size())};
  if (!single && rows.empty()) return table;
  const ordered_json& first = single ? rows : rows[0];
  for (const auto& [field, unused] : first.items()) {
    Values values;
    if (single) values.push_back(&rows.at(field));
    else
      for (const ordered_json& row : rows) values.push_back(&row.at(field));
    table.push_back(column_of(field, values, places));
  }
  return table;
}

}  // namespace

Columns columns_of_document(const std::string& document) {
  const ordered_json whole = ordered_json::parse(document);
  Columns columns;
  Places places;
  const auto note = [&](const ordered_json& row) {
    const auto text = row.at("id").get<std::string>();
    columns.ids.push_back(parse_id(text).value());
    places.try_emplace(text, static_cast<std::int64_t>(columns.ids.size()));
  };
  for (const auto& [name, rows] : whole.items()) {
    if (rows.is_object()) note(rows);
    if (rows.is_array()) std::ranges::for_each(rows, note);
  }
  ordered_json tables = ordered_json::array();
  for (const auto& [name, rows] : whole.items())
    if (rows.is_structured()) tables.push_back(table_of_rows(name, rows, places));
  const ordered_json text = {{"format", "ohmstead columns"}, {"version", 1}, {"document", {whole.at("format"), whole.at("version")}}, {"tables", std::move(tables)}};
  columns.text = text.dump();
  return columns;
}

}  // namespace ohmstead
