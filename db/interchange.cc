#include "db/interchange.h"

#include <nlohmann/json.hpp>
#include <set>

#include "db/cell_json.h"
#include "db/json_reader.h"
#include "db/base64.h"
#include "house/error.h"
#include "house/invariants.h"

namespace ohmstead {

using nlohmann::json;
using nlohmann::ordered_json;

namespace {

constexpr const char* kFormat = "ohmstead house";

[[noreturn]] void refuse(const std::string& path, const std::string& what) {
  throw Error(ErrorKind::invalid_input, path + ": " + what);
}

template <class Row>
ordered_json json_of_row(const Row& row) {
  ordered_json object = ordered_json::object();
  Row::fields(row, [&](const char* name, const auto& field) {
    object[name] = json_of_cell<ordered_json>(cell_of(field));
  });
  return object;
}

/// A JSON value as a cell. A real number, an array or an object becomes none of the kinds that a
/// field takes (`wrong` is then set).
CellView cell_from(const json& value, bool& wrong) {
  wrong = false;
  switch (value.type()) {
    case json::value_t::null: return {};
    case json::value_t::boolean: return value.get<bool>();
    case json::value_t::number_integer: return value.get<std::int64_t>();
    case json::value_t::number_unsigned:
      return static_cast<std::int64_t>(std::min<std::uint64_t>(value.get<std::uint64_t>(), INT64_MAX));
    case json::value_t::string: return std::string_view(value.get_ref<const std::string&>());
    default: return wrong = true, CellView();
  }
}

/// Sets one field from a JSON value. Unlike in a column, 0 and 1 are not truth values here.
template <class T>
Complaint set_field(const json& value, T& field) {
  bool wrong = false;
  const CellView cell = cell_from(value, wrong);
  if (wrong) {
    const Complaint complaint = read_cell(CellView(kLargestNumber + 1), field);
    return complaint != nullptr ? complaint : "a single value";
  }
  if constexpr (std::is_same_v<T, bool>)
    if (!value.is_boolean()) return "true or false";
  return read_cell(cell, field);
}

template <class Row>
Row row_of_json(const json& object, const std::string& path) {
  if (!object.is_object()) refuse(path, "It must be an object.");
  Row row;
  std::size_t used = 0;
  std::set<std::string> names;
  Row::fields(row, [&](const char* name, auto& field) {
    names.insert(name);
    const auto found = object.find(name);
    if (found == object.end()) return;
    ++used;
    if (const Complaint complaint = set_field(*found, field)) refuse(path + "." + name, std::string("It must be ") + complaint + ".");
  });
  if (used < object.size())
    for (const auto& [key, value] : object.items())
      if (!names.contains(key)) refuse(path, "There is no field '" + for_message(key) + "' in a " + Row::kTable + ".");
  return row;
}

template <class Row>
void read_rows(const json& document, std::vector<Row>& table) {
  const auto rows = document.find(Row::kTable);
  if (rows == document.end()) return;
  if (!rows->is_array()) refuse(Row::kTable, "It must be an array.");
  table.reserve(rows->size());
  for (std::size_t i = 0; i < rows->size(); ++i)
    table.push_back(row_of_json<Row>((*rows)[i], std::string(Row::kTable) + "[" + std::to_string(i) + "]"));
}

constexpr const char* kPictures = "picture";

/// The list of pictures; each is an object with its sum and its bytes.
Pictures pictures_of(const json& document) {
  Pictures pictures;
  const auto list = document.find(kPictures);
  if (list == document.end()) return pictures;
  if (!list->is_array()) refuse(kPictures, "It must be an array.");
  for (std::size_t i = 0; i < list->size(); ++i) {
    const json& one = (*list)[i];
    const std::string path = std::string(kPictures) + "[" + std::to_string(i) + "]";
    const auto text = [&](const char* name) {
      if (!one.is_object() || one.size() != 2 || !one.contains(name) || !one.at(name).is_string()) refuse(path, "It must be an object with 'sha256' and 'jpeg', both texts.");
      return std::string_view(one.at(name).get_ref<const std::string&>());
    };
    auto bytes = from_base64(text("jpeg"));
    if (!bytes) refuse(path + ".jpeg", "It must be base 64.");
    if (!pictures.emplace(text("sha256"), std::move(*bytes)).second) refuse(path + ".sha256", "It is there twice.");
  }
  return pictures;
}

void require_format(const json& document) {
  if (!document.is_object()) refuse("document", "It must be an object.");
  if (document.value("format", json()) != kFormat)
    refuse("format", std::string("It must be \"") + kFormat + "\"; this is a document of another kind.");
  const json version = document.value("version", json());
  if (!version.is_number_integer()) refuse("version", "It must be a whole number.");
  if (version > kInterchangeVersion)
    refuse("version", "The document has version " + version.dump() + "; this program reads versions up to " +
                          std::to_string(kInterchangeVersion) + ".");
  if (version < 1) refuse("version", "There is no version " + version.dump() + ".");
}

}  // namespace

std::string house_to_json(const House& house, const Pictures& pictures) {
  ordered_json document = {{"format", kFormat}, {"version", kInterchangeVersion}};
  document[Dwelling::kTable] = json_of_row(house.dwelling);
  for_each_table(house, [&]<class Row>(const std::vector<Row>& table) {
    ordered_json& rows = document[Row::kTable] = ordered_json::array();
    for (const Row& row : table) rows.push_back(json_of_row(row));
  });
  for (const auto& [sha256, bytes] : pictures) document[kPictures].push_back({{"sha256", sha256}, {"jpeg", base64_of(bytes)}});
  try {
    return document.dump(2) + "\n";
  } catch (const ordered_json::type_error&) {
    throw Error(ErrorKind::invalid_input, "A name or note of the house is not text in UTF-8, so it cannot be written as JSON.");
  }
}

House house_from_json(std::string_view text, Pictures* pictures) {
  if (text.size() > kLongestDocument)
    throw Error(ErrorKind::invalid_input, "The document is longer than " + std::to_string(kLongestDocument / 1'000'000) + " MB.");
  const json document = parse_json(text, kDeepestRecord);
  require_format(document);
  House house;
  if (!document.contains(Dwelling::kTable)) refuse(Dwelling::kTable, "It is missing.");
  house.dwelling = row_of_json<Dwelling>(document.at(Dwelling::kTable), Dwelling::kTable);
  std::set<std::string> known = {"format", "version", Dwelling::kTable, kPictures};
  for_each_table(house, [&]<class Row>(std::vector<Row>& table) {
    known.insert(Row::kTable);
    read_rows(document, table);
  });
  for (const auto& [key, value] : document.items())
    if (!known.contains(key)) refuse("document", "There is no table '" + for_message(key) + "'.");
  require_sound(house);
  Pictures found = pictures_of(document);
  require_pictures(house, found);
  if (pictures != nullptr) *pictures = std::move(found);
  return house;
}

}  // namespace ohmstead
