#include "trace/behind.h"

#include <algorithm>

#include "house/index.h"
#include "house/walking.h"
#include "trace/behind_model.h"
#include "trace/board.h"

namespace ohmstead {

namespace {

/// What was open in a round, as far as one handle is concerned.
struct RoundSeen {
  bool with_it = false;       ///< the handle was open
  bool with_others = false;   ///< and something besides, or only that
};

/// Of all rounds. What would not close again counts as if it were closed.
std::vector<RoundSeen> rounds_seen(const House& house, const HandleRef& handle) {
  const Index<Round> round_at(house.rounds);
  const HandleRef asked = first_of_group(house, handle);
  std::vector<RoundSeen> rounds(house.rounds.size());
  for (const Opened& opened : house.opened) {
    const long at = round_at.at(opened.round);
    if (at < 0) continue;
    RoundSeen& round = rounds[static_cast<std::size_t>(at)];
    const HandleRef first = first_of_group(house, opened.handle);
    if (first == asked) round.with_it = true;
    else if (std::ranges::find(house.settings, kStaysOffPrefix + handle_key(opened.handle), &Setting::name) == house.settings.end())
      round.with_others = true;
  }
  return rounds;
}

/// Counts what was seen of one point. Of a run of dead looks with one among them made with nothing
/// open, only those count that come right after a live one and before that one (trace/readings.h).
BehindPoint count_looks(const std::vector<Reading>& all, const std::vector<RoundSeen>& rounds) {
  BehindPoint counted;
  for (std::size_t from = 0; from < all.size();) {
    std::size_t to = from, first_with_nothing = all.size();
    for (; to < all.size() && all[to].dead; ++to)
      if (const RoundSeen& round = rounds[all[to].round]; !round.with_it && !round.with_others) first_with_nothing = std::min(first_with_nothing, to);
    for (std::size_t i = from; i < to; ++i) {
      const RoundSeen& round = rounds[all[i].round];
      const bool dead_by_something = first_with_nothing >= to || (from > 0 && i < first_with_nothing);
      if (round.with_it && !round.with_others && dead_by_something) ++counted.dead;
    }
    if (to == all.size()) break;
    if (rounds[all[to].round].with_it) ++counted.live;
    else counted.live_closed = true;
    from = to + 1;
  }
  return counted;
}

BehindStanding standing_of(const BehindPoint& point) {
  if (point.belief >= kBehindBelief && point.dead > 0 && point.live_closed) return BehindStanding::behind;
  if (point.belief <= 1 - kBehindBelief && point.live > 0) return BehindStanding::not_behind;
  return point.dead > 0 && point.live > 0 ? BehindStanding::disputed : BehindStanding::open;
}

/// The house as if nothing had been looked at with the handle open.
House without_looks_at(const House& house, const std::vector<RoundSeen>& rounds) {
  House other = house;
  const Index<Round> round_at(house.rounds);
  std::erase_if(other.observations, [&](const Observation& seen) {
    const long at = round_at.at(seen.round);
    return at >= 0 && rounds[static_cast<std::size_t>(at)].with_it;
  });
  return other;
}

std::vector<double> beliefs_of(const BehindGround& ground, const HandleRef& handle, const std::vector<BehindPoint>& points) {
  std::vector<BehindLooks> looks;
  for (const BehindPoint& point : points) looks.push_back({point.dead, point.live});
  const std::vector<BehindCase> cases = behind_cases(ground, handle);
  return cases.empty() ? std::vector<double>(points.size(), 0) : behind_beliefs(cases, looks);
}

}  // namespace

std::vector<BehindPoint> find_behind(const BehindGround& ground, const HandleRef& handle) {
  const House& house = ground.house;
  const auto rounds = rounds_seen(house, handle);
  std::vector<BehindPoint> points;
  for (const auto& glances : looks_in_time(house)) points.push_back(count_looks(glances, rounds));
  std::vector<double> beliefs;
  const bool tells_of_breakers = handle.kind != HandleKind::device && std::ranges::any_of(rounds, &RoundSeen::with_it);
  if (tells_of_breakers) {
    const House before = without_looks_at(house, rounds);
    const Conclusions conclusions = conclude_units(before);
    beliefs = beliefs_of({before, conclusions, ground.walk}, handle, points);
  } else {
    beliefs = beliefs_of(ground, handle, points);
  }
  for (std::size_t p = 0; p < points.size(); ++p) {
    points[p].belief = beliefs[p];
    points[p].standing = standing_of(points[p]);
  }
  return points;
}

std::vector<BehindPoint> find_behind(const House& house, const HandleRef& handle) {
  const Conclusions conclusions = conclude_units(house);
  return find_behind(BehindGround{house, conclusions, walking_seconds(house)}, handle);
}

HandleRef first_of_group(const House& house, const HandleRef& handle) {
  if (handle.kind == HandleKind::breaker) {
    const Breaker* breaker = find_row(house, Id<Breaker>{handle.id});
    return breaker != nullptr && breaker->tie ? HandleRef{handle.kind, breaker->tie.value} : handle;
  }
  if (handle.kind == HandleKind::position) {
    const Position* position = find_row(house, Id<Position>{handle.id});
    return position != nullptr && position->tie ? HandleRef{handle.kind, position->tie.value} : handle;
  }
  if (handle.kind != HandleKind::device) return handle;
  const Handle* moved = find_row(house, Id<Handle>{handle.id});
  const auto first = moved == nullptr ? house.handles.end() : std::ranges::find(house.handles, moved->device, &Handle::device);
  return first == house.handles.end() ? handle : HandleRef{handle.kind, first->id.value};
}

std::string handle_key(const HandleRef& handle) {
  return handle.kind == HandleKind::breaker ? Id<Breaker>{handle.id}.text() : text_of_ref(handle);
}

std::size_t room_of_handle(const House& house, const HandleRef& handle) {
  Id<Room> room;
  const auto in_panel = [&](Id<Panel> id) {
    const Panel* panel = find_row(house, id);
    return panel == nullptr ? Id<Room>{} : panel->room;
  };
  if (handle.kind == HandleKind::main) room = in_panel(Id<Panel>{handle.id});
  if (handle.kind == HandleKind::breaker)
    if (const Breaker* breaker = find_row(house, Id<Breaker>{handle.id})) room = in_panel(breaker->panel);
  if (handle.kind == HandleKind::device)
    if (const Handle* moved = find_row(house, Id<Handle>{handle.id})) room = moved->room;
  if (handle.kind == HandleKind::position || handle.kind == HandleKind::position_breaker)
    if (const Position* position = find_row(house, Id<Position>{handle.id}))
      if (const TransferDevice* device = find_row(house, position->device)) room = device->room;
  return static_cast<std::size_t>(std::max(0L, Index<Room>(house.rooms).at(room)));
}

HandleRef asked_behind(const House& house) {
  const auto found = std::ranges::find(house.settings, kBehindSetting, &Setting::name);
  return found == house.settings.end() ? HandleRef{} : parse_handle_ref(found->value).value_or(HandleRef{});
}

void ask_behind(House& house, const HandleRef& handle) {
  if (handle.kind == HandleKind::main) (void)row(house, Id<Panel>{handle.id});
  if (handle.kind == HandleKind::device) (void)row(house, Id<Handle>{handle.id});
  if (handle.kind == HandleKind::position) (void)row(house, Id<Position>{handle.id});
  if (handle.kind == HandleKind::position_breaker)
    throw Error(ErrorKind::invalid_input, "On an ordinary day the small breaker of a position carries nothing; ask about the position itself.");
  if (handle.kind == HandleKind::breaker && row(house, Id<Breaker>{handle.id}).open_rule == OpenRule::never)
    throw Error(ErrorKind::invalid_input, "This breaker is marked never to be opened; nothing was asked about it.");
  const std::string skipped = kSkipPrefix + handle_key(first_of_group(house, handle)), stays_off = kStaysOffPrefix + handle_key(first_of_group(house, handle));
  std::erase_if(house.settings, [&](const Setting& setting) {
    return handle && (setting.name == skipped || setting.name == stays_off);
  });
  if (asked_behind(house) == handle) return;
  std::erase_if(house.settings, [](const Setting& setting) { return setting.name == kBehindSetting; });
  if (handle) house.settings.push_back({Id<Setting>::fresh(), kBehindSetting, text_of_ref(handle)});
}

}  // namespace ohmstead
