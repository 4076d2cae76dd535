#pragma once
// What a way of tracing cost on some houses, and the seconds that the cost model gives each act.

#include <algorithm>

namespace ohmstead::test {

/// Seconds of work (domain experience, no source): walking and looks are given by the house.
inline constexpr double kHandleCost = 4, kNuisanceCost = 20, kEnterCost = 5, kRepairCost = 20;

struct Tally {
  double seconds = 0, slowest_step_ms = 0;
  int wrong = 0, unresolved = 0, looks = 0, opened = 0, broken_rules = 0;
  void add(const Tally& other) {
    seconds += other.seconds, wrong += other.wrong, unresolved += other.unresolved, looks += other.looks;
    opened += other.opened, broken_rules += other.broken_rules;
    slowest_step_ms = std::max(slowest_step_ms, other.slowest_step_ms);
  }
};

}  // namespace ohmstead::test
