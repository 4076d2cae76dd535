#include "ask/outage_sheet.h"

#include <algorithm>

#include "ask/wall_sheet.h"
#include "house/error.h"

namespace ohmstead {

namespace {

LineKind kind_of(WallPartKind kind) {
  switch (kind) {
    case WallPartKind::urgent: return LineKind::danger;
    case WallPartKind::steps: return LineKind::answer;
    case WallPartKind::facts:
    case WallPartKind::to_fill: break;
  }
  return LineKind::detail;
}

/// "3 to BACKUP" in front of a text.
std::string with_handle(const WallItem& item, const std::string& handle, const std::string& text) {
  if (handle.empty()) return text;
  const std::string what = item.what.empty() ? "" : item.what + ": ";
  return what + handle + (item.to.empty() ? "" : " to " + item.to) + "." + (text.empty() ? "" : " " + text);
}

Line line_of(const WallPart& part) {
  Line line{kind_of(part.kind), part.title + (part.title.ends_with('.') ? "" : ".") + (part.first.empty() ? "" : " " + part.first), {}};
  for (const WallItem& item : part.items) {
    if (item.rows.empty()) line.items.push_back(with_handle(item, item.handle, item.text));
    else if (!item.text.empty()) line.items.push_back(item.text);
    for (const WallRow& row : item.rows) line.items.push_back(with_handle(item, row.handle, row.text));
  }
  std::erase(line.items, "");
  return line;
}

}  // namespace

std::optional<PlanAnswer> plan_to_live_by(const Record& record) {
  if (record.house.planned.empty()) return std::nullopt;
  for (std::size_t source = 0; source < record.house.sources.size(); ++source) try {
      return kept_plan_for(record, source);
    } catch (const Error&) {  // this source is not the one that the plan is for, or is not ready for a plan
    }
  return std::nullopt;
}

Lines words_of_outage_sheet(const Record& record, const std::optional<PlanAnswer>& plan) {
  if (!plan)
    return {{LineKind::answer, record.house.sources.empty() ? "No source for an outage is written down: when the power fails, wait for the utility. Switch off what must not start by itself."
                                                            : "No plan for an outage is kept in this record: what the source may carry was not worked out. Ask who keeps the record before anything is switched to it.", {}}};
  try {
    Lines lines;
    const WallSheet sheet = wall_sheet(record, *plan);
    for (const WallPart& part : sheet.parts)
      if (part.kind != WallPartKind::to_fill) lines.push_back(line_of(part));
    if (!sheet.complete) lines.push_back({LineKind::danger, "These steps are not the whole: go on with the program (`ohmstead outage`).", {}});
    if (!sheet.sources.empty()) {
      Line who{LineKind::detail, "Who says so.", {}};
      for (std::size_t s = 0; s < sheet.sources.size(); ++s) who.items.push_back("[" + std::to_string(s + 1) + "] " + sheet.sources[s]);
      lines.push_back(std::move(who));
    }
    return lines;
  } catch (const Error& error) {
    return {{LineKind::answer, std::string("The steps for an outage cannot be written down: ") + error.what(), {}}};
  }
}

std::vector<std::string> work_cautions(const House& house) {
  std::vector<std::string> cautions{
      "Lock or tape the handles that are opened. Before touching a conductor: test the tester on something live, test every conductor, and test the tester again.",
      "The line side of a main stays live when the main is off.",
      "What is marked likely or not found yet may be wrong: never take it for dead."};
  if (std::ranges::any_of(house.sources, [](const Source& source) { return source.kind == SourceKind::generator; }))
    cautions.push_back("A generator runs outdoors only, far from windows, doors and vents, and is never plugged into a receptacle of the house.");
  cautions.push_back("Local code and a licensed electrician decide.");
  return cautions;
}

}  // namespace ohmstead
