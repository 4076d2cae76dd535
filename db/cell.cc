#include "db/cell.h"

namespace ohmstead {

namespace {

template <class T>
const T* get(const CellView& cell) {
  return std::get_if<T>(&cell);
}

}  // namespace

Complaint read_cell(const CellView& cell, std::string& field) {
  const auto* text = get<std::string_view>(cell);
  if (text == nullptr) return "a text";
  if (!is_utf8(*text)) return "a text in UTF-8";
  field = *text;
  return nullptr;
}

Complaint read_cell(const CellView& cell, bool& field) {
  if (const auto* value = get<bool>(cell)) return field = *value, nullptr;
  const auto* number = get<std::int64_t>(cell);
  if (number == nullptr || (*number != 0 && *number != 1)) return "true or false";
  field = *number == 1;
  return nullptr;
}

Complaint read_cell(const CellView& cell, int& field) {
  const auto* number = get<std::int64_t>(cell);
  if (number == nullptr || *number > kLargestNumber || *number < -kLargestNumber)
    return "a whole number of at most ten million either way";
  field = static_cast<int>(*number);
  return nullptr;
}

Complaint read_cell(const CellView& cell, std::optional<int>& field) {
  field.reset();
  return get<std::monostate>(cell) != nullptr ? nullptr : read_cell(cell, field.emplace());
}

Complaint read_cell(const CellView& cell, HandleRef& field) {
  const auto* text = get<std::string_view>(cell);
  const auto ref = text == nullptr ? std::nullopt : parse_handle_ref(*text);
  if (!ref) return "a handle such as \"breaker:0123456789ab\"";
  field = *ref;
  return nullptr;
}

Complaint read_cell(const CellView& cell, ThingRef& field) {
  const auto* text = get<std::string_view>(cell);
  const auto ref = text == nullptr ? std::nullopt : parse_thing_ref(*text);
  if (!ref) return "\"house\", or a thing such as \"room:0123456789ab\"";
  field = *ref;
  return nullptr;
}

Complaint read_id(const CellView& cell, std::uint64_t& value) {
  value = 0;
  if (get<std::monostate>(cell) != nullptr) return nullptr;
  const auto* text = get<std::string_view>(cell);
  const auto id = text == nullptr ? std::nullopt : parse_id(*text);
  if (!id) return "an id of twelve letters and digits (no i, l, o, u), or null";
  value = *id;
  return nullptr;
}

}  // namespace ohmstead
