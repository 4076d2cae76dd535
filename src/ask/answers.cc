#include "ask/answers.h"

#include <algorithm>
#include <set>

#include "house/index.h"

namespace ohmstead {

namespace {

std::set<std::size_t> points_with_hurt_loads(const House& house) {
  std::set<std::size_t> points;
  const Index<Point> point_at(house.points);
  for (const Load& load : house.loads)
    if (const long p = point_at.at(load.point); p >= 0 && load.hurt_by_power_loss) points.insert(static_cast<std::size_t>(p));
  return points;
}

std::vector<Id<Panel>> panels_up_from(const House& house, Id<Breaker> breaker) {
  std::vector<Id<Panel>> panels;
  const Breaker* at = find_row(house, breaker);
  while (at != nullptr && panels.size() <= house.panels.size()) {
    panels.push_back(at->panel);
    const Panel* panel = find_row(house, at->panel);
    Id<Breaker> feeder = panel == nullptr ? Id<Breaker>{} : panel->feeder;
    if (panel != nullptr && panel->supply == Supply::position)
      if (const Position* position = find_row(house, panel->position)) feeder = position->breaker;
    at = find_row(house, feeder);
  }
  return panels;
}

bool taps_breaker(const Feed& feed, Id<Breaker> breaker) {
  return std::ranges::any_of(feed.taps, [&](const Tap& tap) { return tap.breaker == breaker; });
}

void count_observations(const House& house, WhereAnswer& answer) {
  for (const Observation& seen : house.observations) {
    if (seen.point != house.points[answer.point].id || seen.withdrawn) continue;
    if (seen.seen == Seen::dead) ++answer.seen_dead;
    else if (seen.seen == Seen::live) ++answer.seen_live;
    else continue;
    answer.last_seen = std::max(answer.last_seen, seen.at);
  }
}

}  // namespace

namespace {

/// Breakers turned off whose circuit is live all the same: a transfer position carries it.
std::vector<HandleRef> still_fed(const Record& record, const State& before, const State& after) {
  std::vector<HandleRef> fed;
  const Liveness live = liveness(record.graph, after);
  for (std::size_t b = 0; b < record.house.breakers.size(); ++b) {
    const HandleRef ref{HandleKind::breaker, record.house.breakers[b].id.value};
    const std::uint32_t handle = record.graph.handle_of(ref);
    if (before.throws[handle] != kOff && after.throws[handle] == kOff &&
        std::ranges::any_of(record.graph.circuit[b], [&](Node node) { return live.live(node); }))
      fed.push_back(ref);
  }
  return fed;
}

}  // namespace

OffAnswer what_goes_off(const Record& record, const std::vector<AskedMove>& moves, Supplied supplied) {
  OffAnswer answer;
  answer.supplied = supplied;
  const State before = state_when(record, supplied);
  State after = before;
  for (const AskedMove& move : moves) move_handle(record.graph, after, record.graph.handle_of(move.handle), move.to);
  for (std::uint32_t h = 1; h < record.graph.handles.size(); ++h) {
    const std::uint32_t group = record.graph.handles[h].group;
    if (std::ranges::any_of(moves, [&](const AskedMove& m) { return record.graph.handles[record.graph.handle_of(m.handle)].group == group; }))
      answer.moved.push_back(record.graph.handles[h].ref);
  }
  answer.change = what_changes(record.house, record.graph, record.feeds, before, after);
  answer.change.joined = dangers::joined_terminals(record.graph, after);
  std::ranges::copy(dangers::live_mates(record, answer.change, after), std::back_inserter(answer.change.stays_live));
  answer.not_known_near = dangers::not_known_near(record, answer.change);
  answer.will_move = dangers::devices_that_will_move(record, before, after);
  answer.broken_interlocks = broken_interlocks(record.graph, after);
  answer.stays_fed = still_fed(record, before, after);
  const auto hurt = points_with_hurt_loads(record.house);
  std::ranges::copy_if(answer.change.off, std::back_inserter(answer.hurt), [&](std::size_t p) { return hurt.contains(p); });
  return answer;
}

WhereAnswer where_is(const Record& record, std::size_t point) {
  const House& house = record.house;
  WhereAnswer answer{.point = point, .feed = record.feeds.of_point[point]};
  for (Id<Device> at = house.points[point].behind; at && answer.behind.size() <= house.devices.size();) {
    answer.behind.push_back(at);
    const Device* device = find_row(house, at);
    at = device == nullptr ? Id<Device>{} : device->behind;
  }
  for (const Position& position : house.positions)
    for (const Tap& tap : answer.feed.taps)
      if (position.breaker == tap.breaker && position.pole == tap.pole) answer.positions.push_back(position.id);
  if (!answer.feed.taps.empty()) {
    const Id<Breaker> breaker = answer.feed.taps.front().breaker;
    answer.panels = panels_up_from(house, breaker);
    for (std::size_t p = 0; p < house.points.size(); ++p)
      if (p != point && taps_breaker(record.feeds.of_point[p], breaker)) answer.same_breaker.push_back(p);
    for (const Id<Panel> panel_id : answer.panels) {  // a feeder, too, may ride on a position
      const Panel* panel = find_row(house, panel_id);
      if (panel == nullptr) continue;
      for (const Position& position : house.positions)
        if ((panel->supply == Supply::breaker && position.breaker == panel->feeder) ||
            (panel->supply == Supply::position && position.id == panel->position))
          answer.positions.push_back(position.id);
    }
  }
  count_observations(house, answer);
  for (std::size_t l = 0; l < house.loads.size(); ++l)
    if (house.loads[l].point == house.points[point].id) answer.loads.push_back(l);
  return answer;
}

CarriesAnswer what_does_it_carry(const Record& record, HandleRef handle) {
  const OffAnswer off = what_goes_off(record, {{handle, kOff}}, {});
  return {handle, off.change.off};
}

namespace {

IsolateAnswer isolate_inside(const Record& record, Id<Box> box, InBox inside) {
  IsolateAnswer answer{box, std::move(inside), {}, false};
  answer.isolation = isolate(record.house, record.graph, record.feeds, answer.inside);
  answer.unknown_supply = dangers::reaches_unknown(record, answer.inside, answer.isolation.open);
  return answer;
}

}  // namespace

IsolateAnswer isolate_box(const Record& record, Id<Box> box) {
  return isolate_inside(record, box, in_box(record.house, box));
}

IsolateAnswer isolate_point(const Record& record, std::size_t point) {
  if (const Id<Box> box = record.house.points[point].box) return isolate_box(record, box);
  InBox inside = only_point(point);
  const Index<Point> point_at(record.house.points);
  if (const long mate = point_at.at(record.house.points[point].mate); mate >= 0)
    inside.points.push_back(static_cast<std::size_t>(mate));  // the other half is in the same enclosure
  return isolate_inside(record, {}, std::move(inside));
}

RestoreAnswer bring_back(const Record& record, std::size_t point, const State& now, Supplied from) {
  RestoreAnswer answer{point, from, false, {}};
  const Liveness live = liveness(record.graph, now);
  answer.works_already = state_by_record(record.graph, live, point) == PointState::working;
  if (answer.works_already) return answer;
  State with_utility = now;  // never joined to the utility, even while it is dead: it can come back
  with_utility.live_legs[0] = usual_state(record.graph).live_legs[0];
  answer.restoration = restore(record.house, record.graph, from.source == 0 ? now : with_utility, point, from.source);
  if (from.source == 0 || answer.restoration.cannot != CannotRestore::none) return answer;
  State goal = now;
  for (const Move& move : answer.restoration.moves) move_handle(record.graph, goal, move.handle, move.to);
  answer.restoration.goes_off = what_changes(record.house, record.graph, record.feeds, now, goal).off;
  return answer;
}

StandAnswer how_it_stands(const Record& record) {
  const House& house = record.house;
  StandAnswer answer;
  answer.rooms = house.rooms.size();
  answer.points = house.points.size();
  answer.breakers = house.breakers.size();
  answer.observations = static_cast<std::size_t>(
      std::ranges::count_if(house.observations, [](const Observation& seen) { return !seen.withdrawn; }));
  std::set<Id<Breaker>> used;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Feed& feed = record.feeds.of_point[p];
    for (const Tap& tap : feed.taps) used.insert(tap.breaker);
    switch (feed.standing) {
      case Standing::proved: answer.proved.push_back(p); break;
      case Standing::declared: answer.declared.push_back(p); break;
      case Standing::likely: answer.likely.push_back(p); break;
      case Standing::disputed: answer.disputed.push_back(p); break;
      case Standing::open: answer.open.push_back(p); break;
    }
  }
  for (const Panel& panel : house.panels)
    if (panel.supply == Supply::breaker) used.insert(panel.feeder);
  for (const Breaker& breaker : house.breakers)
    if (!used.contains(breaker.id) && !breaker.backfed_from) answer.nothing_found.push_back(breaker.id);
  answer.contradictions = contradictions_of(house, conclude_units(house));
  return answer;
}

}  // namespace ohmstead
