// Decision diagrams against liveness: the same state of every point, in every state of handles and sources that is tried.

#include "feed/diagrams.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "house/error.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

constexpr std::size_t kMostNodes = 1'000'000;

/// All sources live, for `joined`.
State with_all_live(const Graph& graph, State state) {
  for (const Terminal& terminal : graph.terminals)
    state.live_legs[static_cast<std::size_t>(terminal.source)] = static_cast<std::uint8_t>(state.live_legs[static_cast<std::size_t>(terminal.source)] | 1 << (terminal.leg - 1));
  return state;
}

State under_source(const Graph& graph, int source) {
  State state = with_all_live(graph, usual_state(graph));
  for (int s = 0; s < graph.source_count; ++s)
    if (s != source) state.live_legs[static_cast<std::size_t>(s)] = 0;
  return state;
}

/// Points on which diagrams and liveness differ in one state; one more if they differ about what is joined.
int differences(const Graph& graph, const Diagrams& made, const State& state) {
  const std::vector<PointState> states = point_states(graph, liveness(graph, state));
  const std::vector<Throw> values = values_of(made, state);
  int wrong = 0;
  for (std::size_t p = 0; p < states.size(); ++p) wrong += evaluate(made, made.of_point[p], values) != static_cast<Diagram>(states[p]) ? 1 : 0;
  const bool joined = !liveness(graph, with_all_live(graph, state)).joined.empty();
  return wrong + ((evaluate(made, made.joined, values) == 1) != joined ? 1 : 0);
}

/// All single moves from `from`.
int differences_in_single_moves(const Graph& graph, const Diagrams& made, const State& from) {
  int wrong = differences(graph, made, from);
  for (std::uint32_t h = 1; h < graph.handles.size(); ++h)
    for (Throw to = 0; to < graph.handles[h].throws; ++to) {
      State state = from;
      move_handle(graph, state, h, to);
      wrong += differences(graph, made, state);
    }
  return wrong;
}

State randomly_moved(const Graph& graph, State state, std::mt19937_64& random) {
  for (std::size_t moves = 2 + random() % 6; moves > 0 && graph.handles.size() > 1; --moves) {
    const auto h = static_cast<std::uint32_t>(1 + random() % (graph.handles.size() - 1));
    move_handle(graph, state, h, static_cast<Throw>(random() % graph.handles[h].throws));
  }
  return state;
}

/// A random house's graph, with feeds of all standings.
Graph random_graph(std::uint64_t seed) {
  const House house = random_house(seed, 1 + static_cast<int>(seed % 12));
  Feeds feeds = declared_feeds(house);
  std::mt19937_64 random(seed);
  for (Feed& feed : feeds.of_point)
    if (!feed.taps.empty() && random() % 3 == 0) feed.standing = static_cast<Standing>(random() % 5);
  return build_graph(house, feeds);
}

int differences_in_random_house(std::uint64_t seed, std::size_t& most_nodes) {
  const Graph graph = random_graph(seed);
  const Diagrams made = diagrams(graph, kMostNodes);
  most_nodes = std::max(most_nodes, made.nodes.size());
  std::mt19937_64 random(seed);
  int wrong = 0;
  for (int source = 0; source < graph.source_count; ++source) {
    const State from = under_source(graph, source);
    wrong += differences_in_single_moves(graph, made, from);
    for (int i = 0; i < 20; ++i) wrong += differences(graph, made, randomly_moved(graph, from, random));
  }
  for (int i = 0; i < 20; ++i) {  // several sources live at once, and none
    State state = randomly_moved(graph, with_all_live(graph, usual_state(graph)), random);
    for (std::uint8_t& legs : state.live_legs) legs = random() % 2 == 0 ? legs : std::uint8_t{0};
    wrong += differences(graph, made, state);
  }
  return wrong;
}

/// Opens for good every contact of one handle: a contact that was forgotten.
void drop_contacts(Graph& graph, std::uint32_t handle) {
  for (Arc& arc : graph.arcs)
    if (arc.handle == handle) arc.closed_in = 0;
}

TEST(Diagrams, give_what_liveness_gives_in_random_houses) {
  std::size_t most_nodes = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) ASSERT_EQ(differences_in_random_house(seed, most_nodes), 0) << "house " << seed;
}

TEST(Diagrams, give_what_liveness_gives_in_1000_random_houses) {
  std::size_t most_nodes = 0;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) ASSERT_EQ(differences_in_random_house(seed, most_nodes), 0) << "house " << seed;
  std::printf("most nodes in one of 1,000 random houses: %zu\n", most_nodes);
}

TEST(Diagrams, give_what_liveness_gives_for_all_pairs_of_moves_in_the_sample_house) {
  const Record record = traced_sample();
  const Graph& graph = record.graph;
  const Diagrams made = diagrams(graph);
  std::printf("sample house: %zu points, %zu variables, %zu nodes\n", made.of_point.size(), made.variables.size(), made.nodes.size());
  EXPECT_LT(made.nodes.size(), 1000U);
  long states = 0;
  for (int source = 0; source < graph.source_count; ++source)
    for (const DiagramVariable& variable : made.variables) {
      if (variable.source >= 0) continue;
      for (Throw to = 0; to < variable.throws; ++to) {
        State state = under_source(graph, source);
        move_handle(graph, state, variable.handles.front(), to);
        ASSERT_EQ(differences_in_single_moves(graph, made, state), 0);
        ++states;
      }
    }
  EXPECT_GT(states, 100);
}

TEST(Diagrams, a_forgotten_contact_is_noticed) {
  const Graph graph = traced_sample().graph;
  for (const std::uint32_t handle : {1U, static_cast<std::uint32_t>(graph.handles.size() / 2)}) {
    Graph broken = graph;
    drop_contacts(broken, handle);
    int wrong = 0;
    for (int source = 0; source < graph.source_count; ++source) wrong += differences_in_single_moves(graph, diagrams(broken), under_source(graph, source));
    EXPECT_GT(wrong, 0) << "handle " << handle;
  }
}

TEST(Diagrams, are_ordered_reduced_and_shared) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Diagrams made = diagrams(random_graph(seed));
    for (std::size_t n = 0; n < made.nodes.size(); ++n) {
      const DiagramNode& node = made.nodes[n];
      const Throw throws = made.variables[node.variable].throws;
      bool all_same = true;
      for (Throw value = 0; value < throws; ++value) {
        const Diagram next = node.next[value];
        all_same = all_same && next == node.next[0];
        ASSERT_LT(next, kLeaves + n) << "children before parents";
        ASSERT_TRUE(next < kLeaves || made.nodes[next - kLeaves].variable > node.variable);
      }
      EXPECT_FALSE(all_same);
      EXPECT_EQ(std::ranges::count(made.nodes, node), 1);
    }
  }
}

TEST(Diagrams, handles_tied_together_are_one_variable_and_sources_come_first) {
  const Graph graph = traced_sample().graph;
  const Diagrams made = diagrams(graph);
  ASSERT_EQ(static_cast<int>(std::ranges::count_if(made.variables, [](const DiagramVariable& v) { return v.source >= 0; })), graph.source_count);
  std::vector<int> times(graph.handles.size(), 0);
  for (std::size_t v = 0; v < made.variables.size(); ++v) {
    const DiagramVariable& variable = made.variables[v];
    EXPECT_EQ(variable.source, v < static_cast<std::size_t>(graph.source_count) ? static_cast<int>(v) : -1);
    for (const std::uint32_t h : variable.handles) {
      ++times[h];
      EXPECT_EQ(graph.handles[h].group, variable.handles.front());
    }
  }
  EXPECT_EQ(times[0], 0) << "the permanent joint is not a variable";
  EXPECT_TRUE(std::all_of(times.begin() + 1, times.end(), [](int n) { return n == 1; }));
}

TEST(Diagrams, stay_small_in_a_large_house) {
  std::printf("rooms points variables nodes\n");
  for (const int rooms : {100, 400, 1700}) {
    const House house = random_house(7, rooms);
    const Diagrams made = diagrams(build_graph(house, declared_feeds(house)), kMostNodes);
    std::printf("%d %zu %zu %zu\n", rooms, house.points.size(), made.variables.size(), made.nodes.size());
    EXPECT_LT(made.nodes.size(), 50 * house.points.size());
  }
}

TEST(Diagrams, a_limit_of_nodes_is_kept_with_a_sentence) {
  const Graph graph = traced_sample().graph;
  EXPECT_THROW((void)diagrams(graph, 20), Error);
}

}  // namespace
}  // namespace ohmstead
