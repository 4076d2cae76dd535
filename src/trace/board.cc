#include "trace/board.h"

#include <algorithm>

#include "house/index.h"
#include "house/walking.h"
#include "trace/behind.h"

namespace ohmstead {

namespace {

std::string setting_of(const char* prefix, Id<Breaker> breaker) { return prefix + breaker.text(); }

/// Rounds of tracing that count: under way, or with an answer that still stands. What was begun and
/// taken back again is left out.
std::vector<bool> standing_rounds(const House& house) {
  const Index<Round> round_at(house.rounds);
  std::vector<bool> standing(house.rounds.size(), false);
  for (const Observation& seen : house.observations)
    if (const long r = round_at.at(seen.round); r >= 0 && !seen.withdrawn) standing[static_cast<std::size_t>(r)] = true;
  for (std::size_t r = 0; r < standing.size(); ++r)
    standing[r] = house.rounds[r].kind == RoundKind::trace && (standing[r] || !house.rounds[r].finished);
  return standing;
}

/// What was opened on purpose in a round: what will not close again is left out.
std::vector<HandleRef> opened_in(const Board& board, const Round& round) {
  std::vector<HandleRef> handles;
  for (const Opened& opened : board.house.opened) {
    if (opened.round != round.id) continue;
    if (!board.settings.contains(kStaysOffPrefix + handle_key(opened.handle))) handles.push_back(opened.handle);
  }
  return handles;
}

bool holds_all(const std::vector<HandleRef>& these, const std::vector<HandleRef>& all) {
  return std::ranges::all_of(these, [&](const HandleRef& handle) { return std::ranges::find(all, handle) != all.end(); });
}

/// Is this round what was left open when others were closed? Then it comes right after one with all of them.
bool only_closed(const Board& board, const std::vector<bool>& standing, std::size_t at) {
  for (std::size_t r = at; r-- > 0;) {
    if (!standing[r]) continue;
    const auto before = opened_in(board, board.house.rounds[r]);
    return before.size() > board.open_handles.size() && holds_all(board.open_handles, before);
  }
  return false;
}

void find_round(Board& board, const std::vector<bool>& standing) {
  const House& house = board.house;
  for (std::size_t r = house.rounds.size(); r-- > 0 && board.round < 0;)
    if (standing[r]) board.round = static_cast<long>(r);
  if (board.round < 0) return;
  const auto at = static_cast<std::size_t>(board.round);
  const auto handles = opened_in(board, house.rounds[at]);
  if (house.rounds[at].finished) {
    if (!handles.empty()) board.round = -1;
    return;
  }
  board.open_handles = handles;
  const auto& ways = board.conclusions.ways;
  for (std::size_t w = 0; w < ways.size(); ++w)
    for (const std::size_t b : ways[w].breakers)
      if (std::ranges::find(handles, HandleRef{HandleKind::breaker, house.breakers[b].id.value}) != handles.end()) {
        board.open_ways.push_back(w);
        break;
      }
  board.just_closed = !handles.empty() && only_closed(board, standing, at);
}

/// Unit and round of looks that told nothing of a breaker: the unit was dead for another reason.
std::set<std::pair<std::size_t, std::size_t>> told_nothing(const Readings& readings) {
  std::set<std::pair<std::size_t, std::size_t>> idle;
  for (std::size_t u = 0; u < readings.units.size(); ++u) {
    for (const Reading& reading : readings.units[u].discounted) idle.insert({u, reading.round});
    for (const Reading& reading : readings.units[u].readings) idle.erase({u, reading.round});
  }
  return idle;
}

/// Of the rounds: was something open but what will not close again?
std::vector<bool> opened_on_purpose(const Board& board) {
  const Index<Round> round_at(board.house.rounds);
  std::vector<bool> some(board.house.rounds.size(), false);
  for (const Opened& opened : board.house.opened)
    if (const long r = round_at.at(opened.round); r >= 0 && !board.settings.contains(kStaysOffPrefix + handle_key(opened.handle))) some[static_cast<std::size_t>(r)] = true;
  return some;
}

void count_answers(Board& board) {
  const House& house = board.house;
  const Readings& readings = board.conclusions.readings;
  const Index<Round> round_at(house.rounds);
  const Index<Point> point_at(house.points);
  const std::vector<bool> on_purpose = opened_on_purpose(board);
  std::set<std::pair<std::size_t, std::size_t>> counted = told_nothing(readings);  // unit, round
  for (const Observation& seen : house.observations) {
    const long r = round_at.at(seen.round), p = point_at.at(seen.point);
    if (seen.withdrawn || r < 0 || p < 0) continue;
    const auto round = static_cast<std::size_t>(r), point = static_cast<std::size_t>(p);
    const std::size_t unit = readings.unit_of_point[point];
    const Effect& effect = readings.effects[round];
    if (!on_purpose[round]) ++board.asked_with_nothing_open[point], ++board.ever_asked_with_nothing_open[point];
    if (seen.seen == Seen::live) board.asked_with_nothing_open[point] = 0;
    if (counted.insert({unit, round}).second)
      for (std::size_t w = 0; w < board.conclusions.ways.size(); ++w)
        if (effect.own_handle[board.conclusions.ways[w].breakers[0]]) ++board.tries[unit][w];
    if (r != board.round) continue;
    RoundAnswers& answers = board.answers[unit];
    ++(seen.seen == Seen::live ? answers.live : seen.seen == Seen::dead ? answers.dead : answers.passed);
    board.last_point = p;
  }
  if (board.last_point >= 0) board.just_closed = false;
}

/// At the panel, or where the last look was; with a helper nobody walks to the panel.
void find_place(Board& board) {
  const House& house = board.house;
  const Index<Room> room_at(house.rooms);
  const auto room_of = [&](Id<Point> id) {
    const Point* point = find_row(house, id);
    return point == nullptr ? 0 : static_cast<std::size_t>(std::max(0L, room_at.at(point->room)));
  };
  if (!board.conclusions.ways.empty()) board.here = panel_room(board, board.open_ways.empty() ? 0 : board.open_ways[0]);
  if (board.last_point >= 0) board.here = room_of(house.points[static_cast<std::size_t>(board.last_point)].id);
  else if (board.manner.helper) {
    const auto stands = [](const Observation& seen) { return !seen.withdrawn; };
    const auto last = std::find_if(house.observations.rbegin(), house.observations.rend(), stands);
    if (last != house.observations.rend()) board.here = room_of(last->point);
  }
}

void judge_ways(Board& board, const std::vector<bool>& standing) {
  const Conclusions& all = board.conclusions;
  for (std::size_t r = 0; r < board.house.rounds.size(); ++r)
    for (std::size_t w = 0; w < all.ways.size(); ++w)
      if (standing[r] && all.readings.effects[r].own_handle[all.ways[w].breakers[0]])
        ++board.rounds_of_way[w];
  for (std::size_t w = 0; w < all.ways.size(); ++w) {
    bool may = all.ways[w].feeds_points, brief = false, off = false;
    for (const std::size_t b : all.ways[w].breakers) {
      const Breaker& breaker = board.house.breakers[b];
      may = may && breaker.open_rule != OpenRule::never &&
            !board.settings.contains(setting_of(kSkipPrefix, breaker.id)) &&
            !board.settings.contains(setting_of(kStaysOffPrefix, breaker.id));
      off = off || board.settings.contains(setting_of(kStaysOffPrefix, breaker.id));
      brief = brief || breaker.open_rule == OpenRule::briefly_alone;
    }
    for (std::size_t u = 0; u < all.units.size() && !brief; ++u)
      brief = keeps_somebody_alive(board.house, all.readings.units[u]) && belief_in(all.units[u], w) >= kLifeIsLikelyOnIt;
    board.may_open.push_back(may);
    board.briefly.push_back(brief);
    board.stays_off.push_back(off);
  }
}

bool any_load(const House& house, const Unit& unit, bool alive_only) {
  return std::ranges::any_of(house.loads, [&](const Load& load) {
    // An alarm keeps somebody safe, and has a battery: it is not hurt by the loss.
    const bool counts = load.hurt_by_power_loss && (!alive_only || load.importance == Importance::life_safety);
    return counts && std::ranges::any_of(unit.points, [&](std::size_t p) { return house.points[p].id == load.point; });
  });
}

}  // namespace

Board read_board(const House& house, const Conclusions& conclusions) {
  const std::size_t units = conclusions.units.size();
  Board board{house, conclusions};
  board.answers.resize(units);
  board.tries.assign(units, std::vector<int>(conclusions.ways.size(), 0));
  board.rounds_of_way.assign(conclusions.ways.size(), 0);
  board.asked_with_nothing_open.assign(house.points.size(), 0);
  board.ever_asked_with_nothing_open = board.asked_with_nothing_open;
  board.walk = conclusions.kin.walk().empty() ? walking_seconds(house) : conclusions.kin.walk();
  for (auto& row : board.walk) row.push_back(0);
  board.walk.emplace_back(board.walk.size() + 1, 0);
  board.manner = manner_of(house);
  for (const Setting& setting : house.settings) board.settings.insert(setting.name);
  const std::vector<bool> standing = standing_rounds(house);
  find_round(board, standing);
  count_answers(board);
  judge_ways(board, standing);
  find_place(board);
  for (const Point& point : house.points) board.lamp_in.push_back(board.settings.contains(kLampPrefix + point.id.text()));
  return board;
}

std::size_t panel_room(const Board& board, std::size_t way) {
  const House& house = board.house;
  const Panel* panel = find_row(house, house.breakers[board.conclusions.ways[way].breakers[0]].panel);
  if (panel == nullptr) return 0;
  const auto room = std::ranges::find(house.rooms, panel->room, &Room::id);
  return room == house.rooms.end() ? 0 : static_cast<std::size_t>(room - house.rooms.begin());
}

double belief_in(const UnitConclusion& unit, std::size_t way) {
  double belief = 0;
  for (const Candidate& candidate : unit.candidates) {
    const bool two = candidate.kind == CandidateKind::each || candidate.kind == CandidateKind::together;
    if ((candidate.kind == CandidateKind::one || two) && (candidate.first == way || (two && candidate.second == way)))
      belief += candidate.belief;
  }
  return belief;
}

bool has_load_at_risk(const House& house, const Unit& unit) { return any_load(house, unit, false); }
bool keeps_somebody_alive(const House& house, const Unit& unit) { return any_load(house, unit, true); }

}  // namespace ohmstead
