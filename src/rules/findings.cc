#include "rules/findings.h"

#include <algorithm>

#include "rules/conductor.h"
#include "rules/findings_look.h"
#include "rules/panel_text.h"

namespace ohmstead {

namespace findings_detail {

void Look::rests_on(const std::vector<std::size_t>& points) {
  const auto weakest = std::ranges::min_element(points, {}, [&](std::size_t p) { return input.feeds.of_point[p].standing; });
  if (weakest == points.end()) return;
  const Standing standing = input.feeds.of_point[*weakest].standing;
  constexpr const char* kWords[] = {"not found", "disputed", "likely, not proved", "declared, not proved", "proved"};
  out.found.back().sure = standing == Standing::proved ? "feeds as proved" : "what feeds " + point_label(house(), *weakest) + " is " + kWords[static_cast<std::size_t>(standing)];
}

namespace {

std::string counted(std::size_t n, const char* one, const char* many) { return std::to_string(n) + " " + (n == 1 ? one : many); }

/// What this record leaves undecided, and what no record of this kind can decide.
void tell_not_checked(Look& look) {
  const House& house = look.house();
  std::vector<std::string>& out = look.out.not_checked;
  const auto without_wire = static_cast<std::size_t>(std::ranges::count_if(house.breakers, [&](const Breaker& breaker) {
    const auto circuit = std::ranges::find(house.circuits, breaker.id, &Circuit::breaker);
    return circuit == house.circuits.end() || !find_wire_size(circuit->wire);
  }));
  if (without_wire > 0) out.push_back("Breaker against wire: the size of the wire is not recorded for " + counted(without_wire, "breaker", "breakers") + ", or is in no table here.");
  const auto open = static_cast<std::size_t>(std::ranges::count_if(look.input.feeds.of_point, [](const Feed& feed) { return !relied_on(feed.standing); }));
  if (open > 0) out.push_back("GFCI, AFCI and circuits of their own: " + counted(open, "point is", "points are") + " not traced so that it can be relied on.");
  for (const Panel& panel : house.panels)
    if (panel.supply == Supply::breaker || panel.supply == Supply::position) out.push_back("Whether neutral and ground are apart in " + panel_title(panel) + ", a subpanel, is not recorded (NFPA 70 250.24(A)(5) and 408.40, from memory).");
  if (!house.sources.empty()) out.push_back("Whether the signs that the code asks for hang at the service and the source is not recorded; `ohmstead paper signs` prints them.");
  if (!house.printed.empty()) out.push_back("Whether what was printed is still true: `ohmstead print --stale`.");
  out.push_back("Shared neutrals are known only where they are recorded.");
  const auto unrated = static_cast<std::size_t>(std::ranges::count_if(house.points, [](const Point& point) { return point.kind == PointKind::receptacle && point.rating_amps == 0; }));
  if (unrated > 0) out.push_back("Receptacles against their circuits: what stands on " + counted(unrated, "receptacle is", "receptacles is") + " not recorded (`Rated Kitchen receptacles 1-4: 20 A`).");
  out.push_back("Not recorded at all: boxes and splices, tightness of terminals, grounding, the year of the work. No cover was opened for this.");
}

}  // namespace

}  // namespace findings_detail

Findings rule_findings(const FindingsInput& input) {
  Findings made;
  findings_detail::Look look{input, made};
  findings_detail::sort_points(look);
  findings_detail::find_neutrals(look);
  findings_detail::find_feeds(look);
  findings_detail::find_wires(look);
  findings_detail::find_receptacles(look);
  findings_detail::find_life_safety(look);
  findings_detail::find_loads(look);
  findings_detail::find_backup(look);
  findings_detail::find_trips(look);
  findings_detail::find_words(look);
  findings_detail::find_protection(look);
  findings_detail::find_dedicated(look);
  findings_detail::find_gaps(look);
  std::ranges::stable_sort(made.found, {}, &Finding::severity);
  findings_detail::tell_not_checked(look);
  return made;
}

}  // namespace ohmstead
