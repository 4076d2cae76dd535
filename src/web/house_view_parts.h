#pragma once
// Internal to house_view: its parts, each from the same things.

#include <nlohmann/json.hpp>
#include <optional>

#include "ask/floor_plan.h"
#include "feed/diagrams.h"
#include "house/index.h"
#include "web/house_view.h"

namespace ohmstead::web::view_parts {

using Json = nlohmann::ordered_json;

struct ViewInput {
  const Record& record;
  const Names& names;
  const HouseViewOptions& options;
  const Diagrams diagrams;
  const FloorPlan plan;
  const Index<Room> room_at;        ///< in house.rooms
  const std::vector<int> room_no;   ///< of house.rooms: its place in the view's rooms
};
[[nodiscard]] ViewInput view_input(const Record& record, const Names& names, const HouseViewOptions& options);

/// Place of a handle in the view's handles; null for none.
[[nodiscard]] Json handle_no(const Graph& graph, const HandleRef& handle);
/// The same by its place in Graph::handles: the permanent joint is left out.
[[nodiscard]] constexpr std::uint32_t handle_no(std::uint32_t handle) { return handle - 1; }
/// Place of a room in the view's rooms; null for none.
[[nodiscard]] Json room_no(const ViewInput& in, Id<Room> room);
/// "" for none.
[[nodiscard]] std::string room_name(const House& house, Id<Room> room);
/// What turns a handle away from its usual throw: off, or the other way of a switch that has no off.
[[nodiscard]] Throw away_from_usual(const GraphHandle& handle);

// house_view_places.cc
void add_places(const ViewInput& in, Json& view);
// house_view_points.cc
void add_points(const ViewInput& in, Json& view);
// house_view_handles.cc
void add_handles(const ViewInput& in, Json& view);
// house_view_panels.cc
void add_panels(const ViewInput& in, Json& view);
// house_view_photos.cc
void add_photos(const ViewInput& in, Json& view);
// house_view_backup.cc
void add_backup(const ViewInput& in, Json& view);
// house_view_answers.cc
void add_answers(const ViewInput& in, Json& view);

}  // namespace ohmstead::web::view_parts
