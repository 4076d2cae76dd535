#include "trace/behind_scene.h"

#include <algorithm>
#include <numeric>

#include "house/index.h"
#include "trace/board.h"

namespace ohmstead {

namespace {

constexpr double kAnywhereShare = 0.2;  ///< of the belief in a device's breaker that is spread over all ways

std::vector<double> belief_by_way(const UnitConclusion& unit, std::size_t ways) {
  std::vector<double> on(ways, 0);
  for (const Candidate& candidate : unit.candidates) {
    if (!is_a_feed(candidate)) continue;
    on[candidate.first] += candidate.belief;
    if (candidate.kind != CandidateKind::one) on[candidate.second] += candidate.belief;
  }
  return on;
}

/// How much the largest share stands out: 0 when all are equal, 1 when it is everything.
double standing_out(const std::vector<double>& shares) {
  if (shares.size() < 2) return shares.empty() ? 0 : 1;
  const double even = 1.0 / static_cast<double>(shares.size());
  return std::clamp((*std::ranges::max_element(shares) - even) / (1 - even), 0.0, 1.0);
}

}  // namespace

BehindScene::BehindScene(const BehindGround& ground, std::size_t room) : ground_(ground), ways_(ground.conclusions.ways.size()) {
  const House& house = ground.house;
  const Index<Room> room_at(house.rooms);
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Point& point = house.points[p];
    room_of_point_.push_back(static_cast<std::size_t>(std::max(0L, room_at.at(point.room))));
    sorts_.push_back(sort_of(house, Unit{point.id, {}, {p}, point.hots, {}, {}}));
    outside_.push_back(is_outside(house, point));
  }
  for (std::size_t p = 0; p < house.points.size(); ++p) away_.push_back(away_from(room, p));
  for (const UnitConclusion& unit : ground.conclusions.units) {
    on_.push_back(belief_by_way(unit, ways_));
    known_.push_back(standing_out(on_.back()));
  }
}

Away BehindScene::away_between(std::size_t a, std::size_t b) const {
  const House& house = ground_.house;
  if (a == b) return Away::here;
  if (house.rooms.empty()) return Away::far;
  if (ground_.walk[a][b] <= kNearSeconds) return Away::near;
  return house.rooms[a].floor == house.rooms[b].floor ? Away::floor : Away::far;
}

Away BehindScene::away_from(std::size_t room, std::size_t point) const { return away_between(room, room_of_point_[point]); }

double BehindScene::on(std::size_t point, std::size_t way) const {
  return std::min(1.0, on_[ground_.conclusions.readings.unit_of_point[point]][way]);
}

std::vector<double> BehindScene::ways_of_device(std::size_t device, const std::vector<double>& says) const {
  const std::size_t unit = ground_.conclusions.readings.unit_of_device[device];
  const bool something = !ground_.conclusions.readings.units[unit].points.empty();
  const double known = something ? known_[unit] : 0;
  std::vector<double> nearby(ways_, 0);
  for (std::size_t p = 0; p < sorts_.size(); ++p)
    for (std::size_t w = 0; w < ways_; ++w) nearby[w] += says[p] * this->known(p) * on(p, w);
  const double sum = std::accumulate(nearby.begin(), nearby.end(), 0.0), even = 1.0 / static_cast<double>(std::max<std::size_t>(1, ways_));
  std::vector<double> result;
  for (std::size_t w = 0; w < ways_; ++w) {
    const double guess = kAnywhereShare * even + (1 - kAnywhereShare) * (sum > 0 ? nearby[w] / sum : even);
    result.push_back(known * on_[unit][w] + (1 - known) * guess);
  }
  return result;
}

double BehindScene::all_known() const {
  double sum = 0;
  for (std::size_t p = 0; p < sorts_.size(); ++p) sum += known(p);
  return sorts_.empty() ? 0 : sum / static_cast<double>(sorts_.size());
}

}  // namespace ohmstead
