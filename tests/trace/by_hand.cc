#include "tests/trace/by_hand.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "house/tour.h"

namespace ohmstead::test {

namespace {

class ByHand {
 public:
  ByHand(const World& world, double error, const Manner& manner)
      : world_(world), helper_(manner.helper), meter_(world, manner), answer_(world.points.size(), kOpen), error_(error), random_(world.seed) {
    for (const WorldPoint& point : world.points) at_start_.push_back(point.at_start);
    for (const auto& row : world.walk_s) {
      walk_.emplace_back();
      for (const double seconds : row) walk_.back().push_back(static_cast<int>(std::lround(seconds)));
    }
  }

  Tally usual() {
    pass([this](std::size_t point, int off) {
      if (dead(point, off)) answer_[point] = off;
    });
    return judged();
  }

  Tally careful() {
    tour(kNothing, [this](std::size_t point, int) { at_first(point); });
    const auto look = [this](std::size_t point, int off) {
      if (dead(point, off) && (dead(point, off) || dead(point, off))) answer_[point] = off;
    };
    pass(look), pass(look);
    return judged();
  }

 private:
  static constexpr int kNothing = -1, kOpen = -2, kDead = -3;

  template <class Look>
  void pass(const Look& look) {
    for (std::size_t b = 0; b < world_.breakers.size(); ++b) {
      if (is_feeder(world_, static_cast<int>(b)) || std::ranges::count(answer_, kOpen) == 0) continue;
      meter_.open({&b, 1});
      tour(static_cast<int>(b), look);
      meter_.close({&b, 1});
    }
  }

  /// Through every room that holds a point without an answer, by a short way.
  template <class Look>
  void tour(int off, const Look& look) {
    std::vector<std::size_t> rooms;
    for (std::size_t p = 0; p < answer_.size(); ++p)
      if (answer_[p] == kOpen && std::ranges::find(rooms, room_of(p)) == rooms.end()) rooms.push_back(room_of(p));
    for (const std::size_t room : helper_ ? one_way(std::move(rooms)) : walking_order(walk_, meter_.room(), meter_.room(), rooms))
      for (std::size_t p = 0; p < answer_.size(); ++p)
        if (room_of(p) == room && answer_[p] == kOpen) look(p, off);
  }

  /// With a helper nobody walks back to the panel: this room first, and of the two ways round the
  /// rest the one whose last leg, which is not walked, is longer.
  std::vector<std::size_t> one_way(std::vector<std::size_t> rooms) {
    const std::size_t here = meter_.room();
    const bool begin_here = std::erase(rooms, here) > 0;
    auto order = walking_order(walk_, here, here, rooms);
    if (!order.empty() && walk_[here][order.front()] > walk_[order.back()][here]) std::ranges::reverse(order);
    if (begin_here) order.insert(order.begin(), here);
    return order;
  }

  void at_first(std::size_t point) {
    if (!dead(point, kNothing)) return;
    meter_.repair(point);
    if (at_start_[point] == AtStart::dead_until_repaired) at_start_[point] = AtStart::live;
    if (dead(point, kNothing)) answer_[point] = kDead;
  }

  /// One look, right but for a share of `error_`.
  bool dead(std::size_t point, int off) {
    meter_.look(point);
    const bool mistaken = std::uniform_real_distribution<>(0, 1)(random_) < error_;
    return (at_start_[point] != AtStart::live || (off >= 0 && goes_dead_with(world_, world_.points[point], off))) != mistaken;
  }

  Tally judged() {
    Tally tally = meter_.tally;
    for (std::size_t p = 0; p < answer_.size(); ++p) {
      const WorldPoint& point = world_.points[p];
      const int right = point.at_start == AtStart::dead_for_good ? kDead : point.breaker < 0 ? kOpen : point.breaker;
      if (answer_[p] == right) continue;
      if (answer_[p] >= 0) ++tally.wrong;
      else ++tally.unresolved;
    }
    return tally;
  }

  [[nodiscard]] std::size_t room_of(std::size_t point) const { return static_cast<std::size_t>(world_.points[point].room); }

  const World& world_;
  bool helper_;
  CostMeter meter_;
  std::vector<std::vector<int>> walk_;
  std::vector<AtStart> at_start_;
  std::vector<int> answer_;
  double error_;
  std::mt19937 random_;
};

}  // namespace

Tally usual_way(const World& world, double error, const Manner& manner) { return ByHand(world, error, manner).usual(); }

Tally careful_way(const World& world, double error, const Manner& manner) { return ByHand(world, error, manner).careful(); }

}  // namespace ohmstead::test
