// Floors and rooms.

#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

/// Metres to the centimetre: what is measured is no finer.
double metres(double m) { return static_cast<double>(static_cast<long>(m * 100 + 0.5)) / 100; }

Json floor_json(const ViewInput& in, const PlanFloor& floor) {
  Json rooms = Json::array();
  for (const PlanRoom& room : floor.rooms) rooms.push_back(in.room_no[room.room]);
  return {{"name", floor.name}, {"rooms", rooms}, {"width_m", metres(floor.width_m)}, {"depth_m", metres(floor.depth_m)}, {"scale", floor.scale}};
}

Json room_json(const ViewInput& in, std::size_t r) {
  const Room& row = in.record.house.rooms[r];
  Json room = {{"id", row.id.text()}, {"name", row.name}, {"floor", nullptr}, {"measured", false}, {"left_m", 0}, {"top_m", 0}, {"width_m", 0}, {"depth_m", 0}};
  for (std::size_t f = 0; f < in.plan.floors.size(); ++f)
    for (const PlanRoom& drawn : in.plan.floors[f].rooms) {
      if (drawn.room != r) continue;
      room["floor"] = f;
      room["measured"] = drawn.measured;
      room["left_m"] = metres(drawn.left_m), room["top_m"] = metres(drawn.top_m);
      room["width_m"] = metres(drawn.width_m), room["depth_m"] = metres(drawn.depth_m);
    }
  room["points"] = Json::array();
  for (std::size_t p = 0; p < in.record.house.points.size(); ++p)
    if (in.record.house.points[p].room == row.id) room["points"].push_back(p);
  return room;
}

}  // namespace

void add_places(const ViewInput& in, Json& view) {
  view["floors"] = Json::array(), view["rooms"] = Json::array();
  for (const PlanFloor& floor : in.plan.floors) view["floors"].push_back(floor_json(in, floor));
  for (const std::size_t r : in.plan.walk) view["rooms"].push_back(room_json(in, r));
}

}  // namespace ohmstead::web::view_parts
