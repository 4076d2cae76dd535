#pragma once
// One tracing session on an invented house: what it cost, how far its belief and its minutes left
// could be trusted on the way.

#include <array>
#include <string>
#include <vector>

#include "tests/trace/cost_meter.h"

namespace ohmstead::test {

/// Points by how far their most believed explanation is believed.
inline constexpr std::array<const char*, 6> kBeliefBins = {"proved", ">= .99", ".9 - .99", ".7 - .9", ".5 - .7", "< .5"};

/// How often belief was right. The explanation of a point that was dead at the start is right,
/// too, if it says that the point is dead whatever is closed.
struct Calibration {
  std::array<int, kBeliefBins.size()> points{}, right{};
  void add(const Calibration& other);
};

/// A moment of a session.
struct Moment {
  double seconds = 0;    ///< of work so far
  int minutes_left = 0;  ///< as shown
  Calibration belief;
};

struct SessionRun {
  Tally tally;
  std::vector<Moment> moments;  ///< every few steps, and the end
  int steps = 0;
  double step_ms = 0;           ///< of all steps together
  /// The first moment at which this share of the work was done.
  [[nodiscard]] const Moment& at(double share) const;
};


/// Answers a session until it is done, or for `most_steps`. A share of `error` of the looks is wrong;
/// which ones depends on the world's seed alone.
[[nodiscard]] SessionRun run_session(const World& world, double error, const Manner& manner, int most_steps = 50'000);

/// "1", "4", "any", each perhaps with "+helper" and "+6lamps". Throws Error{invalid_input}.
[[nodiscard]] Manner parse_manner(const std::string& text);

}  // namespace ohmstead::test
