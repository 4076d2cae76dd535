#include "web/plain_page.h"

#include <algorithm>

#include "web/html.h"

namespace ohmstead::web::plain_page {

namespace {

std::string text_of(const Json& value) { return escaped(value.get<std::string>()); }

std::string head(const PlainInput& in) {
  const Json& house = in.view["house"];
  const std::string changed = house["changed_at"].get<std::string>();
  std::string html = element("h1", "", escaped(title_of(in.view)));
  html += element("p", "", "Written on " + escaped(in.date) + " from revision " + std::to_string(house["revision"].get<std::int64_t>()) + " of the record" +
                               (changed.size() < 10 ? "" : ", last changed on " + escaped(changed.substr(0, 10))) + "." +
                               (house["private"].get<bool>() ? "" : " What is private was left out."));
  html += element("p", "class=\"p-note\"", "To find a thing, search in the page (in the menu of most viewers: Find, or Find in page), or go to its room.");
  return element("header", "", html);
}

/// A name in the contents that leads to its place.
std::string entry(const std::string& id, const std::string& text) { return element("li", "", element("a", "href=\"#at-" + id + "\"", text)); }

std::string sub_entries(const Json& list, const char* what, const char* name) {
  std::string html;
  for (const Json& one : list)
    if (!one.contains("points") || !one["points"].empty()) html += entry(std::string(what) + "-" + one["id"].get<std::string>(), text_of(one[name]));
  return html.empty() ? "" : element("ul", "class=\"p-wide\"", html);
}

std::string contents(const PlainInput& in, bool has_notes, bool has_photos) {
  const Json& view = in.view;
  std::string list = entry("outage", "When the power fails");
  list += entry("work", "Before work on anything");
  list += element("li", "", element("a", "href=\"#at-panels\"", "Panels, in their physical order") + sub_entries(view["panels"], "panel", "title"));
  list += element("li", "", element("a", "href=\"#at-rooms\"", "Room by room: what feeds each thing") + sub_entries(view["rooms"], "room", "name"));
  list += entry("handles", "Handle by handle: what goes off with it");
  if (!view["plan"].is_null()) list += entry("plan", "The plan for an outage");
  if (has_notes) list += entry("notes", "Notes");
  if (has_photos) list += entry("photos", "Photos");
  list += entry("findings", "What to put right, and to ask an electrician about");
  list += entry("file", "About this file");
  return element("nav", "aria-label=\"Contents\"", element("h2", "", "Contents") + element("ul", "", list));
}

std::string work_part(const Json& view) {
  std::string items;
  for (const Json& caution : view["cautions"]) items += element("li", "", text_of(caution));
  return section("work", "Before work on anything", element("ul", "", items));
}

std::string file_part(const PlainInput& in) {
  std::string html = element("p", "", "This one file is complete: it needs no network and nothing beside it, and holds the whole record as well.");
  html += element("p", "", "To go on with the record on a computer with Ohmstead: <code>ohmstead import THIS-FILE.html new.house</code>");
  html += element("p", "", "SHA-256 of the record in it: <code class=\"p-digest\">" + escaped(in.digest) + "</code>. Two files with the same sum hold the same record.");
  return section("file", "About this file", html);
}

}  // namespace

std::string section(const std::string& id, const std::string& title, const std::string& inner) {
  return "\n" + element("section", "id=\"at-" + id + "\" aria-labelledby=\"head-" + id + "\"", element("h2", "id=\"head-" + id + "\"", title) + inner);
}

std::string lines_html(const Json& lines, const char* list) {
  std::string html;
  for (const Json& line : lines) {
    if (line["text"] != "") html += element("p", "class=\"p-" + line["kind"].get<std::string>() + "\"", text_of(line["text"]));
    std::string items;
    for (const Json& item : line["items"]) items += element("li", "", text_of(item));
    if (!items.empty()) html += element(list, "", items);
  }
  return html;
}

std::string column_head(const std::string& text) { return element("th", "scope=\"col\"", text); }

std::string handle_anchor(const Json& handle) {
  std::string id = "at-" + handle["ref"].get<std::string>();
  std::ranges::replace(id, ':', '-');
  return id;
}

std::string handle_link(const Json& view, const Json& handle, const std::string& text) {
  if (handle.is_null()) return escaped(text);
  return element("a", "href=\"#" + handle_anchor(view["handles"][handle.get<std::size_t>()]) + "\"", escaped(text));
}

std::string title_of(const Json& view) {
  const std::string name = view["house"]["name"].get<std::string>();
  return (name.empty() ? std::string("The house") : name) + ": what feeds what";
}

std::string plain_page(const PlainInput& in) {
  const std::string notes = notes_part(in), photos = photos_part(in);
  std::string main = outage_part(in.view) + work_part(in.view) + panels_part(in.view) + rooms_part(in.view) + handles_part(in.view);
  main += plan_part(in.view) + notes + photos + section("findings", "What to put right, and to ask an electrician about", lines_html(in.findings)) + file_part(in);
  return head(in) + contents(in, !notes.empty(), !photos.empty()) + element("main", "", main);
}

}  // namespace ohmstead::web::plain_page
