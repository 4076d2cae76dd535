// Points and loads.

#include <algorithm>
#include <deque>

#include "ask/answers.h"
#include "ask/fed_words.h"
#include "ask/watts.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

/// For each conductor, the contact by which an ordinary day's supply reaches it: shortest from the utility.
class Ways {
 public:
  explicit Ways(const Graph& graph) : graph_(graph), from_(graph.node_count(), kNoNode), by_(graph.node_count(), 0) {
    const State usual = usual_state(graph);
    std::vector<bool> seen(graph.node_count(), false);
    std::deque<Node> queue;
    for (const Terminal& terminal : graph.terminals)
      if (terminal.source == 0) seen[terminal.node] = true, queue.push_back(terminal.node);
    for (; !queue.empty(); queue.pop_front())
      for (const Arc& arc : graph.arcs_of(queue.front())) {
        if (seen[arc.to] || (arc.closed_in >> usual.throws[arc.handle] & 1U) == 0) continue;
        seen[arc.to] = true, from_[arc.to] = queue.front(), by_[arc.to] = arc.handle;
        queue.push_back(arc.to);
      }
  }

  /// Handles on the way to a point, the source's side first; of handles tied together one.
  [[nodiscard]] std::vector<std::uint32_t> to(std::size_t point) const {
    std::vector<std::uint32_t> handles;
    for (const Node hot : graph_.point_hots[point]) {
      std::vector<std::uint32_t> way;
      for (Node at = hot; at != kNoNode && from_[at] != kNoNode; at = from_[at])
        if (by_[at] != 0) way.push_back(by_[at]);
      for (auto h = way.rbegin(); h != way.rend(); ++h)
        if (std::ranges::none_of(handles, [&](std::uint32_t known) { return graph_.handles[known].group == graph_.handles[*h].group; })) handles.push_back(*h);
    }
    return handles;
  }

 private:
  const Graph& graph_;
  std::vector<Node> from_;
  std::vector<std::uint32_t> by_;
};

constexpr const char* kFoundWrong = "found wired wrong, do not use: ";

std::string backup_words(const FedWords& fed) { return fed.found_wrong ? kFoundWrong + fed.position : fed.position; }

std::string backup_mark(const FedWords& fed) {
  if (fed.position.empty() || fed.found_wrong) return fed.found_wrong ? kFoundWrong + fed.position : "";
  return fed.position == "none" ? "not on backup" + fed.sign : "on backup: " + fed.position + fed.sign;
}

std::vector<std::string> marks_of(const ViewInput& in, const FedWords& fed, std::size_t p) {
  const House& house = in.record.house;
  const Point& point = house.points[p];
  std::vector<std::string> marks;
  if (point.half != ReceptacleHalf::both) marks.push_back(std::string(text_of(point.half)) + " half of a split receptacle");
  if (point.rating_amps > 0) marks.push_back(std::to_string(point.rating_amps) + " A stands on it");
  if (point.hots > 1) marks.push_back(std::to_string(point.hots) + " hot conductors");
  for (const Id<Device> device : where_is(in.record, p).behind) marks.push_back("behind " + in.names.name_of(ThingRef{ThingKind::device, device.value}));
  if (const std::string backup = backup_mark(fed); !backup.empty()) marks.push_back(backup);
  for (const Load& load : house.loads)
    if (load.point == point.id && load.hurt_by_power_loss) marks.push_back("losing power hurts: " + (load.name.empty() ? point.name : load.name));
  for (const Note& note : house.notes)
    if (note.about == ThingRef{ThingKind::point, point.id.value}) marks.push_back("note: " + note.text);
  return marks;
}

std::vector<std::string> labels_of(const ViewInput& in) {
  std::vector<std::string> labels(in.record.house.points.size(), "?");
  for (const PlanFloor& floor : in.plan.floors)
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points) labels[point.point] = point.label;
  return labels;
}

std::string load_words(const House& house, const Load& load) {
  const LoadFigures figures = figures_of(house, load);
  if (!figures.known) return "";
  const std::string start = figures.starting == figures.running ? "" : ", " + range_text(figures.starting) + " to start";
  return range_text(figures.running) + " running" + start + " (" + basis_text(figures.running_basis, figures.running_source) + ").";
}

}  // namespace

void add_points(const ViewInput& in, Json& view) {
  const House& house = in.record.house;
  const Ways ways(in.record.graph);
  const PositionProofs proofs = position_proofs(in.record);
  const std::vector<std::string> labels = labels_of(in);
  const Index<Point> point_at(house.points);
  view["points"] = Json::array(), view["loads"] = Json::array();
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Point& point = house.points[p];
    const FedWords fed = fed_words(in.record, proofs, p);
    Json way = Json::array();
    for (const std::uint32_t handle : ways.to(p)) way.push_back(handle_no(handle));
    view["points"].push_back({{"id", point.id.text()}, {"name", point.name}, {"full", in.names.name_of(ThingRef{ThingKind::point, point.id.value})},
                              {"room", room_no(in, point.room)}, {"kind", text_of(point.kind)}, {"place", point.place}, {"label", labels[p]},
                              {"breaker", fed.numbers + fed.sign}, {"panel", fed.panels}, {"backup", backup_words(fed)},
                              {"standing", text_of(in.record.feeds.of_point[p].standing)}, {"diagram", in.diagrams.of_point[p]}, {"way", way},
                              {"loads", Json::array()}, {"marks", marks_of(in, fed, p)}});
  }
  for (const Load& load : house.loads) {
    const long at = point_at.at(load.point);
    if (at >= 0) view["points"][static_cast<std::size_t>(at)]["loads"].push_back(view["loads"].size());
    view["loads"].push_back({{"id", load.id.text()}, {"name", load.name}, {"point", at < 0 ? Json() : Json(at)}, {"words", load_words(house, load)}});
  }
}

}  // namespace ohmstead::web::view_parts
