#include "web/sheet_routes.h"

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>

#include "json/json_line.h"
#include "web/request_key.h"
#include "web/waits.h"

namespace ohmstead::web {

namespace {

constexpr std::size_t kLongestItem = 96;

/// What is asked of the sheets: nothing as long as it is being drawn.
using Ask = std::function<std::optional<Response>()>;

/// Answers at once what is there, and parks what is not.
Answer when_drawn(Waits& waits, std::uint64_t device, const Ask& ask) {
  if (auto now = ask()) return *now;
  const auto place = waits.take(device);
  if (place == nullptr) return refusal(503, "too_many", "This device waits for several sheets already; ask again in 3 seconds.");
  return Parked{std::chrono::seconds(25), [ask, place](bool over) -> std::optional<Response> {
                  auto now = ask();
                  if (!now && over) return refusal(503, "not_drawn", "The sheets are still being drawn; ask again in a few seconds.");
                  return now;
                }};
}

/// Names of the list are of small letters, digits and hyphens (cli/print_set.h); the printing program compares it with that of the revision.
bool may_be_a_name(const std::string& item) {
  const auto plain = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || c == '-'; };
  return !item.empty() && item.size() <= kLongestItem && item.front() != '-' && std::ranges::all_of(item, plain);
}

SaidPrinted said_in(const nlohmann::ordered_json& body) {
  SaidPrinted said{text_field(body, "item"), number_field(body, "revision", 1, std::numeric_limits<int>::max()), request_key(body)};
  if (said.key.empty()) throw refused_line("The field 'key' must be there: that a sheet was printed is written down once.");
  if (!may_be_a_name(said.item)) throw Error(ErrorKind::not_found, "There is no such sheet; look at the list of sheets again.");
  return said;
}

}  // namespace

std::vector<Route> sheet_routes(Sheets& sheets) {
  const auto waits = std::make_shared<Waits>(kMostSheetWaits);
  const auto get = [&](const char* path, auto ask) {
    return Route{Verb::get, path, Role::look, [waits, ask](const Call& call) {
                   const std::string item = call.request.field("item"), page = call.request.field("page");
                   return when_drawn(*waits, call.device.number, [ask, item, page] { return ask(item, page); });
                 }};
  };
  return {
      get("/api/sheets", [&sheets](const std::string& item, const std::string&) { return item.empty() ? sheets.list() : sheets.about(item); }),
      get("/api/sheet", [&sheets](const std::string& item, const std::string& page) { return sheets.picture(item, page); }),
      get("/api/sheet.pdf", [&sheets](const std::string& item, const std::string&) { return sheets.pdf(item); }),
      {Verb::post, "/api/printed", Role::trace, [&sheets, waits](const Call& call) {
         return when_drawn(*waits, call.device.number, [&sheets, said = said_in(call.body)] { return sheets.keep(said); });
       }},
  };
}

}  // namespace ohmstead::web
