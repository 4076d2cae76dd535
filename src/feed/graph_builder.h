#pragma once
// Internal to build_graph: collects conductors and contacts before they are packed.

#include <unordered_map>

#include "feed/graph.h"
#include "house/index.h"

namespace ohmstead::feed_detail {

struct Contact {
  Node a = 0, b = 0;
  std::uint32_t handle = 0;
  std::uint32_t closed_in = 0;
};

/// A set of throws with this one in it.
constexpr std::uint32_t bit(Throw t) { return std::uint32_t{1} << t; }
/// Place of a 1-based pole, leg or hot in a Nodes.
constexpr std::size_t pole_at(int pole) {
  return static_cast<std::size_t>(pole < 1 ? 0 : pole > kMostPoles ? kMostPoles - 1 : pole - 1);
}

/// The parts of a graph under construction, in the order in which the supply flows.
class Builder {
 public:
  Builder(const House& house, const Feeds& feeds);
  [[nodiscard]] Graph build();

 private:
  Node add_node() { return node_count_++; }
  Nodes add_nodes(int count);
  std::uint32_t add_handle(const HandleRef& ref, Throw throws, Throw usual, bool may_isolate);
  void join(Node a, Node b, std::uint32_t handle, std::uint32_t closed_in);
  void join_always(Node a, Node b) { join(a, b, 0, 1); }

  void add_sources();
  void add_nodes_of_breakers();
  void add_positions();
  void add_panels();
  void add_breakers();
  void add_devices();
  void add_device(std::size_t at);
  void add_switch_group(std::size_t at, const std::vector<std::size_t>& switches);
  void add_points();
  void add_interlocks();
  void group_tied_handles();
  void pack();

  /// Conductor of a source's leg (1-based); kNoNode where the source has no such leg.
  [[nodiscard]] Node source_leg(Id<Source> source, int leg) const;
  [[nodiscard]] Node tap_node(const Feed& feed, int hot);
  [[nodiscard]] Nodes supply_nodes(const Panel& panel);

  const House& house_;
  const Feeds& feeds_;
  Index<Breaker> breaker_at_;
  Index<Panel> panel_at_;
  Index<Position> position_at_;
  Index<Source> source_at_;
  Index<Device> device_at_;
  Graph graph_;
  Node node_count_ = 0;
  std::vector<Contact> contacts_;
  std::vector<Nodes> source_legs_;   ///< [0] utility, then house.sources
  std::vector<Node> position_load_;  ///< out of each position
  std::vector<std::vector<std::size_t>> handles_of_device_;
  std::vector<bool> device_done_;
  std::unordered_map<std::uint64_t, std::uint32_t> handle_number_[6];  ///< by kind, then id
};

}  // namespace ohmstead::feed_detail
