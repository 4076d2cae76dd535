#pragma once
// Internal to diagrams: nodes that are shared and reduced while they are made, and functions of several diagrams.

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <unordered_map>
#include <vector>

#include "feed/diagrams.h"

namespace ohmstead::feed_detail {

/// As Diagram, with room for every label of liveness.h among the leaves.
using Inner = std::uint32_t;
inline constexpr Inner kInnerLeaves = 1U << 16U;

/// Several diagrams that are followed together, as a key.
template <std::size_t N>
struct InnersHash {
  std::size_t operator()(const std::array<Inner, N>& key) const noexcept {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const Inner part : key) hash = (hash ^ part) * 0x9e3779b97f4a7c15U, hash ^= hash >> 29U;
    return hash;
  }
};
template <std::size_t N>
using InnerMemo = std::unordered_map<std::array<Inner, N>, Inner, InnersHash<N>>;

class DiagramTable {
 public:
  static constexpr std::uint32_t kNoVariable = std::numeric_limits<std::uint32_t>::max();

  /// Keep `variables` alive as long as this. Throws Error{invalid_input} when more than `most` nodes are made.
  DiagramTable(const std::vector<DiagramVariable>& variables, std::size_t most) : variables_(variables), most_(most) {}

  /// The diagram that decides by `variable`; one of `next` itself where all are the same.
  [[nodiscard]] Inner make(std::uint32_t variable, const std::array<Inner, 3>& next);
  [[nodiscard]] const DiagramNode& node(Inner diagram) const { return nodes_[diagram - kInnerLeaves]; }
  [[nodiscard]] std::uint32_t variable_of(Inner diagram) const { return diagram < kInnerLeaves ? kNoVariable : node(diagram).variable; }

  /// The diagram of a function of several. `known(key)` gives its diagram where that needs no further decision, at
  /// least where all are leaves. One memo for one function.
  template <std::size_t N, class Known>
  [[nodiscard]] Inner joint(const std::array<Inner, N>& of, InnerMemo<N>& memo, Known&& known) {
    if (const std::optional<Inner> answer = known(of)) return *answer;
    if (const auto found = memo.find(of); found != memo.end()) return found->second;
    std::uint32_t top = kNoVariable;
    for (const Inner diagram : of) top = std::min(top, variable_of(diagram));
    std::array<Inner, 3> next{};
    for (Throw value = 0; value < variables_[top].throws; ++value) {
      std::array<Inner, N> below = of;
      for (Inner& diagram : below)
        if (variable_of(diagram) == top) diagram = node(diagram).next[value];
      next[value] = joint(below, memo, known);
    }
    return memo.emplace(of, make(top, next)).first->second;
  }

 private:
  const std::vector<DiagramVariable>& variables_;
  std::size_t most_;
  std::vector<DiagramNode> nodes_;
  InnerMemo<4> made_;  ///< by variable and next
};

/// `diagrams` of the table as they are handed out: only nodes they need, children before parents, leaves as they are (below kLeaves).
void hand_out(const DiagramTable& table, const std::vector<Inner>& from, std::vector<DiagramNode>& nodes, std::vector<Diagram>& to);

}  // namespace ohmstead::feed_detail
