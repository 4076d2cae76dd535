#pragma once
// Identity of a thing in the house: 60 bits, written as 12 letters and digits. Each run of the program
// counts on from a random value, so that two copies of a file that went different ways never give two
// things one name; never reused. Why so, and why not 128 bits: docs/decisions/0002-ids-of-60-bits.md.

#include <compare>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace ohmstead {

/// Twelve characters of Crockford's base 32 in lower case (no i, l, o, u).
[[nodiscard]] std::string id_text(std::uint64_t value);
/// The value of such a text, or nothing if it is not one.
[[nodiscard]] std::optional<std::uint64_t> parse_id(std::string_view text);
/// A fresh value, 1 .. 2^60 - 1: the next one after a start that is random for each thread of each process. Safe to call from any thread.
[[nodiscard]] std::uint64_t new_id_value();
/// Draws another start for this thread. For a forked process that goes on by itself: else it would give the same ids as its parent.
void begin_ids_anew();

/// Id of a row of type `Row`. Zero means 'none' or 'not known'.
template <class Row>
struct Id {
  std::uint64_t value = 0;
  explicit operator bool() const { return value != 0; }
  auto operator<=>(const Id&) const = default;
  [[nodiscard]] std::string text() const { return value == 0 ? std::string() : id_text(value); }
  [[nodiscard]] static Id fresh() { return Id{new_id_value()}; }
};

}  // namespace ohmstead

template <class Row>
struct std::hash<ohmstead::Id<Row>> {
  std::size_t operator()(const ohmstead::Id<Row>& id) const noexcept {
    return static_cast<std::size_t>(id.value * 0x9E3779B97F4A7C15ULL);
  }
};
