#pragma once
// Internal to causes: a fault put into the feed graph, and how each point would be found with it.

#include <utility>
#include <vector>

#include "trace/causes.h"

namespace ohmstead::trace_detail {

/// What is different from the base state.
struct Fault {
  std::vector<std::pair<std::uint32_t, Throw>> moves;  ///< handles, with their groups
  std::uint32_t handle = 0;                 ///< all its contacts give nothing; 0: none
  Node only_at = kNoNode;                   ///< of these, only those at this conductor; kNoNode: all
  std::vector<std::pair<int, std::uint8_t>> lost_legs;  ///< source, bits as State::live_legs
};

/// Computes what people would find with a fault. Keeps storage between calls.
class FaultBench {
 public:
  explicit FaultBench(const CauseInput& input) : input_(input), graph_(input.graph) {}

  [[nodiscard]] std::vector<WouldBe> expects(const Fault& fault);
  /// Leg (1-based) of the source that a point's first hot is live from under the base state; 0: none.
  [[nodiscard]] int base_leg(std::size_t point);

 private:
  void cut(const Fault& fault);
  void mend();

  const CauseInput& input_;
  Graph graph_;
  Liveness live_, base_;
  std::vector<std::pair<std::size_t, std::uint32_t>> cut_;  ///< arcs that were changed, and what they were closed in
};

}  // namespace ohmstead::trace_detail
