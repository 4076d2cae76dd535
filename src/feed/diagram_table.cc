#include "feed/diagram_table.h"

#include "house/error.h"

namespace ohmstead::feed_detail {

Inner DiagramTable::make(std::uint32_t variable, const std::array<Inner, 3>& next) {
  const auto throws = static_cast<std::ptrdiff_t>(variables_[variable].throws);
  if (std::all_of(next.begin(), next.begin() + throws, [&](Inner n) { return n == next[0]; })) return next[0];
  const auto [at, fresh] = made_.try_emplace({variable, next[0], next[1], next[2]}, kInnerLeaves + static_cast<Inner>(nodes_.size()));
  if (!fresh) return at->second;
  if (nodes_.size() >= most_)
    throw Error(ErrorKind::invalid_input,
                "The wiring is joined in too many ways to be worked out for every stand of its handles: look for points that are "
                "recorded as fed by several breakers.");
  nodes_.push_back({variable, next});
  return at->second;
}

void hand_out(const DiagramTable& table, const std::vector<Inner>& from, std::vector<DiagramNode>& nodes, std::vector<Diagram>& to) {
  std::unordered_map<Inner, Diagram> known;
  std::vector<Inner> stack;
  const auto out = [&](Inner diagram) { return diagram < kInnerLeaves ? std::optional<Diagram>(diagram) : known.contains(diagram) ? std::optional(known.at(diagram)) : std::nullopt; };
  for (const Inner diagram : from) {
    stack.push_back(diagram);
    while (!stack.empty()) {
      const Inner top = stack.back();
      if (out(top)) {
        stack.pop_back();
        continue;
      }
      DiagramNode made{table.node(top).variable, {}};
      bool complete = true;
      for (std::size_t value = 0; value < made.next.size(); ++value) {
        const Inner next = table.node(top).next[value];
        if (const auto below = out(next)) made.next[value] = *below;
        else stack.push_back(next), complete = false;
      }
      if (!complete) continue;
      known.emplace(top, kLeaves + static_cast<Diagram>(nodes.size()));
      nodes.push_back(made);
    }
    to.push_back(*out(diagram));
  }
}

}  // namespace ohmstead::feed_detail
