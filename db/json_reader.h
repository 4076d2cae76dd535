#pragma once
// JSON from strangers, parsed with limits. Only .cc files of db include this.

#include <nlohmann/json.hpp>
#include <string_view>

namespace ohmstead {

/// The value of `text`. Throws Error{invalid_input}, with line and column or with the path of the
/// value, if it is not JSON, is nested deeper than `deepest`, or gives one key of an object twice.
[[nodiscard]] nlohmann::json parse_json(std::string_view text, int deepest);

/// Text with control characters as '?', not longer than 60 bytes, for a message.
[[nodiscard]] std::string for_message(std::string_view text);

}  // namespace ohmstead
