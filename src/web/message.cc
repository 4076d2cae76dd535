#include "web/message.h"

#include <nlohmann/json.hpp>

namespace ohmstead::web {

std::string Request::field(std::string_view name) const {
  for (const auto& [key, value] : query)
    if (key == name) return value;
  return {};
}

std::string Request::cookie_named(std::string_view name) const {
  for (std::size_t at = 0; at < cookie.size();) {
    const std::size_t end = std::min(cookie.find(';', at), cookie.size());
    const std::string_view one = std::string_view(cookie).substr(at, end - at);
    const std::size_t first = std::min(one.find_first_not_of(' '), one.size());
    const std::string_view pair = one.substr(first);
    if (const std::size_t sign = pair.find('='); sign != std::string_view::npos && pair.substr(0, sign) == name)
      return std::string(pair.substr(sign + 1));
    at = end + 1;
  }
  return {};
}

Response refusal(int status, std::string_view kind, std::string_view message) {
  const nlohmann::ordered_json json{{"error", {{"kind", kind}, {"message", message}}}};
  return {status, "application/json", json.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n", ""};
}

}  // namespace ohmstead::web
