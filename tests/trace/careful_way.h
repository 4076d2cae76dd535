#pragma once
// The careful way without a program (common practice, no source): a tour with everything on, in
// which what is dead is repaired if it can be; then one breaker off after another, each time a tour
// of every point without an answer; a dead reading is taken a second time, and a third time if the
// two differ; then a second pass for what has no answer yet. It knows no kinds and no labels.

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>
#include <vector>

#include "tests/trace/bench_tally.h"
#include "trace/tour.h"

namespace ohmstead::test {

class CarefulWay {
 public:
  CarefulWay(const nlohmann::json& json, double error)
      : json_(json), truth_(json["truth"]["breaker_of_point"]), at_start_(json["truth"]["dead_at_start"]),
        answer_(truth_.size(), kOpen), panel_(json["panel_room"]), error_(error), random_(json["seed"].get<unsigned>()) {
    for (const auto& row : json["walk_s"]) {
      walk_.emplace_back();
      for (const auto& seconds : row) walk_.back().push_back(static_cast<int>(std::lround(seconds.get<double>())));
    }
  }

  Tally run() {
    const int breakers = static_cast<int>(json_["breakers"].size());
    tour(kNothing);
    for (int pass = 0; pass < 2; ++pass)
      for (int b = 0; b < breakers; ++b)
        if (std::ranges::count(answer_, kOpen) > 0) with_off(b);
    for (std::size_t p = 0; p < truth_.size(); ++p) {
      const int right = at_start_[p] == 2 ? kDead : truth_[p] < 0 ? kOpen : truth_[p];
      if (answer_[p] == right) continue;
      if (answer_[p] >= 0) ++tally_.wrong;
      else ++tally_.unresolved;
    }
    return tally_;
  }

 private:
  static constexpr int kNothing = -1, kOpen = -2, kDead = -3;

  void with_off(int breaker) {
    ++tally_.opened;
    tally_.seconds += 2 * kHandleCost + kNuisanceCost;
    tour(breaker);
  }

  void tour(int off) {
    std::vector<std::size_t> rooms;
    for (std::size_t p = 0; p < truth_.size(); ++p)
      if (answer_[p] == kOpen && std::ranges::find(rooms, room_of(p)) == rooms.end()) rooms.push_back(room_of(p));
    const auto order = walking_order(walk_, panel_, panel_, rooms);
    tally_.seconds += walk_seconds(walk_, panel_, panel_, order) + kEnterCost * static_cast<double>(order.size());
    for (const std::size_t room : order)
      for (std::size_t p = 0; p < truth_.size(); ++p)
        if (room_of(p) == room && answer_[p] == kOpen) off == kNothing ? at_first(p) : with(p, off);
  }

  void at_first(std::size_t point) {
    if (!dead(point, kNothing)) return;
    tally_.seconds += kRepairCost;
    if (at_start_[point] == 1) at_start_[point] = 0;
    if (dead(point, kNothing)) answer_[point] = kDead;
  }

  void with(std::size_t point, int off) {
    if (!dead(point, off)) return;
    if (dead(point, off) || dead(point, off)) answer_[point] = off;
  }

  /// One look, right but for a share of `error_`.
  bool dead(std::size_t point, int off) {
    ++tally_.looks;
    tally_.seconds += json_["points"][point]["check_s"].get<double>();
    const bool mistaken = std::uniform_real_distribution<>(0, 1)(random_) < error_;
    return (at_start_[point] != 0 || (off >= 0 && truth_[point] == off)) != mistaken;
  }

  [[nodiscard]] std::size_t room_of(std::size_t point) const { return json_["points"][point]["room"]; }

  const nlohmann::json& json_;
  std::vector<std::vector<int>> walk_;
  std::vector<int> truth_, at_start_, answer_;
  std::size_t panel_;
  double error_;
  std::mt19937 random_;
  Tally tally_;
};

}  // namespace ohmstead::test
