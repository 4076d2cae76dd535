#include "survey/found_point.h"

#include <algorithm>

#include "house/error.h"
#include "house/index.h"
#include "house/invariants.h"
#include "survey/kind_words.h"
#include "survey/text_lines.h"

namespace ohmstead {

namespace {

/// Upper and lower halves of a split receptacle have its name and their own word.
bool is_taken(const House& house, Id<Room> room, const std::string& name) {
  const auto wanted = entry_detail::lower(name);
  return std::ranges::any_of(house.points, [&](const Point& point) {
    if (point.room != room) return false;
    const auto other = entry_detail::lower(point.name);
    return other == wanted || other == wanted + " upper" || other == wanted + " lower";
  });
}

Load load_of(Id<Point> point, const std::string& name, const KindWord* known) {
  Load load{.id = Id<Load>::fresh(), .point = point, .name = name};
  if (known == nullptr) return load;
  load.importance = known->importance;
  load.hurt_by_power_loss = known->hurt_by_power_loss;
  if (known->running_watts > 0) {
    load.running_watts = known->running_watts;
    if (known->starting_watts > 0) load.starting_watts = known->starting_watts;
    load.basis = FigureBasis::table;
  }
  return load;
}

}  // namespace

std::string free_point_name(const House& house, Id<Room> room, PointKind kind) {
  const std::string base(text_of(kind));
  if (kind != PointKind::receptacle && !is_taken(house, room, base)) return base;
  for (int number = kind == PointKind::receptacle ? 1 : 2;; ++number)
    if (std::string name = base + " " + std::to_string(number); !is_taken(house, room, name)) return name;
}

FoundRows rows_of_found(const House& house, const FoundPoint& found) {
  const Room& room = row(house, found.room);
  const std::string name = found.name.empty() ? free_point_name(house, found.room, found.kind) : found.name;
  const auto refuse = [](const std::string& why) { return Error(ErrorKind::invalid_input, why); };
  if (name.size() > kLongestName || found.place.size() > kLongestName)
    throw refuse("The name or the place is longer than " + std::to_string(kLongestName) + " bytes; give a shorter one.");
  if (is_taken(house, found.room, name))
    throw refuse("There is a '" + name + "' in '" + room.name + "' already; choose another name, such as '" + name + " 2'.");
  const int legs = leg_count(house.dwelling.system);
  if (found.hots && (*found.hots < 1 || *found.hots > legs))
    throw refuse("A point of this house has 1 to " + std::to_string(legs) + " hot conductors, not " + std::to_string(*found.hots) + ".");
  const KindWord* known = find_kind(name);
  if (known != nullptr && known->kind != found.kind) known = nullptr;
  FoundRows rows;
  rows.point = {.id = Id<Point>::fresh(), .room = found.room, .name = name, .place = found.place, .kind = found.kind};
  rows.point.hots = found.hots.value_or(std::min(legs, known == nullptr ? 1 : known->hots));
  if (found.kind == PointKind::appliance || found.kind == PointKind::alarm || found.kind == PointKind::fan)
    rows.loads.push_back(load_of(rows.point.id, name, known));
  return rows;
}

}  // namespace ohmstead
