#include "feed/diagrams.h"

#include <deque>

#include "feed/diagram_table.h"

namespace ohmstead {

namespace {

using namespace feed_detail;

constexpr std::uint16_t kNone = Liveness::kDead;

class DiagramMaker {
 public:
  DiagramMaker(const Graph& graph, std::size_t most_nodes) : graph_(graph), table_(made_.variables, most_nodes) { add_variables(); }

  Diagrams make() {
    std::vector<Inner> start(graph_.node_count(), kNone);
    for (std::size_t t = 0; t < graph_.terminals.size(); ++t) {
      const Terminal& terminal = graph_.terminals[t];
      start[terminal.node] = table_.make(static_cast<std::uint32_t>(terminal.source), {kNone, static_cast<Inner>(t + 1), 0});
    }
    label_ = spread(std::move(start));
    std::vector<Inner> of_point = states_of_points();
    of_point.push_back(joined());
    hand_out(table_, of_point, made_.nodes, made_.of_point);
    made_.joined = made_.of_point.back();
    made_.of_point.pop_back();
    return std::move(made_);
  }

 private:
  void add_variables() {
    for (int source = 0; source < graph_.source_count; ++source)
      made_.variables.push_back({{}, source, 2, static_cast<Throw>(source == 0 ? 1 : 0)});
    variable_of_group_.assign(graph_.handles.size(), 0);
    for (std::uint32_t h = 1; h < graph_.handles.size(); ++h) {
      const GraphHandle& handle = graph_.handles[h];
      if (handle.group == h) {
        variable_of_group_[h] = static_cast<std::uint32_t>(made_.variables.size());
        made_.variables.push_back({{}, -1, handle.throws, handle.usual});
      }
      made_.variables[variable_of_group_[handle.group]].handles.push_back(h);
    }
  }

  /// 1 where the contact is closed, else 0.
  Inner closed(const Arc& arc) {
    if (arc.handle == 0) return arc.closed_in & 1U;
    return table_.make(variable_of_group_[graph_.handles[arc.handle].group], {arc.closed_in & 1U, arc.closed_in >> 1U & 1U, arc.closed_in >> 2U & 1U});
  }

  /// `label` where the contact is closed, else none.
  Inner through(const Arc& arc, Inner label) {
    return table_.joint<2>({closed(arc), label}, through_memo_, [](const std::array<Inner, 2>& of) -> std::optional<Inner> {
      if (of[0] == 0 || of[1] == kNone) return kNone;
      return of[0] == 1 ? std::optional(of[1]) : std::nullopt;
    });
  }

  /// The first of two labels where both are there.
  Inner first_of(Inner a, Inner b) {
    return table_.joint<2>({a, b}, first_memo_, [](const std::array<Inner, 2>& of) -> std::optional<Inner> {
      const auto [low, high] = std::minmax(of[0], of[1]);
      if (low == kNone || low == high) return high;
      return low == 1 || high < kInnerLeaves ? std::optional(low) : std::nullopt;
    });
  }

  /// The first label that reaches each conductor, by closed contacts, from where labels start.
  std::vector<Inner> spread(std::vector<Inner> label) {
    std::deque<Node> queue;
    std::vector<bool> waits(label.size(), false);
    const auto enter = [&](Node node) {
      if (!waits[node]) queue.push_back(node);
      waits[node] = true;
    };
    for (Node node = 0; node < label.size(); ++node)
      if (label[node] != kNone) enter(node);
    for (; !queue.empty(); queue.pop_front()) {
      const Node from = queue.front();
      waits[from] = false;
      for (const Arc& arc : graph_.arcs_of(from)) {
        const Inner reached = first_of(label[arc.to], through(arc, label[from]));
        if (reached == label[arc.to]) continue;
        label[arc.to] = reached;
        enter(arc.to);
      }
    }
    return label;
  }

  /// What each conductor carries, as state_of_hots takes it.
  std::vector<Inner> carried() {
    if (graph_.unknown.empty()) return label_;
    std::vector<Inner> start(graph_.node_count(), kNone);
    for (const Node node : graph_.unknown) start[node] = 1;
    const std::vector<Inner> unknown = spread(std::move(start));
    std::vector<Inner> made;
    InnerMemo<2> memo;
    for (std::size_t n = 0; n < label_.size(); ++n)
      made.push_back(table_.joint<2>({label_[n], unknown[n]}, memo, [](const std::array<Inner, 2>& of) -> std::optional<Inner> {
        if (of[1] == 0 || (of[0] != kNone && of[0] < kInnerLeaves)) return of[0];
        return of[0] == kNone && of[1] == 1 ? std::optional<Inner>(Liveness::kNotEstablished) : std::nullopt;
      }));
    return made;
  }

  std::vector<Inner> states_of_points() {
    const std::vector<Inner> carries = carried();
    InnerMemo<kMostPoles> memos[kMostPoles + 1][2];  // by number of hots, and whether the feed is relied on
    std::vector<Inner> states;
    for (std::size_t p = 0; p < graph_.point_hots.size(); ++p) {
      const std::size_t count = graph_.point_hot_count[p];
      const bool is_relied_on = graph_.point_relied_on[p] != 0;
      std::array<Inner, kMostPoles> of{};
      for (std::size_t h = 0; h < count; ++h) of[h] = graph_.point_hots[p][h] == kNoNode ? Inner{Liveness::kNotEstablished} : carries[graph_.point_hots[p][h]];
      states.push_back(table_.joint(of, memos[count][is_relied_on ? 1 : 0], [&](const std::array<Inner, kMostPoles>& hots) { return state_if_known(hots, count, is_relied_on); }));
    }
    return states;
  }

  [[nodiscard]] std::optional<Inner> state_if_known(const std::array<Inner, kMostPoles>& hots, std::size_t count, bool is_relied_on) const {
    std::array<std::uint16_t, kMostPoles> labels{};
    for (std::size_t h = 0; h < count; ++h) {
      if (hots[h] >= kInnerLeaves) return std::nullopt;
      labels[h] = static_cast<std::uint16_t>(hots[h]);
    }
    return static_cast<Inner>(as_told(state_of_hots(graph_, std::span(labels).first(count)), is_relied_on));
  }

  /// A terminal that carries another one's label is joined to it.
  Inner joined() {
    Inner any = 0;
    for (std::size_t t = 0; t < graph_.terminals.size(); ++t) {
      Inner label = label_[graph_.terminals[t].node];
      while (label >= kInnerLeaves && made_.variables[table_.variable_of(label)].source >= 0) label = table_.node(label).next[1];
      InnerMemo<1> memo;
      any = first_of(any, table_.joint<1>({label}, memo, [&](const std::array<Inner, 1>& of) -> std::optional<Inner> {
        return of[0] < kInnerLeaves ? std::optional<Inner>(of[0] == t + 1 ? 0 : 1) : std::nullopt;
      }));
    }
    return any;
  }

  const Graph& graph_;
  Diagrams made_;
  DiagramTable table_;
  std::vector<std::uint32_t> variable_of_group_;  ///< by the first handle of the group
  InnerMemo<2> through_memo_, first_memo_;
  std::vector<Inner> label_;  ///< of each conductor
};

}  // namespace

Diagrams diagrams(const Graph& graph, std::size_t most_nodes) { return DiagramMaker(graph, most_nodes).make(); }

Diagram evaluate(const Diagrams& diagrams, Diagram diagram, std::span<const Throw> values) {
  while (diagram >= kLeaves) {
    const DiagramNode& node = diagrams.nodes[diagram - kLeaves];
    diagram = node.next[values[node.variable]];
  }
  return diagram;
}

std::vector<Throw> values_of(const Diagrams& diagrams, const State& state) {
  std::vector<Throw> values;
  for (const DiagramVariable& variable : diagrams.variables)
    values.push_back(variable.source < 0 ? state.throws[variable.handles.front()] : state.live_legs[static_cast<std::size_t>(variable.source)] != 0 ? Throw{1} : Throw{0});
  return values;
}

}  // namespace ohmstead
