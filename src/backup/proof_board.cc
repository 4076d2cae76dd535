#include "backup/proof_board.h"

#include <algorithm>
#include <map>
#include <set>

#include "backup/proof_start.h"
#include "house/index.h"
#include "house/moment.h"

namespace ohmstead {

namespace {

constexpr int kMostNotSure = 2;  ///< then a point is not asked about again

class BoardReader {
 public:
  BoardReader(const House& house, const ProofWiring& wiring) : house_(house), board_{house, wiring} {
    line_of_point_.assign(house.points.size(), -1);
    for (std::size_t l = 0; l < wiring.lines.size(); ++l)
      for (const std::size_t p : wiring.lines[l].points) line_of_point_[p] = static_cast<int>(l);
    for (std::size_t u = 0; u < wiring.units.size(); ++u)
      for (const std::size_t p : wiring.units[u].positions) unit_of_position_.emplace(house.positions[p].id.value, u);
    board_.spoiled.assign(house.points.size(), false);
    board_.not_sure.assign(house.points.size(), 0);
  }

  ProofBoard read() {
    read_rounds();
    read_observations();
    set_aside_what_is_dead_anyway();
    find_now();
    return std::move(board_);
  }

 private:
  void read_rounds() {
    for (std::size_t r = proofs_from(house_); r < house_.rounds.size(); ++r) {
      const Round& round = house_.rounds[r];
      if (round.kind != RoundKind::proof || board_.said(kProveUndone + round.id.text())) continue;
      state_of_round_.emplace(round.id.value, board_.states.size());
      board_.rounds.push_back(r);
      ProofState state = board_.ordinary();
      state.utility = round.utility;
      state.running = static_cast<bool>(round.source);
      board_.states.push_back(state);
    }
    for (const Opened& opened : house_.opened) {
      const auto found = state_of_round_.find(opened.round.value);
      if (found == state_of_round_.end()) continue;
      ProofState& state = board_.states[found->second];
      const auto unit = unit_of_position_.find(opened.handle.id);
      if (opened.handle.kind == HandleKind::position && unit != unit_of_position_.end()) state.units[unit->second] = static_cast<Throw>(opened.stands);
      if (opened.handle.kind != HandleKind::breaker || parts(opened.handle)) continue;
      if (opened.stands == kOff) state.off.push_back({opened.handle.id});
      else state.let_in = true;
    }
    for (ProofState& state : board_.states) {
      std::ranges::sort(state.off);
      if (board_.wiring.panel && board_.wiring.panel->ways.empty()) state.let_in = !state.utility && (state.running || !state.off.empty());
    }
  }

  /// With a panel: is it what parts it from the street? `utility` says so.
  [[nodiscard]] bool parts(const HandleRef& handle) const {
    return board_.wiring.panel && std::ranges::find(board_.wiring.panel->part, handle, &ProofMove::handle) != board_.wiring.panel->part.end();
  }

  void read_observations() {
    for (const Observation& seen : house_.observations) {
      const auto state = state_of_round_.find(seen.round.value);
      if (seen.withdrawn || state == state_of_round_.end()) continue;
      const auto point = static_cast<std::size_t>(std::ranges::find(house_.points, seen.point, &Point::id) - house_.points.begin());
      if (point >= house_.points.size()) continue;
      last_point_ = point, last_state_ = static_cast<long>(state->second);
      if (seen.seen == Seen::skipped) board_.spoiled[point] = true;
      else if (seen.seen == Seen::not_sure) board_.spoiled[point] = board_.spoiled[point] || ++board_.not_sure[point] >= kMostNotSure;
      else if (const int line = line_of_point_[point]; line >= 0)
        board_.readings.push_back({static_cast<std::size_t>(line), point, state->second, seen.seen == Seen::dead});
    }
  }

  /// Of two points of one line that were seen in one state, one live and one only dead: the latter says nothing of the line.
  void set_aside_what_is_dead_anyway() {
    std::set<std::size_t> dead_anyway;
    for (const ProofReading& live : board_.readings) {
      if (live.dead) continue;
      for (const ProofReading& dead : board_.readings) {
        if (!dead.dead || dead.line != live.line || dead.point == live.point || !same_state(live, dead)) continue;
        const bool ever_live = std::ranges::any_of(board_.readings, [&](const ProofReading& r) { return r.point == dead.point && !r.dead && same_state(r, dead); });
        if (!ever_live) dead_anyway.insert(dead.point);
      }
    }
    for (const std::size_t p : dead_anyway) board_.spoiled[p] = true;
    std::erase_if(board_.readings, [&](const ProofReading& reading) { return dead_anyway.contains(reading.point); });
  }

  [[nodiscard]] bool same_state(const ProofReading& a, const ProofReading& b) const { return board_.states[a.state] == board_.states[b.state]; }

  void find_now() {
    board_.now = board_.ordinary();
    board_.here = board_.wiring.device_room;
    if (board_.rounds.empty()) return;
    const std::size_t last = board_.rounds.size() - 1;
    const bool finished = house_.rounds[board_.rounds[last]].finished;
    if (!finished) board_.now = board_.states[last];
    if (!finished || board_.states[last] == board_.ordinary()) board_.round = static_cast<int>(last);
    if (last_state_ == static_cast<long>(last)) board_.here = room_of_point(house_, last_point_);
  }

  const House& house_;
  ProofBoard board_;
  std::vector<int> line_of_point_;
  std::map<std::uint64_t, std::size_t> unit_of_position_, state_of_round_;
  std::size_t last_point_ = 0;
  long last_state_ = -1;
};

}  // namespace

std::string proof_try_name(const ProofTry& one) { return one.interlock.text() + (one.way ? ".way" : ".main"); }

bool ProofState::on_backup() const { return std::ranges::find(units, kBackupSide) != units.end(); }
bool ProofState::all_on_utility() const {
  return std::ranges::all_of(units, [](Throw stands) { return stands == kUtilitySide; });
}

ProofState ProofBoard::ordinary() const { return {.units = std::vector<Throw>(wiring.units.size(), kUtilitySide)}; }

bool ProofBoard::said(const std::string& setting) const { return std::ranges::find(house.settings, setting, &Setting::name) != house.settings.end(); }

bool ProofBoard::is_stuck(std::size_t unit) const {
  return std::ranges::any_of(wiring.units[unit].positions, [&](std::size_t p) { return said(kProveStuck + house.positions[p].id.text()); });
}

bool ProofBoard::may_be_off(std::size_t unit) const { return !wiring.units[unit].never && !is_stuck(unit); }

long ProofBoard::point_of(std::size_t line, bool another) const {
  long best = -1;
  int least = 0;  // how little it is wanted
  for (const std::size_t p : wiring.lines[line].points) {
    if (spoiled[p]) continue;
    const bool seen_here = std::ranges::any_of(readings, [&](const ProofReading& r) { return r.point == p && states[r.state] == now; });
    const int unwanted = 2 * not_sure[p] + (another && seen_here ? 1 : 0);
    if (best < 0 || unwanted < least) best = static_cast<long>(p), least = unwanted;
  }
  return best;
}

long ProofBoard::lasting(const std::function<bool(const ProofState&)>& holds) const {
  std::string since;
  for (std::size_t s = states.size(); s-- > 0 && holds(states[s]);) since = house.rounds[rounds[s]].at;
  return since.empty() || !holds(now) ? 0 : seconds_between(since, time);
}

ProofBoard read_proof_board(const House& house, const ProofWiring& wiring, const std::string& time) {
  ProofBoard board = BoardReader(house, wiring).read();
  board.time = time;
  return board;
}

}  // namespace ohmstead
