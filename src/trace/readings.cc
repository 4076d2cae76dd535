#include "trace/readings.h"

#include <algorithm>

#include "feed/feeds.h"
#include "house/index.h"

namespace ohmstead {

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

void make_units(const House& house, Readings& into) {
  const Index<Device> device_at(house.devices);
  std::vector<std::size_t> unit_of_outer(house.devices.size(), kNone);
  const auto unit_of = [&](Id<Device> nearest) {
    const auto outer = static_cast<std::size_t>(device_at.at(outermost_device(house, nearest)));
    if (unit_of_outer[outer] == kNone) {
      unit_of_outer[outer] = into.units.size();
      into.units.push_back({{}, house.devices[outer].id, {}, house.devices[outer].poles, {}, {}});
    }
    return unit_of_outer[outer];
  };
  for (const Device& device : house.devices) into.unit_of_device.push_back(unit_of(device.id));
  for (std::size_t i = 0; i < house.points.size(); ++i) {
    const Point& point = house.points[i];
    if (device_at.at(point.behind) >= 0) {
      into.unit_of_point.push_back(unit_of(point.behind));
    } else {
      into.unit_of_point.push_back(into.units.size());
      into.units.push_back({point.id, {}, {}, point.hots, {}, {}});
    }
    Unit& unit = into.units[into.unit_of_point.back()];
    unit.points.push_back(i);
    unit.hots = std::max(unit.hots, point.hots);
  }
}

/// Readings of one point, oldest first, to the unit: counted or set aside.
void sort_out(const std::vector<Reading>& all, const std::vector<Effect>& effects, Unit& unit, bool& dead_anyway) {
  for (std::size_t from = 0; from < all.size();) {
    std::size_t to = from, first_with_nothing_open = all.size();
    for (; to < all.size() && all[to].dead; ++to)
      if (effects[all[to].round].nothing_open) first_with_nothing_open = std::min(first_with_nothing_open, to);
    const bool with_nothing_open = first_with_nothing_open < to, after_live = from > 0;
    for (std::size_t i = from; i < to; ++i) {
      const bool counts = (!with_nothing_open || (after_live && i < first_with_nothing_open && all[i].round == all[from].round)) &&
                          !effects[all[i].round].device_open;
      (counts ? unit.readings : unit.discounted).push_back(all[i]);
    }
    dead_anyway = with_nothing_open;
    if (to == all.size()) break;
    unit.readings.push_back(all[to]);  // live: it had its supply, whatever was open
    dead_anyway = false;
    from = to + 1;
  }
}

/// For each round: does it say something of breakers? Not a proof with a source running, without the utility or with a position
/// moved: what is live or dead then, is so for another reason, and which circuit a position carries is just what is to be proved.
std::vector<bool> rounds_on_utility(const House& house, const Index<Round>& round_at) {
  std::vector<bool> counts;
  for (const Round& round : house.rounds) counts.push_back(round.kind != RoundKind::proof || (round.utility && !round.source));
  for (const Opened& opened : house.opened) {
    const long at = round_at.at(opened.round);
    if (at < 0) continue;
    const bool proof = house.rounds[static_cast<std::size_t>(at)].kind == RoundKind::proof;
    if (opened.stands != 0 || (proof && opened.handle.kind == HandleKind::position)) counts[static_cast<std::size_t>(at)] = false;
  }
  return counts;
}

}  // namespace

std::vector<std::vector<Reading>> looks_in_time(const House& house) {
  const Index<Round> round_at(house.rounds);
  const Index<Point> point_at(house.points);
  std::vector<const Observation*> in_time;
  for (const Observation& seen : house.observations)
    if (!seen.withdrawn && (seen.seen == Seen::live || seen.seen == Seen::dead)) in_time.push_back(&seen);
  std::ranges::stable_sort(in_time, {}, [](const Observation* seen) -> const std::string& { return seen->at; });
  const std::vector<bool> counts = rounds_on_utility(house, round_at);
  std::vector<std::vector<Reading>> of_point(house.points.size());
  for (const Observation* seen : in_time) {
    const long round = round_at.at(seen->round), point = point_at.at(seen->point);
    if (round < 0 || point < 0 || !counts[static_cast<std::size_t>(round)]) continue;
    const auto at = static_cast<std::size_t>(point);
    of_point[at].push_back({static_cast<std::size_t>(round), at, seen->seen == Seen::dead});
  }
  return of_point;
}

Readings read_observations(const House& house) {
  Readings result;
  result.effects = effects_of_rounds(house);
  make_units(house, result);
  const auto of_point = looks_in_time(house);
  result.dead_anyway.assign(house.points.size(), false);
  for (std::size_t i = 0; i < of_point.size(); ++i) {
    bool anyway = false;
    sort_out(of_point[i], result.effects, result.units[result.unit_of_point[i]], anyway);
    result.dead_anyway[i] = anyway;
  }
  return result;
}

}  // namespace ohmstead
