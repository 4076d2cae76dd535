#include "json/json_text.h"

#include <nlohmann/json.hpp>

namespace ohmstead {

using Json = nlohmann::ordered_json;

namespace {

std::string word(LineKind kind) {
  switch (kind) {
    case LineKind::danger: return "danger";
    case LineKind::answer: return "answer";
    case LineKind::detail: return "detail";
    case LineKind::caution: break;
  }
  return "caution";
}

}  // namespace

Json lines_json(const Lines& lines) {
  Json list = Json::array();
  for (const Line& line : lines) list.push_back({{"kind", word(line.kind)}, {"text", line.text}, {"items", line.items}});
  return list;
}

Json started_json(const char* question, const Lines& lines) { return {{"question", question}, {"version", 1}, {"lines", lines_json(lines)}}; }

std::string json_text(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace ohmstead
