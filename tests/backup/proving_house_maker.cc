#include "proving_house_maker.h"

#include "house/numbering.h"

namespace ohmstead::test {

void ProvingHouseMaker::begin() {
  house_.dwelling.id = Id<Dwelling>::fresh();
  house_.floors.push_back({Id<Floor>::fresh(), "Ground floor", "", 0});
  const int rooms = between(4, 9);
  for (int r = 0; r < rooms; ++r) house_.rooms.push_back({Id<Room>::fresh(), house_.floors[0].id, "Room " + std::to_string(r + 1), 400 * (r % 3), 400 * (r / 3), 400, 400});
  house_.panels.push_back({Id<Panel>::fresh(), "Main", house_.rooms[0].id, 60, Numbering::odd_left_even_right, Supply::utility});
  house_.panels[0].main_amps = 100;
  house_.sources.push_back({.id = Id<Source>::fresh(), .name = "G", .running_watts = 4000});
}

Id<Breaker> ProvingHouseMaker::add_breaker(int poles) {
  const int side = next_[0] <= next_[1] ? 0 : 1;
  Breaker breaker{Id<Breaker>::fresh(), house_.panels[0].id, next_[side], Half::whole, poles, 15};
  next_[side] += 2 * poles;
  if (some_briefly_ && one_in(12)) breaker.open_rule = OpenRule::briefly_alone;
  house_.breakers.push_back(breaker);
  return breaker.id;
}

void ProvingHouseMaker::add_point(Id<Breaker> breaker, int pole, int hots) {
  const auto room = house_.rooms[static_cast<std::size_t>(between(0, static_cast<int>(house_.rooms.size()) - 1))].id;
  Point point{Id<Point>::fresh(), room, {}, "point " + std::to_string(house_.points.size()), "", one_in(2) ? PointKind::light : PointKind::receptacle};
  if (hots == 2) point.kind = PointKind::appliance, point.hots = 2;
  house_.points.push_back(point);
  for (int hot = 1; hot <= hots; ++hot)
    house_.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), point.id, {}, hot, breaker, hots == 2 ? hot : pole, "J.", ""});
}

void ProvingHouseMaker::single() {
  const Id<Breaker> breaker = add_breaker(1);
  for (int p = between(1, 3); p > 0; --p) add_point(breaker, 1, 1);
}

void ProvingHouseMaker::two_pole() {
  const Id<Breaker> breaker = add_breaker(2);
  const int kind = between(1, 3);
  if (kind != 2) add_point(breaker, 1, 2);
  if (kind != 1) add_point(breaker, 1, 1), add_point(breaker, 2, 1);
}

}  // namespace ohmstead::test
