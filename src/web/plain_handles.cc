// Handle by handle what goes off with it; and the notes.

#include "ask/names.h"
#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

/// Handles of some kinds, each with what goes off.
std::string group_html(const Json& view, const char* title, const std::vector<std::string>& kinds) {
  std::string html;
  for (const Json& handle : view["handles"]) {
    if (std::ranges::find(kinds, handle["kind"].get<std::string>()) == kinds.end()) continue;
    const std::size_t carries = handle["carries"].size();
    const std::string summary = element("summary", "", "<b>" + escaped(handle["name"].get<std::string>()) + "</b>: " +
                                                           (carries == 0 ? "nothing known goes off" : carries == 1 ? "1 thing goes off" : std::to_string(carries) + " things go off"));
    html += element("details", "id=\"" + handle_anchor(handle) + "\"", summary + lines_html(view["answers"]["off"][handle["ref"].get<std::string>()]));
  }
  return html.empty() ? "" : element("h3", "", title) + html;
}

}  // namespace

std::string handles_part(const Json& view) {
  const std::string html = group_html(view, "Mains and breakers", {"main", "breaker"}) + group_html(view, "Transfer positions and their breakers", {"position", "position_breaker"}) +
                           group_html(view, "Switches, GFCI receptacles and disconnects", {"wall_switch", "gfci_receptacle", "disconnect"});
  return section("handles", "Handle by handle: what goes off with it",
                 element("p", "", "Each turned off alone, on an ordinary day; a switch without an off position, turned the other way.") + html);
}

std::string notes_part(const PlainInput& in) {
  if (in.house.notes.empty()) return "";
  const Names names(in.house);
  std::string items;
  for (const Note& note : in.house.notes)
    items += element("li", "", "<b>" + escaped(names.name_of(note.about)) + "</b>: " + escaped(note.text) + (note.is_private ? " (private)" : ""));
  return section("notes", "Notes", element("ul", "", items));
}

}  // namespace ohmstead::web::plain_page
