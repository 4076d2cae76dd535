// What to do in an outage, and the plan with its legs.

#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

std::string watts(const Json& number) { return std::to_string(number.get<long>()) + " W"; }

std::string block_rows(const Json& blocks, bool on_demand) {
  std::string rows;
  for (const Json& block : blocks)
    rows += element("tr", "", element("th", "scope=\"row\"", escaped(block["name"].get<std::string>()) + (on_demand ? ", when wanted" : "")) +
                                  element("td", "class=\"p-number\"", watts(block["watts"]) + (block["half"].get<bool>() ? "; the other half is on another leg" : "")));
  return rows;
}

/// One leg of the source: what is on it, against what it gives.
std::string leg_table(const Json& column, bool only_one) {
  const std::string name = only_one ? "The source" : "Leg " + std::to_string(column["leg"].get<int>());
  std::string html = element("caption", "", name + ": " + watts(column["running"]) + " together, of " + watts(column["limit"]));
  html += element("thead", "", element("tr", "", column_head("Load") + column_head("Watts, running")));
  html += element("tbody", "", block_rows(column["together"], false) + block_rows(column["on_demand"], true));
  if (column["start_extra"].get<int>() > 0)
    html += element("tfoot", "", element("tr", "", element("th", "scope=\"row\"", "For the largest start on top, for a moment") + element("td", "class=\"p-number\"", watts(column["start_extra"]))));
  return element("table", "class=\"p-leg\"", html);
}

/// A part of the sheet: its title is the first sentence of its text (ask/outage_sheet.h); steps are counted, facts are not.
std::string sheet_part(const Json& line) {
  const std::string text = line["text"].get<std::string>(), kind = line["kind"].get<std::string>();
  const std::size_t end = text.find(". ");
  const std::string title = text.substr(0, end), rest = end == std::string::npos ? "" : text.substr(end + 2);
  if (kind == "danger" || line["items"].empty()) return lines_html(Json::array({line}));
  return element("h3", "", escaped(title.ends_with('.') ? title.substr(0, title.size() - 1) : title)) +
         lines_html(Json::array({{{"kind", "detail"}, {"text", rest}, {"items", line["items"]}}}), kind == "answer" ? "ol" : "ul");
}

}  // namespace

std::string outage_part(const Json& view) {
  const Json& outage = view["outage"];
  if (outage.is_null())
    return section("outage", "When the power fails", element("p", "", "No source for an outage is written down in this record: everything waits for the utility."));
  std::string html;
  for (const Json& line : outage["lines"]) html += sheet_part(line);
  return section("outage", "When the power fails", html);
}

std::string plan_part(const Json& view) {
  const Json& plan = view["plan"];
  if (plan.is_null()) return "";
  std::string html = lines_html(plan["lines"]);
  for (const Json& column : plan["columns"]) html += leg_table(column, plan["columns"].size() == 1);
  return section("plan", "The plan for an outage", html);
}

}  // namespace ohmstead::web::plain_page
