#include "web/sheet_routes.h"

#include "web/waits.h"

namespace ohmstead::web {

namespace {

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
  };
}

}  // namespace ohmstead::web
