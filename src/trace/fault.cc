#include "trace/fault.h"

namespace ohmstead::trace_detail {

void FaultBench::cut(const Fault& fault) {
  if (fault.handle == 0) return;
  for (Node from = 0; from < graph_.node_count(); ++from)
    for (std::size_t a = graph_.first_arc[from]; a < graph_.first_arc[from + 1]; ++a) {
      Arc& arc = graph_.arcs[a];
      if (arc.handle != fault.handle || (fault.only_at != kNoNode && from != fault.only_at && arc.to != fault.only_at)) continue;
      cut_.emplace_back(a, arc.closed_in);
      arc.closed_in = 0;
    }
}

void FaultBench::mend() {
  for (const auto& [arc, closed_in] : cut_) graph_.arcs[arc].closed_in = closed_in;
  cut_.clear();
}

std::vector<WouldBe> FaultBench::expects(const Fault& fault) {
  State state = input_.base;
  for (const auto& [handle, to] : fault.moves) move_handle(graph_, state, handle, to);
  for (const auto& [source, legs] : fault.lost_legs) {
    std::uint8_t& live = state.live_legs[static_cast<std::size_t>(source)];
    live = static_cast<std::uint8_t>(live & ~legs);
  }
  cut(fault);
  liveness(graph_, state, live_);
  mend();
  std::vector<WouldBe> expects;
  expects.reserve(input_.house.points.size());
  for (std::size_t p = 0; p < input_.house.points.size(); ++p) {
    switch (state_by_record(graph_, live_, p)) {
      case PointState::working: expects.push_back(WouldBe::live); break;
      case PointState::dead: expects.push_back(WouldBe::dead); break;
      case PointState::part_live: expects.push_back(WouldBe::part); break;
      case PointState::unknown: expects.push_back(WouldBe::unknown); break;
    }
  }
  return expects;
}

int FaultBench::base_leg(std::size_t point) {
  if (base_.label.empty()) liveness(graph_, input_.base, base_);
  const Node node = graph_.point_hots[point][0];
  return base_.live(node) ? graph_.terminals[base_.label[node] - 1U].leg : 0;
}

}  // namespace ohmstead::trace_detail
