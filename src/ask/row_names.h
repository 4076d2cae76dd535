#pragma once
// What any row of a house, and any field of it, is called in plain words: for its history, and for two copies side by side.

#include <cstdint>
#include <string>

#include "house/house.h"

namespace ohmstead {

/// "Kitchen dishwasher", "breaker Main 12", "the look at Kitchen light", "the note about the house". A row that is not in the
/// house is "a breaker", and so on. Printable.
[[nodiscard]] std::string row_name(const House& house, const std::string& table, std::uint64_t id);

/// "running watts" for running_watts; a few words better than the field's own.
[[nodiscard]] std::string field_name(const std::string& field);

/// A value as the file has it (an id, a word of an enumeration, a text), as people say it: "breaker Main 12", "not known", "none".
[[nodiscard]] std::string value_name(const House& house, const std::string& value);

}  // namespace ohmstead
