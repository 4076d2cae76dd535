#pragma once
// The key of a request that changes something: drawn by its sender for that one request, so that sending it again does it once.

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace ohmstead::web {

/// Of the field 'key', 8 to 64 letters and digits; empty: there is none. Throws Error{invalid_input}.
[[nodiscard]] std::string request_key(const nlohmann::ordered_json& request);

}  // namespace ohmstead::web
