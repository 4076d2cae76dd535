#include "tests/trace/exact_tracing.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace ohmstead::test {

ExactTracing::ExactTracing(const World& world, FeedPrior prior, int dead_looks)
    : world_(world), prior_(std::move(prior)), dead_looks_(dead_looks), panel_(static_cast<std::size_t>(world.panel_room)) {
  if (world_.points.size() > kMostPoints || world_.breakers.size() != kMostBreakers || world_.points.size() != prior_.size())
    throw std::logic_error("an exact optimum is only worked out for 4 breakers and up to 5 points");
  std::size_t size = (kMostBreakers + 1) * (world_.rooms.size() + 1);
  for (std::size_t p = 0; p < world_.points.size(); ++p) size *= kSeens;
  least_.assign(size, -1);
}

void ExactTracing::start() { seen_.fill(kNeverSeen); }

double ExactTracing::seconds() {
  start();
  return value({});
}

bool ExactTracing::all_proved() const {
  return std::all_of(seen_.begin(), seen_.begin() + static_cast<long>(world_.points.size()), [](Seen seen) { return seen == kProved; });
}

double ExactTracing::way_to_panel(std::size_t place) const { return place == kAtPanel ? 0 : world_.walk_s[place - 1][panel_]; }

double ExactTracing::way_into(std::size_t place, std::size_t room) const {
  if (place == room + 1) return 0;
  return world_.walk_s[place == kAtPanel ? panel_ : place - 1][room] + kEnterCost;
}

bool ExactTracing::tells(std::size_t point, int open) const {
  const Seen seen = seen_[point];
  if (seen == kProved) return false;
  if (seen >= kSeenDead) return open != seen - kSeenDead;  // it will be live
  if (open == kNothing) return seen == kNeverSeen;
  return seen == kSeenLive || (seen >> open & 1) != 0;
}

double ExactTracing::chance_of_dead(std::size_t point, int open) const {
  const Seen seen = seen_[point];
  if (open == kNothing || seen >= kSeenDead) return 0;
  const int possible = seen == kSeenLive ? kNeverSeen : seen;
  double all = 0;
  for (std::size_t b = 0; b < kMostBreakers; ++b)
    if ((possible >> b & 1) != 0) all += prior_[point][b];
  const bool last = possible == 1 << open;
  return last ? 1 : prior_[point][static_cast<std::size_t>(open)] / all;
}

ExactTracing::Seen ExactTracing::after(Seen seen, int open, bool dead) {
  if (seen >= kSeenDead) return kProved;
  if (dead) return seen == kNeverSeen ? static_cast<Seen>(kSeenDead + open) : kProved;
  if (open == kNothing) return kSeenLive;
  return static_cast<Seen>((seen == kSeenLive ? kNeverSeen : seen) & ~(1 << open));
}

double ExactTracing::value_of_look(Where at, std::size_t point) {
  const auto room = static_cast<std::size_t>(world_.points[point].room);
  const double look = world_.points[point].check_s, dead = chance_of_dead(point, at.open);
  const Seen before = seen_[point];
  double sum = way_into(at.place, room) + look * (1 + dead * (dead_looks_ - 1));
  for (const bool is_dead : {false, true}) {
    const double chance = is_dead ? dead : 1 - dead;
    if (chance <= 0) continue;
    seen_[point] = after(before, at.open, is_dead);
    sum += chance * value({room + 1, at.open});
    seen_[point] = before;
  }
  return sum;
}

ExactTracing::Move ExactTracing::best_move(Where at) {
  Move best{Move::none, 0, HUGE_VAL};
  const auto consider = [&](const Move& move) {
    if (move.seconds < best.seconds) best = move;
  };
  for (std::size_t p = 0; p < world_.points.size(); ++p)
    if (tells(p, at.open)) consider({Move::look, p, value_of_look(at, p)});
  const double back = way_to_panel(at.place) + kHandleCost;
  if (at.open != kNothing) {
    if (at.place != kAtPanel) consider({Move::close, static_cast<std::size_t>(at.open), back + value({})});
    return best;
  }
  for (int b = 0; b < static_cast<int>(kMostBreakers); ++b) {
    bool pays = false;
    for (std::size_t p = 0; p < world_.points.size(); ++p) pays = pays || tells(p, b);
    if (pays) consider({Move::open, static_cast<std::size_t>(b), back + kNuisanceCost + value({kAtPanel, b})});
  }
  return best;
}

double ExactTracing::value(Where at) {
  if (at.open == kNothing && all_proved()) return 0;
  std::size_t index = 0;
  for (std::size_t p = 0; p < world_.points.size(); ++p) index = index * kSeens + seen_[p];
  index = (index * (kMostBreakers + 1) + static_cast<std::size_t>(at.open + 1)) * (world_.rooms.size() + 1) + at.place;
  if (least_[index] < 0) least_[index] = static_cast<float>(best_move(at).seconds);
  return static_cast<double>(least_[index]);
}

Tally ExactTracing::follow(std::span<const std::size_t> feeds) {
  start();
  CostMeter meter(world_, {});
  for (Where at; at.open != kNothing || !all_proved();) {
    const Move move = best_move(at);
    if (move.kind == Move::none) throw std::logic_error("the best way of working stopped before all was proved");
    const std::array breaker{move.which};
    if (move.kind == Move::open) meter.open(breaker), at = {kAtPanel, static_cast<int>(move.which)};
    if (move.kind == Move::close) meter.close(breaker), at = {};
    if (move.kind != Move::look) continue;
    const bool dead = at.open != kNothing && feeds[move.which] == static_cast<std::size_t>(at.open);
    for (int i = 0; i < (dead ? dead_looks_ : 1); ++i) meter.look(move.which);
    seen_[move.which] = after(seen_[move.which], at.open, dead);
    at.place = static_cast<std::size_t>(world_.points[move.which].room) + 1;
  }
  return meter.tally;
}

}  // namespace ohmstead::test
