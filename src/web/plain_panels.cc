// Each panel in its physical order, and the transfer devices.

#include <map>
#include <set>

#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

std::string joined_numbers(const Json& numbers) {
  std::string text;
  for (const Json& number : numbers) text += (text.empty() ? "" : ", ") + number.get<std::string>();
  return text;
}

/// The two cells of a breaker; an empty place has words of its own.
std::string cells_of(const Json& view, const Json& cell, std::size_t rows) {
  const std::string span = rows > 1 ? "rowspan=\"" + std::to_string(rows) + "\"" : "";
  const auto td = [&](const char* attributes, const std::string& inner) { return element("td", attributes + (span.empty() ? "" : " " + span), inner); };
  const bool empty = cell["handle"].is_null();
  const int amps = cell["amps"].get<int>();
  const std::string mark = cell["mark"].get<std::string>();
  std::string what = empty ? "empty place" : handle_link(view, cell["handle"], cell["text"].get<std::string>());
  if (!mark.empty()) what += " <b class=\"p-mark\">[" + escaped(mark) + "]</b>";
  if (!empty) what += " <span class=\"p-number\">" + (amps > 0 ? std::to_string(amps) : "?") + " A</span>";
  return td("class=\"p-space\"", escaped(joined_numbers(cell["numbers"]))) + td(empty ? "class=\"p-empty\"" : "class=\"p-feeds\"", what);
}

/// Rows where at least one breaker begins, and how many of them each cell takes.
std::string panel_rows(const Json& view, const Json& panel) {
  std::set<int> bounds;
  std::map<std::pair<int, int>, const Json*> begins;  // by half and column
  for (const Json& cell : panel["cells"]) {
    const int first = cell["first_half"].get<int>();
    bounds.insert(first);
    begins[{first, cell["column"].get<int>()}] = &cell;
  }
  std::string rows;
  for (const int half : bounds) {
    std::string row;
    for (int column = 0; column < panel["columns"].get<int>(); ++column) {
      const auto cell = begins.find({half, column});
      if (cell == begins.end()) continue;
      const int end = half + (*cell->second)["halves"].get<int>();
      row += cells_of(view, *cell->second, static_cast<std::size_t>(std::distance(bounds.find(half), bounds.lower_bound(end))));
    }
    rows += element("tr", "", row);
  }
  return rows;
}

std::string panel_html(const Json& view, const Json& panel) {
  const std::string id = panel["id"].get<std::string>(), place = panel["place"].get<std::string>(), from = panel["fed_by"].get<std::string>();
  const bool two = panel["columns"].get<int>() == 2;
  std::string facts = escaped(panel["volts"].get<std::string>()) + ", " + (from.empty() ? "supply not recorded" : "fed by " + escaped(from)) + ".";
  if (!place.empty()) facts += " It is in: " + escaped(place) + ".";
  facts += panel["main"].is_null() ? " No main breaker in it." : " " + handle_link(view, panel["main"], "Main breaker") + ", " + std::to_string(panel["main_amps"].get<int>()) + " A; its line side stays live when it is OFF.";
  const std::string heads = column_head("Space") + column_head("Feeds");
  std::string top = two ? element("tr", "", "<th scope=\"colgroup\" colspan=\"2\">Left</th><th scope=\"colgroup\" colspan=\"2\">Right</th>") : "";
  top += element("tr", "", two ? heads + heads : heads);
  const std::string groups = two ? "<colgroup span=\"2\"></colgroup><colgroup span=\"2\"></colgroup>" : "<colgroup span=\"2\"></colgroup>";
  return element("h3", "id=\"at-panel-" + id + "\"", escaped(panel["title"].get<std::string>())) + element("p", "", facts) +
         element("div", "class=\"p-scroll\" tabindex=\"0\" role=\"group\" aria-label=\"" + escaped(panel["title"].get<std::string>()) + ", table\"",
                 element("table", "class=\"p-panel\"", groups + element("thead", "", top) + element("tbody", "", panel_rows(view, panel))));
}

std::string transfer_html(const Json& view, const Json& device) {
  const std::string place = device["place"].get<std::string>();
  std::string rows;
  for (const Json& position : device["positions"])
    rows += element("tr", "", element("th", "scope=\"row\"", handle_link(view, position["handle"], position["label"].get<std::string>())) + element("td", "", escaped(position["text"].get<std::string>())) +
                                  element("td", "", escaped(position["watts"].get<std::string>())) + element("td", "", escaped(position["wiring"].get<std::string>())));
  if (rows.empty()) return "";
  const std::string heads = column_head("Position") + column_head("Carries") + column_head("Watts") + column_head("Stands");
  return element("h3", "", "Transfer device " + escaped(device["name"].get<std::string>())) +
         element("p", "", (place.empty() ? "" : "It is in: " + escaped(place) + ". ") + std::string(device["automatic"].get<bool>() ? "It moves by itself." : "Its handles are moved by hand.")) +
         element("table", "", element("thead", "", element("tr", "", heads)) + element("tbody", "", rows));
}

}  // namespace

std::string panels_part(const Json& view) {
  std::string html;
  for (const Json& panel : view["panels"]) html += panel_html(view, panel);
  for (const Json& device : view["transfer"]) html += transfer_html(view, device);
  return section("panels", "Panels, in their physical order", html.empty() ? element("p", "", "No panel is written down.") : html);
}

}  // namespace ohmstead::web::plain_page
