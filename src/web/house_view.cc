#include "web/house_view.h"

#include "ask/synonyms.h"
#include "web/house_view_parts.h"

namespace ohmstead::web {

namespace view_parts {

namespace {

/// A plan on paper has patterns; the page has none.
constexpr int kNoPatterns = 1;

std::vector<int> room_numbers(const House& house, const FloorPlan& plan) {
  std::vector<int> numbers(house.rooms.size(), 0);
  for (std::size_t at = 0; at < plan.walk.size(); ++at) numbers[plan.walk[at]] = static_cast<int>(at);
  return numbers;
}

}  // namespace

ViewInput view_input(const Record& record, const Names& names, const HouseViewOptions& options) {
  FloorPlan plan = floor_plan(record, kNoPatterns);
  std::vector<int> numbers = room_numbers(record.house, plan);
  return {record, names, options, diagrams(record.graph), std::move(plan), Index<Room>(record.house.rooms), std::move(numbers)};
}

Json handle_no(const Graph& graph, const HandleRef& handle) {
  if (!handle) return nullptr;
  const auto found = std::ranges::find(graph.handles, handle, &GraphHandle::ref);
  return found == graph.handles.end() ? Json() : Json(found - graph.handles.begin() - 1);
}

Json room_no(const ViewInput& in, Id<Room> room) {
  const long at = in.room_at.at(room);
  return at < 0 ? Json() : Json(in.room_no[static_cast<std::size_t>(at)]);
}

std::string room_name(const House& house, Id<Room> id) {
  const Room* room = find_row(house, id);
  return room == nullptr ? "" : room->name;
}

Throw away_from_usual(const GraphHandle& handle) {
  return handle.ref.kind == HandleKind::device && handle.usual == kOff ? kOn : kOff;
}

namespace {

Json synonym_groups() {
  Json groups = Json::array();
  for (const Synonyms& line : synonyms()) {
    Json group = Json::array({line.meaning});
    std::string_view rest = line.also;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find(' '), rest.size());
      group.push_back(rest.substr(0, end));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    if (group.size() > 1) groups.push_back(group);
  }
  return groups;
}

Json phrase_pairs() {
  Json pairs = Json::array();
  for (const Phrase& phrase : phrases()) pairs.push_back({phrase.said, phrase.read_as});
  return pairs;
}

}  // namespace

}  // namespace view_parts

nlohmann::ordered_json house_view(const Record& record, const Names& names, const HouseViewOptions& options) {
  const view_parts::ViewInput in = view_parts::view_input(record, names, options);
  view_parts::Json view;
  view["version"] = 1;
  view["house"] = {{"id", record.house.dwelling.id.text()}, {"name", record.house.dwelling.name}, {"revision", options.revision},
                   {"changed_at", options.changed_at}, {"private", options.is_private}};
  view_parts::add_places(in, view);
  view_parts::add_points(in, view);
  view_parts::add_handles(in, view);
  view_parts::add_panels(in, view);
  view_parts::add_photos(in, view);
  view["synonyms"] = view_parts::synonym_groups();
  view["phrases"] = view_parts::phrase_pairs();
  view_parts::add_answers(in, view);
  view_parts::add_backup(in, view);
  return view;
}

std::string house_view_text(const Record& record, const Names& names, const HouseViewOptions& options) {
  return house_view(record, names, options).dump(-1, ' ', false, view_parts::Json::error_handler_t::replace);
}

}  // namespace ohmstead::web
