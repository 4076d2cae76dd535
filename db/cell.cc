#include "db/cell.h"

namespace ohmstead {

namespace {

/// Length in bytes of the well-formed character at the front, or 0.
std::size_t character_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return follows(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const bool overlong = first == 0xE0 && byte(1) < 0xA0;
    const bool surrogate = first == 0xED && byte(1) >= 0xA0;
    return follows(1) && follows(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const bool overlong = first == 0xF0 && byte(1) < 0x90;
    const bool beyond = first == 0xF4 && byte(1) >= 0x90;
    return follows(1) && follows(2) && follows(3) && !overlong && !beyond ? 4 : 0;
  }
  return 0;
}

template <class T>
const T* get(const CellView& cell) {
  return std::get_if<T>(&cell);
}

}  // namespace

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

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
