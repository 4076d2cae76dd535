#pragma once
// One field of a row as a plain value, the same for a column of the house file and for a value of
// the interchange document. This is the one place that knows how each type of field is written:
// ids and references as their text (none: null), words of an enumeration, whole numbers.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>

#include "house/enum_text.h"
#include "house/id.h"
#include "house/refs.h"
#include "house/utf8.h"

namespace ohmstead {

/// A value to be written; monostate is null.
using Cell = std::variant<std::monostate, bool, std::int64_t, std::string>;
/// A value that was read; the text belongs to whoever read it.
using CellView = std::variant<std::monostate, bool, std::int64_t, std::string_view>;

/// Largest whole number, either way, that any field holds. Far above every limit of a house; it
/// keeps sums of fields from overflowing before the limits are checked.
inline constexpr std::int64_t kLargestNumber = 10'000'000;


template <class T>
inline constexpr bool kIsId = false;
template <class Row>
inline constexpr bool kIsId<Id<Row>> = true;
/// Fields that may be null.
template <class T>
inline constexpr bool kMayBeNull = kIsId<T> || std::is_same_v<T, std::optional<int>>;

/// The value of a field.
template <class T>
[[nodiscard]] Cell cell_of(const T& field) {
  if constexpr (kIsId<T>) return field ? Cell(field.text()) : Cell();
  else if constexpr (std::is_enum_v<T>) return std::string(text_of(field));
  else if constexpr (std::is_same_v<T, std::optional<int>>) return field ? Cell(std::int64_t{*field}) : Cell();
  else if constexpr (std::is_same_v<T, HandleRef> || std::is_same_v<T, ThingRef>) return text_of_ref(field);
  else if constexpr (std::is_same_v<T, int>) return std::int64_t{field};
  else {
    static_assert(std::is_same_v<T, std::string> || std::is_same_v<T, bool>);
    return field;
  }
}

/// What is wrong with a value, to be put after "It must be"; nullptr: nothing.
using Complaint = const char*;

[[nodiscard]] Complaint read_cell(const CellView& cell, std::string& field);
[[nodiscard]] Complaint read_cell(const CellView& cell, bool& field);  ///< a truth value, or 0 or 1
[[nodiscard]] Complaint read_cell(const CellView& cell, int& field);
[[nodiscard]] Complaint read_cell(const CellView& cell, std::optional<int>& field);
[[nodiscard]] Complaint read_cell(const CellView& cell, HandleRef& field);
[[nodiscard]] Complaint read_cell(const CellView& cell, ThingRef& field);
/// The id's value; 0 for null.
[[nodiscard]] Complaint read_id(const CellView& cell, std::uint64_t& value);

template <class Row>
[[nodiscard]] Complaint read_cell(const CellView& cell, Id<Row>& field) {
  return read_id(cell, field.value);
}

template <class E>
  requires std::is_enum_v<E>
[[nodiscard]] Complaint read_cell(const CellView& cell, E& field) {
  const auto* text = std::get_if<std::string_view>(&cell);
  const auto value = text == nullptr ? std::nullopt : parse_enum<E>(*text);
  if (!value) return "one of the words of this field";
  field = *value;
  return nullptr;
}

}  // namespace ohmstead
