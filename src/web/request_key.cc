#include "web/request_key.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "db/house_file.h"
#include "json/json_line.h"

namespace ohmstead::web {

namespace {

constexpr std::size_t kShortestKey = 8;

}  // namespace

std::string request_key(const nlohmann::ordered_json& request) {
  const std::string key = text_field(request, "key");
  if (key.empty()) return key;
  const bool plain = std::ranges::all_of(key, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); });
  if (key.size() < kShortestKey || key.size() > kLongestKey || !plain)
    throw refused_line("The field 'key' must be 8 to 64 letters and digits, drawn anew for each request.");
  return key;
}

}  // namespace ohmstead::web
