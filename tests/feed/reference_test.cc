// Random houses under random switching: src/feed against an independent reference built with
// Boost.Graph (connected components; Boykov-Kolmogorov maximum flow for the cut).

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <random>

#include "feed/isolate.h"
#include "feed/liveness.h"
#include "feed/restore.h"
#include "feed/what_if.h"
#include "reference_graph.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using reference::Switching;
using reference::Wiring;

/// Houses to compare; a longer run is asked for with OHMSTEAD_HOUSES=100000.
int house_count() {
  const char* text = std::getenv("OHMSTEAD_HOUSES");
  return text == nullptr ? 10'000 : std::atoi(text);
}

/// A random house, its feeds with random standings, its graph and its reference.
struct Case {
  explicit Case(std::uint64_t seed)
      : random(seed), house(random_house(seed, 1 + static_cast<int>(seed % 12))), feeds(random_feeds()),
        graph(build_graph(house, feeds)), wiring(house, feeds) {}

  Feeds random_feeds() {
    Feeds made = declared_feeds(house);
    std::map<std::vector<Tap>, Standing> same;  // a device and the points behind it share their standing
    const auto vary = [&](Feed& feed, bool inherited, const Feed* outer) {
      if (inherited) feed = *outer;
      else if (!feed.taps.empty()) feed.standing = static_cast<Standing>(random() % 5);
    };
    for (std::size_t d = 0; d < house.devices.size(); ++d)
      if (!house.devices[d].behind) vary(made.of_device[d], false, nullptr);
    const auto outer_feed = [&](Id<Device> behind) {
      const Id<Device> outer = outermost_device(house, behind);
      for (std::size_t d = 0; d < house.devices.size(); ++d)
        if (house.devices[d].id == outer) return &made.of_device[d];
      return static_cast<Feed*>(nullptr);
    };
    for (std::size_t d = 0; d < house.devices.size(); ++d)
      if (house.devices[d].behind) vary(made.of_device[d], true, outer_feed(house.devices[d].behind));
    for (std::size_t p = 0; p < house.points.size(); ++p)
      vary(made.of_point[p], bool(house.points[p].behind), outer_feed(house.points[p].behind));
    return made;
  }

  State random_state() {
    State state = usual_state(graph);
    for (std::uint32_t h = 1; h < graph.handles.size(); ++h)
      if (random() % 3 == 0) move_handle(graph, state, h, static_cast<Throw>(random() % graph.handles[h].throws));
    for (std::uint8_t& legs : state.live_legs) legs = static_cast<std::uint8_t>(random() % 2 ? random() % 8 : 0);
    return state;
  }

  [[nodiscard]] Switching switching(const State& state) const {
    Switching made;
    for (std::size_t h = 1; h < graph.handles.size(); ++h) made.throws[graph.handles[h].ref] = state.throws[h];
    for (std::size_t s = 0; s < state.live_legs.size(); ++s)
      for (int leg = 1; leg <= 3; ++leg)
        if ((state.live_legs[s] >> (leg - 1) & 1) != 0)
          made.live_legs[s == 0 ? "utility" : house.sources[s - 1].id.text()].insert(leg);
    return made;
  }

  std::mt19937_64 random;
  House house;
  Feeds feeds;
  Graph graph;
  Wiring wiring;
};

/// Number of points on which the two disagree under one switching.
int differences(const Case& c, const State& state) {
  const Liveness live = liveness(c.graph, state);
  const Switching switching = c.switching(state);
  const auto ours = point_states(c.graph, live);
  const auto theirs = c.wiring.states(switching);
  int wrong = live.joined.empty() == c.wiring.any_joined(switching) ? 1 : 0;
  // Where two sources or legs are joined a conductor carries both, and either answer about
  // voltage is a matter of which came first; liveness itself must still agree.
  const bool joined = !live.joined.empty();
  for (std::size_t i = 0; i < ours.size(); ++i) {
    const bool same = ours[i] == theirs[i];
    const auto alive = [](PointState s) { return s == PointState::working || s == PointState::part_live; };
    if (joined ? alive(ours[i]) != alive(theirs[i]) : !same) ++wrong;
  }
  return wrong;
}

TEST(FeedReference, states_agree_on_random_houses_under_random_switching) {
  long points = 0, working = 0, dead = 0, wrong = 0;
  for (int seed = 1; seed <= house_count(); ++seed) {
    Case c(static_cast<std::uint64_t>(seed));
    for (int i = 0; i < 3; ++i) wrong += differences(c, c.random_state());
    points += static_cast<long>(c.house.points.size());
    for (const PointState s : point_states(c.graph, liveness(c.graph, c.random_state())))
      working += s == PointState::working, dead += s == PointState::dead;
    ASSERT_EQ(wrong, 0) << "house " << seed;
  }
  std::printf("%d houses, %ld points, 3 states each: %ld differences\n", house_count(), points, wrong);
  EXPECT_GT(working, points / 20);
  EXPECT_GT(dead, points / 20);
}

/// Opens for good every contact of one handle in our graph: a contact that was forgotten.
void drop_contacts(Graph& graph, std::uint32_t handle) {
  for (Arc& arc : graph.arcs)
    if (arc.handle == handle) arc.closed_in = 0;
}

TEST(FeedReference, a_dropped_contact_is_noticed) {
  int tried = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Case c(seed);
    const State state = usual_state(c.graph);
    const Liveness live = liveness(c.graph, state);
    for (std::size_t p = 0; p < c.house.points.size(); ++p) {
      const Feed& feed = c.feeds.of_point[p];
      if (feed.taps.size() != 1 || state_by_record(c.graph, live, p) != PointState::working) continue;
      Case broken(seed);
      drop_contacts(broken.graph, broken.graph.handle_of({HandleKind::breaker, feed.taps[0].breaker.value}));
      ++tried;
      ASSERT_GT(differences(broken, state), 0) << "house " << seed << " point " << p;
      break;
    }
  }
  EXPECT_GT(tried, 100);
}

std::map<HandleRef, int> costs_by_ref(const Case& c, const std::vector<int>& costs) {
  std::map<HandleRef, int> by_ref;
  for (std::size_t h = 1; h < costs.size(); ++h) by_ref[c.graph.handles[h].ref] = costs[h];
  return by_ref;
}

TEST(FeedReference, isolation_costs_as_little_as_the_reference_cut_and_holds_whatever_is_switched) {
  int boxes = 0, impossible = 0, opened = 0;
  const int houses = house_count() / 10;
  for (int seed = 1; seed <= houses; ++seed) {
    Case c(static_cast<std::uint64_t>(seed));
    const auto costs = opening_costs(c.house, c.graph);
    for (std::size_t b = 0; b < c.house.boxes.size() && b < 6; ++b) {
      const Id<Box> box = c.house.boxes[b].id;
      const Isolation answer = isolate(c.house, c.graph, c.feeds, in_box(c.house, box));
      const auto conductors = c.wiring.in_box(box);
      ASSERT_EQ(answer.possible ? answer.cost : -1, c.wiring.cut_cost(conductors, costs_by_ref(c, costs)))
          << "house " << seed << " box " << b;
      ++boxes;
      impossible += !answer.possible;
      if (!answer.possible) continue;
      opened += static_cast<int>(answer.open.size());
      for (int i = 0; i < 10; ++i) {  // whatever else anyone switches
        State state = c.random_state();
        for (std::uint8_t& legs : state.live_legs) legs = 7;
        for (const std::uint32_t h : answer.open) move_handle(c.graph, state, h, kOff);
        ASSERT_FALSE(c.wiring.any_live(c.switching(state), conductors)) << "house " << seed << " box " << b;
      }
    }
  }
  std::printf("%d boxes in %d houses, %d cannot be isolated: 0 differences\n", boxes, houses, impossible);
  EXPECT_GT(opened, boxes / 2);
}

/// Fewest moves after which the point works from the source lawfully, by trying all; -1 for none
/// within `most`.
int fewest_by_trying_all(Case& c, const State& from, std::size_t point, int source, int most) {
  std::vector<State> layer{from};
  std::set<std::vector<Throw>> seen{from.throws};
  const auto works = [&](const State& state) {
    Switching only = c.switching(state);
    if (c.wiring.any_joined(only) || !broken_interlocks(c.graph, state).empty()) return false;
    if (c.wiring.states(only)[point] != PointState::working) return false;
    std::erase_if(only.live_legs, [&](const auto& entry) {
      return entry.first != (source == 0 ? "utility" : c.house.sources[static_cast<std::size_t>(source - 1)].id.text());
    });
    return c.wiring.states(only)[point] == PointState::working;
  };
  for (int moves = 0; moves <= most; ++moves) {
    for (const State& state : layer)
      if (works(state)) return moves;
    std::vector<State> next;
    for (const State& state : layer)
      for (std::uint32_t h = 1; h < c.graph.handles.size(); ++h)
        for (Throw t = 0; t < c.graph.handles[h].throws && c.graph.handles[h].group == h; ++t) {
          State moved = state;
          move_handle(c.graph, moved, h, t);
          if (seen.insert(moved.throws).second) next.push_back(std::move(moved));
        }
    layer = std::move(next);
  }
  return -1;
}

TEST(FeedReference, restoration_is_lawful_at_every_step_and_as_short_as_trying_everything) {
  int restored = 0, compared = 0, refused = 0;
  const auto houses = static_cast<std::uint64_t>(std::clamp(house_count() / 25, 40, 400));
  for (std::uint64_t seed = 1; seed <= houses; ++seed) {
    Case c(seed);
    for (Source& source : c.house.sources) source.running_watts = 0;  // capacity has a test of its own
    if (c.house.points.empty()) continue;
    State state = c.random_state();
    const int source = static_cast<int>(c.random() % static_cast<std::uint64_t>(c.graph.source_count));
    std::ranges::fill(state.live_legs, std::uint8_t{0});
    for (const Terminal& t : c.graph.terminals)
      if (t.source == source || t.source == 0)
        state.live_legs[static_cast<std::size_t>(t.source)] |= static_cast<std::uint8_t>(1 << (t.leg - 1));
    if (!liveness(c.graph, state).joined.empty() || !broken_interlocks(c.graph, state).empty()) continue;
    const std::size_t point = c.random() % c.house.points.size();
    const Restoration answer = restore(c.house, c.graph, state, point, source);
    const int fewest = fewest_by_trying_all(c, state, point, source, c.graph.handles.size() > 24 ? 1 : 2);
    if (answer.cannot != CannotRestore::none) {
      ++refused;
      ASSERT_EQ(fewest, -1) << "house " << seed << " was refused, reason " << static_cast<int>(answer.cannot);
      continue;
    }
    ++restored;
    if (fewest >= 0) {
      ++compared;
      ASSERT_EQ(static_cast<int>(answer.moves.size()), fewest) << "house " << seed;
    }
    for (const Move& move : answer.moves) {
      move_handle(c.graph, state, move.handle, move.to);
      ASSERT_FALSE(c.wiring.any_joined(c.switching(state))) << "house " << seed;
      ASSERT_TRUE(broken_interlocks(c.graph, state).empty()) << "house " << seed;
    }
    ASSERT_EQ(state_by_record(c.graph, liveness(c.graph, state), point), PointState::working);
  }
  std::printf("%d restored (%d against trying everything), %d refused\n", restored, compared, refused);
  EXPECT_GT(compared, static_cast<int>(houses / 8));
}

}  // namespace
}  // namespace ohmstead
