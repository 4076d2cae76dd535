#pragma once
// How likely each cause is by what was seen so far, and how much the next look would tell. A look can be false: one in ten of those by
// eye, fewer with a meter. Exact over the causes of causes.h; their chances are common practice, no source (docs/diagnosis.md).

#include <span>
#include <vector>

#include "trace/causes.h"

namespace ohmstead {

/// One thing that was or could be looked at.
struct LookQuestion {
  LookAt what = LookAt::point;   ///< complaint, point, other_lamp, handle, neighbors, source, cure
  std::size_t point = 0;         ///< place in house.points
  std::uint32_t handle = 0;      ///< of the graph: the first of its group
  int source = 0;                ///< of the graph
  bool meter = false;            ///< of a point: with a meter
  Stand usual = Stand::on;       ///< of a handle: how it stands if nothing is wrong
  bool operator==(const LookQuestion&) const = default;
};

/// What was seen.
struct Clue {
  LookQuestion question;
  LookSaw saw = LookSaw::not_sure;
};

/// Answers to a question that tell something, each with a chance under every scenario.
[[nodiscard]] std::span<const LookSaw> answers_to(const LookQuestion& question, const Graph& graph);
/// Chance of this answer if the scenario is so; the answers of answers_to add up to 1.
[[nodiscard]] double chance_of(const Graph& graph, const Scenario& scenario, const Clue& clue);

/// Chance from which on a look fits: below it, it contradicts the scenario.
inline constexpr double kFits = 0.15;

class CauseBelief {
 public:
  /// Keep both alive as long as this. Precondition: at least one scenario.
  CauseBelief(const Causes& causes, const Graph& graph, std::span<const Clue> clues);

  /// Of the causes, adding up to 1.
  [[nodiscard]] const std::vector<double>& of_cause() const { return of_cause_; }
  /// Places in causes, most believed first; equal ones in their order.
  [[nodiscard]] std::vector<std::size_t> ranked() const;
  /// Bits by which a look is expected to make it plainer which cause it is.
  [[nodiscard]] double gain(const LookQuestion& question) const;
  /// Is there a single cause that no look contradicts?
  [[nodiscard]] bool one_fits() const { return one_fits_; }

 private:
  const Causes& causes_;
  const Graph& graph_;
  std::vector<double> of_scenario_, of_cause_;
  bool one_fits_ = false;
};

}  // namespace ohmstead
