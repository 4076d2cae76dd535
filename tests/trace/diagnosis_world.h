#pragma once
// A house in which something is wrong, computed without the code that is tested: faults are planted into the independent wiring of
// tests/feed/reference_graph.h, and what people would see follows from it.

#include <map>
#include <optional>
#include <random>
#include <set>
#include <vector>

#include "tests/feed/reference_graph.h"
#include "trace/diagnosis.h"

namespace ohmstead::test {

/// What is wrong, told apart as far as any look can tell it apart.
struct PlantedFault {
  CauseKind kind = CauseKind::itself;
  HandleRef handle = {};
  Throw to = kOff;          ///< handle_open
  bool tripped = false;     ///< handle_open: it tripped by itself
  int leg = 0;              ///< leg_lost
  std::size_t point = 0;    ///< itself; loose_on_circuit: dead for sure
  std::set<std::size_t> dead = {};    ///< loose_on_circuit; neutral_of_service, neutral_shared: too little is left for them
  std::set<std::size_t> bright = {};  ///< with an open neutral: they get what the others lack
  bool glows = false;                 ///< with an open neutral: lights among the dead still glow
};

class DiagnosisWorld {
 public:
  /// Of a random house, with what was declared as its feeds.
  explicit DiagnosisWorld(std::uint64_t seed);

  /// Every fault that makes something dead that works on an ordinary day.
  [[nodiscard]] std::vector<PlantedFault> faults();
  /// State of each point with it.
  [[nodiscard]] std::vector<PointState> states(const PlantedFault& fault) const;
  [[nodiscard]] std::vector<PointState> states() const { return wiring_.states(usual_); }
  /// What somebody sees who looks as the step says; chance decides only where the fault leaves it open.
  [[nodiscard]] LookSaw sees(const PlantedFault& fault, const std::vector<PointState>& states, const DiagnosisStep& step) const;
  /// Handles that move together with this one; is it the same group of wall switches?
  [[nodiscard]] std::vector<HandleRef> group(const HandleRef& handle) const { return wiring_.group(handle); }
  [[nodiscard]] bool same_device(const HandleRef& a, const HandleRef& b) const;
  /// Relative to a breaker that trips (common practice, no source).
  [[nodiscard]] double how_often_open(const PlantedFault& fault) const;
  [[nodiscard]] double how_often_fails(const HandleRef& handle) const;
  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] std::mt19937_64& random() { return random_; }

 private:
  [[nodiscard]] reference::Switching switching(const PlantedFault& fault) const;
  [[nodiscard]] std::set<std::size_t> changed(const PlantedFault& fault) const;
  void add_loose(std::vector<PlantedFault>& faults);
  void add_neutrals(std::vector<PlantedFault>& faults);
  /// Points of one hot conductor that work, by the leg whose loss takes them down.
  [[nodiscard]] std::vector<int> leg_of_points() const;
  void add_open_neutral(PlantedFault fault, const std::vector<int>& legs, std::vector<PlantedFault>& faults);

  std::mt19937_64 random_;
  House house_;
  Feeds feeds_;
  reference::Wiring wiring_;
  reference::Switching usual_;
  std::vector<PointState> usual_states_;
};

}  // namespace ohmstead::test
