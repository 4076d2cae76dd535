#include <algorithm>

#include "house/index.h"
#include "house_maker.h"

namespace ohmstead {

Id<Box> HouseMaker::box_in(Id<Room> room) {
  std::vector<Box> here;
  std::ranges::copy_if(house_.boxes, std::back_inserter(here), [&](const Box& b) { return b.room == room; });
  return here.empty() || one_in(5) ? Id<Box>{} : any(here).id;
}

/// A device already there that switches at least `poles` hot conductors, or none.
Id<Device> HouseMaker::device_with_poles(int poles) {
  if (house_.devices.empty() || !one_in(3)) return {};
  const Device& device = any(house_.devices);
  return device.poles >= poles ? device.id : Id<Device>{};
}

Id<Device> HouseMaker::add_switching(DeviceKind kind, Id<Device> behind, int poles, Id<Room> room) {
  Device device{fresh<Device>(), kind, name("switch"), behind};
  device.poles = poles;
  const int handles = kind == DeviceKind::wall_switch && poles == 1 && one_in(3) ? between(2, 4) : 1;
  for (int i = 0; i < handles; ++i) {
    const Id<Room> where = i == 0 ? room : any(house_.rooms).id;
    house_.handles.push_back({fresh<Handle>(), device.id, one_in(10) ? Id<Room>{} : where, box_in(where), words()});
  }
  house_.devices.push_back(device);
  return device.id;
}

void HouseMaker::device(Id<Room> room) {
  const int most = leg_count(house_.dwelling.system);
  const int poles = one_in(3) ? between(1, most) : 1;
  const Id<Device> behind = device_with_poles(poles);
  if (poles == 1 && one_in(3)) return gfci(room, behind);
  add_switching(one_in(3) ? DeviceKind::disconnect : DeviceKind::wall_switch, behind, poles, room);
}

/// A GFCI receptacle: the device, and the point it is in, which stands behind it.
void HouseMaker::gfci(Id<Room> room, Id<Device> behind) {
  const Id<Device> device = add_switching(DeviceKind::gfci_receptacle, behind, 1, room);
  if (one_in(8)) return;  // where it is was not written down
  Point face{fresh<Point>(), room, house_.handles.back().box, name("receptacle"), words()};
  face.behind = device;
  house_.points.push_back(face);
  house_.devices.back().at_point = face.id;
}

void HouseMaker::point(Id<Room> room) {
  Point point{fresh<Point>(), room, box_in(room), name("point"), words(), any_word<PointKind>()};
  const int legs = leg_count(house_.dwelling.system);
  if (one_in(5)) point.hots = between(1, legs);
  point.behind = device_with_poles(point.hots);
  if (const std::size_t n = house_.points.size(); point.kind == PointKind::receptacle && n % 3 == 0) point.rating_amps = n % 2 == 0 ? 15 : 20;
  house_.points.push_back(point);
}

void HouseMaker::split_receptacle(Id<Room> room) {
  Point upper{fresh<Point>(), room, box_in(room), name("receptacle upper"), words()};
  Point lower{fresh<Point>(), room, upper.box, name("receptacle lower"), upper.place};
  upper.half = ReceptacleHalf::upper, lower.half = ReceptacleHalf::lower;
  upper.mate = lower.id, lower.mate = upper.id;
  upper.behind = device_with_poles(1), lower.behind = device_with_poles(1);
  house_.points.push_back(upper), house_.points.push_back(lower);
}

void HouseMaker::points() {
  for (const Room& room : house_.rooms) {
    for (int i = below(3); i > 0; --i) device(room.id);
    for (int i = below(6); i > 0; --i) one_in(6) ? split_receptacle(room.id) : point(room.id);
  }
}

void HouseMaker::loads() {
  for (const Point& point : house_.points) {
    if (one_in(2)) continue;
    Load load{fresh<Load>(), point.id, words()};
    if (!one_in(3)) load.running_watts = below(2000);
    if (!one_in(3)) load.starting_watts = load.running_watts.value_or(0) + below(2000);
    if (one_in(2)) load.duty_percent = below(101);
    load.importance = any_word<Importance>();
    load.hurt_by_power_loss = one_in(4);
    load.basis = any_word<FigureBasis>();
    const Apart apart(*this);
    load.use = any_word<LoadUse>();
    load.continuous = one_in(5), load.starts_itself = one_in(5);
    if (one_in(4)) load.power_factor_percent = between(1, 100), load.longest_off_min = below(5000);
    if (one_in(6)) load.horsepower_hundredths = between(10, 500), load.code_letter = one_in(2) ? "K" : "", load.full_load_deciamps = below(500);
    house_.loads.push_back(load);
  }
}

}  // namespace ohmstead
