#pragma once
// What every random house of the proving tests begins with: rooms, a panel, a source, and circuits whose points are declared.

#include <random>

#include "house/house.h"

namespace ohmstead::test {

class ProvingHouseMaker {
 protected:
  explicit ProvingHouseMaker(unsigned seed) : random_(seed) {}

  int between(int low, int high) { return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1)); }
  bool one_in(int n) { return between(1, n) == 1; }

  /// 4 to 9 rooms on a floor, a panel of 60 spaces, a source of 4,000 W.
  void begin();
  Id<Breaker> add_breaker(int poles);
  /// A point that is declared to be fed by this pole; with two hots, by both.
  void add_point(Id<Breaker> breaker, int pole, int hots);
  /// A circuit with 1 to 3 points.
  void single();
  /// A circuit with points between the legs, on each of them, or both.
  void two_pole();

  std::mt19937 random_;
  House house_;
  bool some_briefly_ = false;  ///< one breaker in twelve may be off only briefly

 private:
  int next_[2] = {1, 2};
};

}  // namespace ohmstead::test
