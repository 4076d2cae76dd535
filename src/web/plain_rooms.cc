// Room by room what feeds each thing, with the answers about it.

#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

/// The breaker nearest to the point on its way from the source.
Json own_breaker(const Json& view, const Json& point) {
  Json own;
  for (const Json& handle : point["way"])
    if (view["handles"][handle.get<std::size_t>()]["kind"] == "breaker") own = handle;
  return own;
}

/// `breaker` ends in "?" where the feed is not to be relied on, and then its place on backup is not either.
std::string backup_words(const std::string& backup, const std::string& breaker) {
  if (backup.empty()) return "";
  const std::string unsure = breaker.ends_with('?') ? "?" : "";
  if (backup == "none") return "no" + unsure;
  return (backup.starts_with("found wired wrong") ? "" : "yes: ") + backup + unsure;
}

std::string standing_words(const std::string& standing) {
  if (standing == "open") return "not found yet: it may be live whatever is switched off";
  return standing == "disputed" ? "disputed: what was seen contradicts itself" : standing == "likely" ? "likely, not proved" : standing;
}

/// The cautions of all work stand once, in a part of their own, which is linked.
Json without_cautions(const Json& lines) {
  Json left = Json::array();
  for (const Json& line : lines)
    if (line["kind"] != "caution") left.push_back(line);
  return left;
}

/// One thing: a row of the table, and under it a row with the sentences.
std::string point_rows(const Json& view, const Json& point, int columns) {
  const std::string id = point["id"].get<std::string>(), place = point["place"].get<std::string>(), breaker = point["breaker"].get<std::string>();
  std::string name = "<bdi>" + escaped(point["name"].get<std::string>()) + "</bdi>";
  if (!place.empty()) name += " <span class=\"p-note\">(<bdi>" + escaped(place) + "</bdi>)</span>";
  std::string row = element("th", "scope=\"row\"", name);
  row += element("td", "", breaker.empty() ? "not found yet" : handle_link(view, own_breaker(view, point), breaker) + " <span class=\"p-note\">" + escaped(point["panel"].get<std::string>()) + "</span>");
  if (columns > 2) row += element("td", "", escaped(backup_words(point["backup"].get<std::string>(), breaker)));
  std::string more = element("p", "", escaped("How sure: " + standing_words(point["standing"].get<std::string>()) + ".")) + lines_html(view["answers"]["where"][id]);
  for (const Json& mark : point["marks"])
    if (mark.get<std::string>().starts_with("note: ")) more += element("p", "", escaped(mark.get<std::string>()));
  more += element("h4", "", "Before work on it") + lines_html(without_cautions(view["answers"]["isolate"][id])) + element("p", "class=\"p-note\"", "Read first: <a href=\"#at-work\">before work on anything</a>.");
  const std::string details = element("details", "", element("summary", "", "More about <bdi>" + escaped(point["name"].get<std::string>()) + "</bdi>") + more);
  return element("tbody", "id=\"at-point-" + id + "\"", element("tr", "", row) + element("tr", "class=\"p-more\"", element("td", "colspan=\"" + std::to_string(columns) + "\"", details)));
}

std::string room_html(const Json& view, const Json& room, int columns) {
  std::string rows;
  for (const Json& point : room["points"]) rows += point_rows(view, view["points"][point.get<std::size_t>()], columns);
  if (rows.empty()) return "";
  const std::string floor = room["floor"].is_null() ? "" : view["floors"][room["floor"].get<std::size_t>()]["name"].get<std::string>();
  const std::string heads = column_head("Thing") + column_head("Switch off") + (columns > 2 ? column_head("On backup") : "");
  return element("h3", "id=\"at-room-" + room["id"].get<std::string>() + "\"",
                 "<bdi>" + escaped(room["name"].get<std::string>()) + "</bdi>" + (floor.empty() ? "" : " <span class=\"p-note\">" + escaped(floor) + "</span>")) +
         element("table", "class=\"p-room\"", element("thead", "", element("tr", "", heads)) + rows);
}

}  // namespace

std::string rooms_part(const Json& view) {
  const int columns = view["sources"].size() > 1 ? 3 : 2;
  std::string html;
  for (const Json& room : view["rooms"]) html += room_html(view, room, columns);
  return section("rooms", "Room by room: what feeds each thing", html.empty() ? element("p", "", "Nothing is written down yet.") : html);
}

}  // namespace ohmstead::web::plain_page
