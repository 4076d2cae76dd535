#pragma once
// Internal to one_line.h: how each panel is supplied on an ordinary day, found by following closed contacts of the feed graph.

#include <cstdint>
#include <vector>

#include "ask/record.h"
#include "house/index.h"

namespace ohmstead {

/// What is reached from the utility, and from supplies that nobody has explored, through contacts that are closed on an ordinary
/// day; through a breaker only from its bus to its load. Keep the record alive as long as this.
class SupplyWays {
 public:
  explicit SupplyWays(const Record& record);

  /// Is the panel's bus reached at all; and from the utility?
  [[nodiscard]] bool reached(std::size_t panel) const { return marked(panel, seen_); }
  [[nodiscard]] bool by_utility(std::size_t panel) const { return marked(panel, by_utility_); }

  /// Handles between a panel's bus and the panel above it, or where its supply begins; top first. `above`: that panel, or -1.
  [[nodiscard]] std::vector<HandleRef> way_to(std::size_t panel, int& above) const;

 private:
  [[nodiscard]] bool marked(std::size_t panel, const std::vector<bool>& marks) const;
  void walk(const std::vector<Node>& starts);
  [[nodiscard]] bool leads_down(const Arc& arc) const;
  [[nodiscard]] int panel_of(Id<Breaker> breaker) const;

  const House& house_;
  const Graph& graph_;
  Index<Breaker> breaker_at_;
  std::vector<Node> from_;            ///< kNoNode: a start, or not reached
  std::vector<std::uint32_t> by_;     ///< handle of the contact it was reached by
  std::vector<bool> seen_, by_utility_;
};

}  // namespace ohmstead
