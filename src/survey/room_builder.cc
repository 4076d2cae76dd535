// Puts the items of a room line into the house: points, boxes, devices, loads.

#include <algorithm>

#include "house/index.h"
#include "survey/draft.h"
#include "survey/item.h"

namespace ohmstead::entry_detail {

namespace {

class RoomBuilder {
 public:
  RoomBuilder(Draft& draft, Id<Room> room, const ItemSpec& item) : draft_(draft), room_(room), item_(item) {}

  void run() {
    if (!item_.behind.empty()) outer_ = draft_.device(room_, item_.behind);
    if (item_.on_switch.handles > 0) switch_ = the_switch();
    for (int i = 0; i < item_.count; ++i) add_one(i);
  }

 private:
  void add_one(int index) {
    const std::string name = name_for(room_, item_.kind, item_.name, index);
    const Id<Box> box = item_.box.empty() ? draft_.add_box(room_, name) : draft_.shared_box(room_, item_.box);
    Point point{.room = room_, .box = box, .name = name, .place = item_.place, .kind = kind(), .hots = hots(), .rating_amps = item_.rating_amps};
    if (item_.halves != Halves::none) return add_halves(point);
    point.behind = switch_ ? switch_ : outer_;
    if (item_.disconnect) point.behind = add_disconnect(point);
    const Id<Point> id = draft_.add_point(point);
    if (item_.gfci) add_gfci(id, box);
    add_loads(id);
    declare(id);
  }

  void add_halves(Point point) {
    const std::string base = point.name;
    const auto behind_of = [&](Halves switched) { return item_.halves == switched ? switch_ : outer_; };
    if (item_.halves != Halves::split && !switch_) switch_ = the_switch();
    point.half = ReceptacleHalf::upper;
    point.name = base + " upper";
    point.behind = behind_of(Halves::upper_switched);
    const Id<Point> upper = draft_.add_point(point);
    point.half = ReceptacleHalf::lower;
    point.name = base + " lower";
    point.behind = behind_of(Halves::lower_switched);
    point.mate = upper;
    const Id<Point> lower_half = draft_.add_point(point);
    draft_.house.points[draft_.house.points.size() - 2].mate = lower_half;
    add_loads(upper);
    declare(upper);
    declare(lower_half);
  }

  void declare(Id<Point> point) {
    if (!item_.declared.breaker.empty()) declare_feed(draft_, point, {}, item_.declared);
  }

  /// The name of a point: numbered where there are several, or where the kind always is.
  std::string name_for(Id<Room> room, const KindWord* kind, const std::string& base, int index) {
    const auto taken = [&](const std::string& name) {
      return draft_.point_name_taken(room, name) || draft_.point_name_taken(room, name + " upper");
    };
    if (item_.exact_name || item_.first_number > 0) {
      const std::string name = item_.exact_name ? base : base + " " + std::to_string(item_.first_number + index);
      if (taken(name)) draft_.fail("there is a " + shown(name) + " in " + shown(draft_.name_of(room)) + " already; choose another name or number.");
      return name;
    }
    const bool numbered = item_.count > 1 || (kind != nullptr && kind->kind == PointKind::receptacle && !item_.gfci);
    if (!numbered && !taken(base)) return base;
    number_ = std::max(number_, taken(base) ? 2 : 1);
    while (taken(base + " " + std::to_string(number_))) ++number_;
    return base + " " + std::to_string(number_);
  }

  [[nodiscard]] PointKind kind() const { return item_.kind == nullptr ? PointKind::appliance : item_.kind->kind; }

  [[nodiscard]] int hots() const {
    const int wanted = item_.hots.value_or(item_.kind == nullptr ? 1 : item_.kind->hots);
    const int legs = leg_count(draft_.house.dwelling.system);
    if (item_.hots && *item_.hots > legs)
      draft_.fail(shown(item_.name) + " needs " + std::to_string(*item_.hots) + " hot conductors, but this house has " +
                  std::to_string(legs) + " leg" + (legs == 1 ? "." : "s."));
    return std::min(wanted, legs);
  }

  Id<Device> the_switch() {
    SwitchSpec spec = item_.on_switch;
    if (spec.handles == 0) spec = {1, "", {Id<Room>{}}};
    const auto room_of = [&](std::size_t i) { return spec.rooms[i] ? spec.rooms[i] : room_; };
    if (!spec.name.empty() && spec.handles == 1)
      if (const auto known = draft_.devices_named(room_of(0), spec.name); known.size() == 1) return known.front();
    const std::string noun = item_.kind == nullptr ? item_.name : std::string(item_.kind->name);
    const std::string name = spec.name.empty() ? draft_.free_handle_name(room_, noun + " switch") : spec.name;
    std::vector<Handle> handles;
    for (std::size_t i = 0; i < spec.rooms.size(); ++i) {
      const std::string own = spec.handles == 1 ? name : name + " " + std::to_string(i + 1);
      handles.push_back({.room = room_of(i), .box = draft_.add_box(room_of(i), own), .name = own});
    }
    if (hots() > 1 && spec.handles > 1) draft_.fail("a 3-way or 4-way group switches one hot conductor; " + shown(item_.name) + " needs two.");
    return draft_.add_device({.kind = DeviceKind::wall_switch, .name = name, .behind = outer_, .poles = hots()}, handles);
  }

  Id<Device> add_disconnect(const Point& point) {
    const std::string name = draft_.free_handle_name(room_, point.name + " disconnect");
    const Handle handle{.room = room_, .box = draft_.add_box(room_, name), .name = name};
    return draft_.add_device({.kind = DeviceKind::disconnect, .name = name, .behind = point.behind, .poles = point.hots}, {handle});
  }

  void add_gfci(Id<Point> point, Id<Box> box) {
    const std::string name = draft_.free_handle_name(room_, "GFCI");
    const Handle handle{.room = room_, .box = box, .name = name};
    const Id<Device> before = draft_.house.points.back().behind;
    const Id<Device> gfci = draft_.add_device(
        {.kind = DeviceKind::gfci_receptacle, .name = name, .behind = before, .at_point = point}, {handle});
    draft_.house.points.back().behind = gfci;
    for (const Downstream& down : item_.downstream)
      for (int i = 0; i < down.count; ++i) add_downstream(down, gfci);
  }

  void add_downstream(const Downstream& down, Id<Device> gfci) {
    const Id<Room> room = down.room ? down.room : room_;
    ItemSpec plain;
    plain.count = down.count;
    plain.kind = down.kind;
    plain.name = plain.load.name = down.kind->name;
    plain.load.kind = down.kind;
    RoomBuilder builder(draft_, room, plain);
    builder.outer_ = gfci;
    builder.add_one(0);
  }

  void add_loads(Id<Point> point) {
    const bool own = item_.load.running_watts || item_.load.importance || item_.load.duty_percent || item_.load.hurt;
    const PointKind what = kind();
    if (own || what == PointKind::appliance || what == PointKind::alarm || what == PointKind::fan) add_load(point, item_.load);
    for (const LoadSpec& load : item_.plugged) add_load(point, load);
  }

  void add_load(Id<Point> point, const LoadSpec& spec) {
    Load load{.id = Id<Load>::fresh(), .point = point, .name = spec.name, .running_watts = spec.running_watts,
              .starting_watts = spec.starting_watts, .duty_percent = spec.duty_percent};
    load.basis = spec.basis.value_or(FigureBasis::guess);
    load.hurt_by_power_loss = spec.hurt;
    if (spec.kind != nullptr) {
      load.hurt_by_power_loss = spec.hurt || spec.kind->hurt_by_power_loss;
      load.importance = spec.kind->importance;
      if (!load.running_watts && spec.kind->running_watts > 0) {
        load.running_watts = spec.kind->running_watts;
        if (spec.kind->starting_watts > 0) load.starting_watts = spec.kind->starting_watts;
        load.basis = FigureBasis::table;
      }
    }
    if (spec.importance) load.importance = *spec.importance;
    draft_.house.loads.push_back(load);
  }

  Draft& draft_;
  Id<Room> room_;
  const ItemSpec& item_;
  Id<Device> outer_;   ///< the device this item stands behind
  Id<Device> switch_;  ///< of this item
  int number_ = 1;     ///< no point of this item has a smaller one to come
};

}  // namespace

void add_items(Draft& draft, Id<Room> room, const std::vector<ItemSpec>& items) {
  for (const ItemSpec& item : items) RoomBuilder(draft, room, item).run();
}

}  // namespace ohmstead::entry_detail
