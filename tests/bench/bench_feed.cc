// Liveness of a house of 1,000,000 points after one change, beside one pass of Boost.Graph's
// breadth-first search over the same conductors; both in one run, with their ratio.

#include <benchmark/benchmark.h>

#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <cstdio>
#include <map>

#include "feed/liveness.h"

namespace ohmstead {
namespace {

constexpr int kPoints = 1'000'000;
constexpr int kSpaces = 42;
constexpr int kPointsOnBreaker = 30;

/// Subpanels of 42 breakers hang on the main panel; each breaker feeds 30 points, every third
/// behind a wall switch of its own.
House large_house() {
  House house;
  std::uint64_t next = 1;
  const auto id = [&]<class Row>(Id<Row>) { return Id<Row>{next++}; };
  house.dwelling.id = id(Id<Dwelling>{});
  house.floors.push_back({.id = id(Id<Floor>{}), .name = "Ground"});
  house.rooms.push_back({.id = id(Id<Room>{}), .floor = house.floors[0].id, .name = "Hall"});
  const int panels = kPoints / (kSpaces * kPointsOnBreaker) + 1;
  house.panels.push_back({.id = id(Id<Panel>{}), .name = "Main", .spaces = panels + 1, .numbering = Numbering::single_column,
                          .supply = Supply::utility, .main_amps = 2000});
  for (int p = 0; p < panels; ++p) {
    const auto feeder = id(Id<Breaker>{});
    house.breakers.push_back({.id = feeder, .panel = house.panels[0].id, .space = p + 1});
    house.panels.push_back({.id = id(Id<Panel>{}), .name = std::to_string(p), .spaces = kSpaces, .supply = Supply::breaker, .feeder = feeder});
    for (int space = 1; space <= kSpaces; ++space)
      house.breakers.push_back({.id = id(Id<Breaker>{}), .panel = house.panels.back().id, .space = space});
  }
  const auto declare = [&](Id<Point> point, Id<Device> device, std::size_t breaker) {
    house.declared_feeds.push_back({.id = id(Id<DeclaredFeed>{}), .point = point, .device = device, .breaker = house.breakers[breaker].id});
  };
  for (std::size_t b = 0; static_cast<int>(house.points.size()) < kPoints; b = (b + 1) % house.breakers.size()) {
    if (house.breakers[b].panel == house.panels[0].id) continue;
    for (int i = 0; i < kPointsOnBreaker; ++i) {
      Point point{.id = id(Id<Point>{}), .room = house.rooms[0].id};
      if (i % 3 == 0) {
        point.behind = id(Id<Device>{});
        house.devices.push_back({.id = point.behind});
        house.handles.push_back({.id = id(Id<Handle>{}), .device = point.behind});
        declare({}, point.behind, b);
      } else {
        declare(point.id, {}, b);
      }
      house.points.push_back(std::move(point));
    }
  }
  return house;
}

struct Fixture {
  House house = large_house();
  Feeds feeds = declared_feeds(house);
  Graph graph = build_graph(house, feeds);
  State state = usual_state(graph);
};
Fixture& fixture() {
  static Fixture made;
  return made;
}

void from_values(benchmark::State& run) {
  Fixture& f = fixture();
  for (auto _ : run) benchmark::DoNotOptimize(build_graph(f.house, f.feeds));
}

void flip_one(Fixture& f, std::uint32_t& breaker) {
  do breaker = (breaker + 1) % static_cast<std::uint32_t>(f.graph.handles.size());
  while (f.graph.handles[breaker].ref.kind != HandleKind::breaker);
  f.state.throws[breaker] = static_cast<Throw>(1 - f.state.throws[breaker]);
}

void ours(benchmark::State& run) {
  Fixture& f = fixture();
  std::uint32_t breaker = 0;
  Liveness live;
  for (auto _ : run) {
    flip_one(f, breaker);
    liveness(f.graph, f.state, live);
    benchmark::DoNotOptimize(live.label.data());
  }
}

void ours_with_states(benchmark::State& run) {
  Fixture& f = fixture();
  std::uint32_t breaker = 0;
  Liveness live;
  for (auto _ : run) {
    flip_one(f, breaker);
    liveness(f.graph, f.state, live);
    benchmark::DoNotOptimize(point_states(f.graph, live));
  }
}

/// The same conductors and closed contacts, with one vertex joined to every live terminal.
void boost_bfs(benchmark::State& run) {
  Fixture& f = fixture();
  const std::size_t nodes = f.graph.node_count();
  std::vector<std::pair<std::size_t, std::size_t>> edges;
  for (Node n = 0; n < nodes; ++n)
    for (const Arc& arc : f.graph.arcs_of(n))
      if ((arc.closed_in >> f.state.throws[arc.handle] & 1U) != 0) edges.emplace_back(n, arc.to);
  for (const Terminal& t : f.graph.terminals) edges.emplace_back(nodes, t.node);
  using Csr = boost::compressed_sparse_row_graph<boost::directedS>;
  const Csr graph(boost::edges_are_unsorted_multi_pass, edges.begin(), edges.end(), nodes + 1);
  std::vector<boost::default_color_type> color(nodes + 1);
  std::size_t reached = 0;
  for (auto _ : run) {
    std::ranges::fill(color, boost::white_color);
    boost::breadth_first_search(graph, nodes, boost::color_map(boost::make_iterator_property_map(
                                                  color.begin(), boost::get(boost::vertex_index, graph))));
    benchmark::DoNotOptimize(color.data());
  }
  for (const auto c : color) reached += c == boost::black_color;
  run.counters["reached"] = static_cast<double>(reached);
}

BENCHMARK(from_values)->Unit(benchmark::kMillisecond);
BENCHMARK(boost_bfs)->Unit(benchmark::kMillisecond)->MinTime(2);
BENCHMARK(ours)->Unit(benchmark::kMillisecond)->MinTime(2);
BENCHMARK(ours_with_states)->Unit(benchmark::kMillisecond)->MinTime(2);

/// Remembers the times, so that the ratios come from this one run.
class Ratios : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& one : runs) times_[one.run_name.function_name] = one.GetAdjustedRealTime();
    ConsoleReporter::ReportRuns(runs);
  }
  void print() const {
    const Fixture& f = fixture();
    std::printf("%zu points, %zu conductors, %zu contacts\n", f.house.points.size(), f.graph.node_count(), f.graph.arcs.size() / 2);
    for (const char* name : {"ours", "ours_with_states"})
      std::printf("%s / boost_bfs = %.2f (to reach: at most 5)\n", name, times_.at(name) / times_.at("boost_bfs"));
  }

 private:
  std::map<std::string, double> times_;
};

}  // namespace
}  // namespace ohmstead

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  ohmstead::Ratios ratios;
  benchmark::RunSpecifiedBenchmarks(&ratios);
  ratios.print();
}
