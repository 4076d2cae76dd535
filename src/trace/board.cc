#include "trace/board.h"

#include <algorithm>
#include <charconv>

#include "house/index.h"
#include "house/walking.h"

namespace ohmstead {

namespace {

constexpr double kLifeIsLikelyOnIt = 0.2;

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

void find_round(Board& board, const std::vector<bool>& standing) {
  const House& house = board.house;
  for (std::size_t r = house.rounds.size(); r-- > 0;) {
    if (!standing[r]) continue;
    board.round = static_cast<long>(r);
    break;
  }
  if (board.round < 0) return;
  const Round& round = house.rounds[static_cast<std::size_t>(board.round)];
  bool on_purpose = false;
  for (const Opened& opened : house.opened) {
    if (opened.round != round.id) continue;
    const Id<Breaker> breaker{opened.handle.kind == HandleKind::breaker ? opened.handle.id : 0};
    if (board.settings.contains(setting_of(kStaysOffPrefix, breaker))) continue;
    on_purpose = true;
    if (!round.finished) board.open_handles.push_back(opened.handle);
    for (std::size_t w = 0; w < board.conclusions.ways.size(); ++w)
      for (const std::size_t b : board.conclusions.ways[w].breakers)
        if (house.breakers[b].id == breaker) board.open_way = static_cast<long>(w);
  }
  if (!round.finished) return;
  board.open_way = -1;
  if (on_purpose) board.round = -1;
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

void count_answers(Board& board) {
  const House& house = board.house;
  const Readings& readings = board.conclusions.readings;
  const Index<Round> round_at(house.rounds);
  const Index<Point> point_at(house.points);
  std::set<std::pair<std::size_t, std::size_t>> counted = told_nothing(readings);  // unit, round
  for (const Observation& seen : house.observations) {
    const long r = round_at.at(seen.round), p = point_at.at(seen.point);
    if (seen.withdrawn || r < 0 || p < 0) continue;
    const auto round = static_cast<std::size_t>(r), point = static_cast<std::size_t>(p);
    const std::size_t unit = readings.unit_of_point[point];
    const Effect& effect = readings.effects[round];
    if (effect.nothing_open) ++board.asked_with_nothing_open[point], ++board.ever_asked_with_nothing_open[point];
    if (seen.seen == Seen::live) board.asked_with_nothing_open[point] = 0;
    if (counted.insert({unit, round}).second)
      for (std::size_t w = 0; w < board.conclusions.ways.size(); ++w)
        if (effect.own_handle[board.conclusions.ways[w].breakers[0]]) ++board.tries[unit][w];
    if (r != board.round) continue;
    RoundAnswers& answers = board.answers[unit];
    ++(seen.seen == Seen::live ? answers.live : seen.seen == Seen::dead ? answers.dead : answers.passed);
    board.last_point = p;
  }
}

void judge_ways(Board& board, const std::vector<bool>& standing) {
  const Conclusions& all = board.conclusions;
  for (std::size_t r = 0; r < board.house.rounds.size(); ++r)
    for (std::size_t w = 0; w < all.ways.size(); ++w)
      if (standing[r] && all.readings.effects[r].own_handle[all.ways[w].breakers[0]])
        ++board.rounds_of_way[w];
  for (std::size_t w = 0; w < all.ways.size(); ++w) {
    bool may = all.ways[w].feeds_points, brief = false;
    for (const std::size_t b : all.ways[w].breakers) {
      const Breaker& breaker = board.house.breakers[b];
      may = may && breaker.open_rule != OpenRule::never &&
            !board.settings.contains(setting_of(kSkipPrefix, breaker.id)) &&
            !board.settings.contains(setting_of(kStaysOffPrefix, breaker.id));
      brief = brief || breaker.open_rule == OpenRule::briefly_alone;
    }
    for (std::size_t u = 0; u < all.units.size() && !brief; ++u)
      brief = keeps_somebody_alive(board.house, all.readings.units[u]) && belief_in(all.units[u], w) >= kLifeIsLikelyOnIt;
    board.may_open.push_back(may);
    board.briefly.push_back(brief);
  }
}

bool any_load(const House& house, const Unit& unit, bool alive_only) {
  return std::ranges::any_of(house.loads, [&](const Load& load) {
    // An alarm keeps somebody safe, and has a battery: it is not hurt by the loss.
    const bool counts = load.hurt_by_power_loss && (!alive_only || load.importance == Importance::life_safety);
    return counts && std::ranges::any_of(unit.points, [&](std::size_t p) { return house.points[p].id == load.point; });
  });
}

/// Seconds since 1970 of `2026-11-25T09:30:00Z`, or -1.
long seconds_of(const std::string& at) {
  int part[6];
  constexpr int kFrom[6] = {0, 5, 8, 11, 14, 17}, kLength[6] = {4, 2, 2, 2, 2, 2};
  if (at.size() != 20) return -1;
  for (int i = 0; i < 6; ++i) {
    const char* from = at.data() + kFrom[i];
    const auto [end, error] = std::from_chars(from, from + kLength[i], part[i]);
    if (error != std::errc{} || end != from + kLength[i]) return -1;
  }
  // Days since 1970 with the year beginning in March, so that the leap day is its last.
  const long year = part[1] > 2 ? part[0] : part[0] - 1, month = (part[1] + 9) % 12;
  const long days = year * 365 + year / 4 - year / 100 + year / 400 + (month * 306 + 5) / 10 + part[2] - 719'469;
  return days * 86'400 + part[3] * 3600L + part[4] * 60L + part[5];
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
  board.walk = walking_seconds(house);
  for (const Setting& setting : house.settings) board.settings.insert(setting.name);
  const std::vector<bool> standing = standing_rounds(house);
  find_round(board, standing);
  count_answers(board);
  judge_ways(board, standing);
  return board;
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

long seconds_between(const std::string& from, const std::string& to) {
  const long a = seconds_of(from), b = seconds_of(to);
  return a < 0 || b < 0 ? 0 : b - a;
}

}  // namespace ohmstead
