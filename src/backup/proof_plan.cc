#include "backup/proof_plan.h"

#include <algorithm>

#include "backup/proof_order.h"
#include "backup/proof_planner.h"

namespace ohmstead {

namespace backup_detail {

using enum ProofReason;

ProofPlanner::ProofPlanner(const ProofBoard& board) : board_(board), wiring_(board.wiring), verdict_(board) {
  std::vector<SeriesUnit> units;
  for (std::size_t u = 0; u < wiring_.units.size(); ++u) {
    SeriesUnit unit{.alone = wiring_.units[u].alone};
    for (const std::size_t l : wiring_.units[u].lines) {
      if (wiring_.lines[l].only_in_doubt) continue;
      const std::size_t point = wiring_.lines[l].points[0];
      unit.rooms.push_back(room_of_point(board.house, point));
      unit.look_seconds += look_seconds(board.house, point);
    }
    if (unit.rooms.empty() || !board.may_be_off(u)) continue;
    units.push_back(unit);
    unit_of_series_.push_back(u);
  }
  series_ = cheapest_series(units, {.walk = wiring_.walk, .device_room = wiring_.device_room});
  for (SeriesRound& round : series_) {
    for (std::size_t& unit : round.off) unit = unit_of_series_[unit];
    for (std::size_t& unit : round.looks) unit = unit_of_series_[unit];
  }
}

ProofState ProofPlanner::with_off(const std::vector<std::size_t>& units) const {
  ProofState state = board_.ordinary();
  for (const std::size_t unit : units) state.units[unit] = kOff;
  return state;
}

void ProofPlanner::add_planned(std::vector<DueLook>& due, const ProofState& state) const {
  for (const SeriesRound& round : series_) {
    if (with_off(round.off) != state) continue;
    for (const std::size_t unit : round.looks)
      for (const std::size_t l : wiring_.units[unit].lines)
        if (!wiring_.lines[l].only_in_doubt && !verdict_.cutter(l).sure && looks_in(l, state) == 0) add_due(due, state, l, round.off.empty() ? on_utility : carried);
  }
}

/// With everything on: what can be in no round, and what tells of the panel, must be live.
void ProofPlanner::add_ordinary(std::vector<DueLook>& due) const {
  if (board_.now != board_.ordinary()) return;
  const auto once = [&](std::size_t l) {
    const Cutter& cutter = verdict_.cutter(l);
    const bool maybe_never_fed = std::ranges::find(cutter.open, kNeverFed) != cutter.open.end();
    if (!cutter.sure && maybe_never_fed) add_due(due, board_.now, l, looks_in(l, board_.now) == 0 ? on_utility : confirm, last_was_dead(l));
  };
  for (const std::size_t l : wiring_.panel_lines) once(l);
  for (std::size_t u = 0; u < wiring_.units.size(); ++u)
    for (const std::size_t l : wiring_.units[u].lines)
      if (!wiring_.lines[l].only_in_doubt && !board_.may_be_off(u)) once(l);
}

/// What contradicted the plan, as long as a look here tells apart what is left.
void ProofPlanner::add_doubtful(std::vector<DueLook>& due) const {
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const Cutter& cutter = verdict_.cutter(l);
    if (!cutter.doubtful()) continue;
    const bool expect_dead = dead_when_off(cutter.open.front(), board_.now.units);
    const bool tells = std::ranges::any_of(cutter.open, [&](int h) { return dead_when_off(h, board_.now.units) != expect_dead; });
    const bool planned_live = !dead_when_off(cutter.planned, board_.now.units);
    if (tells) add_due(due, board_.now, l, looks_in(l, board_.now) > 0 ? confirm : find_cutter, planned_live && last_was_dead(l));
  }
}

/// Could this line be what an empty-handed unit carries? Once one was found, only the other legs of its breaker.
bool ProofPlanner::searches(std::size_t unit, std::size_t line) const {
  const Cutter& cutter = verdict_.cutter(line);
  const auto others = verdict_.others_of(unit);
  const bool same_breaker = std::ranges::any_of(others, [&](std::size_t other) { return wiring_.lines[other].breaker == wiring_.lines[line].breaker; });
  if (!others.empty() && !same_breaker) return false;
  return !wiring_.lines[line].only_in_doubt && wiring_.lines[line].unit != static_cast<int>(unit) && !cutter.right() &&
         cutter.against(static_cast<int>(unit)) == 0 && board_.point_of(line) >= 0;
}

void ProofPlanner::add_search(std::vector<DueLook>& due) const {
  for (std::size_t u = 0; u < wiring_.units.size(); ++u) {
    if (board_.now != with_off({u}) || !verdict_.empty_handed(u)) continue;
    for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
      if (searches(u, l) && looks_in(l, board_.now) == 0) add_due(due, board_.now, l, find_other);
  }
}

std::vector<DueLook> ProofPlanner::due_on_utility() const {
  std::vector<DueLook> due;
  add_doubtful(due);
  if (!due.empty()) return due;  // one look can be wrong: it is settled before anything else
  add_planned(due, board_.now);
  add_ordinary(due);
  if (due.empty()) add_search(due);
  return due;
}

/// Handles off that part what is left of the first circuit in doubt.
std::optional<ProofState> ProofPlanner::state_for_doubt() const {
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const Cutter& cutter = verdict_.cutter(l);
    if (!cutter.doubtful() || board_.point_of(l) < 0) continue;
    std::vector<std::size_t> units;
    for (const int h : cutter.open)
      if (h >= 0 && board_.may_be_off(static_cast<std::size_t>(h))) units.push_back(static_cast<std::size_t>(h));
    const auto alone = std::ranges::find_if(units, [&](std::size_t u) { return wiring_.units[u].alone; });
    if (units.size() > 1) {
      if (alone != units.end()) units = {*alone};
      else units.resize((units.size() + 1) / 2);
    }
    const ProofState state = with_off(units);
    const bool first = dead_when_off(cutter.open.front(), state.units);
    const bool tells = std::ranges::any_of(cutter.open, [&](int h) { return dead_when_off(h, state.units) != first; });
    if (tells && looks_in(l, state) < kMostLooksInOneState) return state;
  }
  return std::nullopt;
}

std::optional<ProofState> ProofPlanner::state_for_search() const {
  for (std::size_t u = 0; u < wiring_.units.size(); ++u) {
    if (!verdict_.empty_handed(u) || !board_.may_be_off(u)) continue;
    const ProofState state = with_off({u});
    for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
      if (searches(u, l) && looks_in(l, state) == 0) return state;
  }
  return std::nullopt;
}

std::optional<ProofState> ProofPlanner::next_state_on_utility(ProofReason& reason) const {
  for (const SeriesRound& round : series_) {
    std::vector<DueLook> due;
    add_planned(due, with_off(round.off));
    reason = carried;
    if (!due.empty()) return with_off(round.off);
  }
  reason = find_cutter;
  if (const auto state = state_for_doubt()) return state;
  reason = find_other;
  return state_for_search();
}

ProofStep ProofPlanner::next_on_utility() const {
  if (const auto due = due_on_utility(); !due.empty()) return look_at(due);
  ProofReason reason = carried;
  if (const auto state = next_state_on_utility(reason); state && *state != board_.now) {
    if (const auto caution = caution_before(*state)) return *caution;
    return move_to(*state, reason);
  }
  if (board_.now != board_.ordinary()) return move_to(board_.ordinary(), put_back);
  return next_with_source();
}

ProofStep ProofPlanner::next() const {
  if (!board_.said(std::string(kProveCaution) + "start")) {
    ProofStep step{ProofStepKind::caution, start, {}, {}, {}, false, board_.now, "start"};
    for (const ProofUnit& unit : wiring_.units) step.loads.insert(step.loads.end(), unit.at_risk.begin(), unit.at_risk.end());
    return step;
  }
  if (board_.now.running) return next_with_source();
  if (time_over()) return move_to(board_.ordinary(), ProofReason::time_over);
  return next_on_utility();
}

ProofStep ProofPlanner::move_to(const ProofState& state, ProofReason reason) const {
  ProofStep step{ProofStepKind::move, reason, {}, {}, {}, false, state, ""};
  for (const Id<Breaker> breaker : state.off)
    if (std::ranges::find(board_.now.off, breaker) == board_.now.off.end()) step.moves.push_back({{HandleKind::breaker, breaker.value}, kOff});
  for (const std::size_t u : moving_order(state)) {
    if (loses_power(u, state)) step.loads.insert(step.loads.end(), wiring_.units[u].at_risk.begin(), wiring_.units[u].at_risk.end());
    for (const std::size_t p : wiring_.units[u].positions) step.moves.push_back({{HandleKind::position, board_.house.positions[p].id.value}, state.units[u]});
    step.briefly = step.briefly || (state.units[u] == kOff && wiring_.units[u].alone);
  }
  for (const Id<Breaker> breaker : board_.now.off)
    if (std::ranges::find(state.off, breaker) == state.off.end()) step.moves.push_back({{HandleKind::breaker, breaker.value}, kOn});
  return step;
}

/// Units that stand otherwise in that state. To the source in a starting order, what keeps somebody alive first; back the other way round.
std::vector<std::size_t> ProofPlanner::moving_order(const ProofState& state) const {
  std::vector<std::size_t> moving;
  for (std::size_t u = 0; u < state.units.size(); ++u)
    if (state.units[u] != board_.now.units[u]) moving.push_back(u);
  if (!state.on_backup() && !board_.now.on_backup()) return moving;
  std::vector<std::size_t> staying;
  for (std::size_t u = 0; u < state.units.size(); ++u)
    if (state.units[u] == kBackupSide && board_.now.units[u] == kBackupSide) staying.push_back(u);
  moving = backup_order(board_.house, wiring_, moving, staying);
  if (!state.on_backup()) std::ranges::reverse(moving);
  return moving;
}

/// Goes dead with a move to that state, and no caution just before the move said so: that comes before a unit is off for the first time.
bool ProofPlanner::loses_power(std::size_t unit, const ProofState& state) const {
  const auto live = [&](const ProofState& s) { return s.units[unit] == kUtilitySide ? s.utility : s.units[unit] == kBackupSide && s.running && !s.utility; };
  const bool was_off = std::ranges::any_of(board_.states, [&](const ProofState& s) { return s.units[unit] == kOff; });
  return live(board_.now) && !live(state) && (state.units[unit] != kOff || was_off);
}

/// Loads hurt by a power loss that go off with the next move, told once for each unit.
std::optional<ProofStep> ProofPlanner::caution_before(const ProofState& state) const {
  for (std::size_t u = 0; u < state.units.size(); ++u) {
    const ProofUnit& unit = wiring_.units[u];
    const std::string key = board_.house.positions[unit.positions[0]].id.text();
    if (state.units[u] != kOff || unit.at_risk.empty() || board_.said(kProveCaution + key)) continue;
    ProofStep step{ProofStepKind::caution, load_at_risk, {}, {}, unit.at_risk, false, board_.now, key};
    for (const std::size_t p : unit.positions) step.moves.push_back({{HandleKind::position, board_.house.positions[p].id.value}, kOff});
    return step;
  }
  return std::nullopt;
}

}  // namespace backup_detail

bool fits(const ProofStep& step, ProofAnswerKind answer) {
  switch (step.kind) {
    case ProofStepKind::move: {
      const bool only_back = std::ranges::all_of(step.moves, [](const ProofMove& move) { return move.to == kUtilitySide; });
      const bool must = only_back || step.reason == ProofReason::put_back || step.reason == ProofReason::danger;
      return answer == ProofAnswerKind::done || (answer == ProofAnswerKind::skip && !must);
    }
    case ProofStepKind::try_interlock:
      return answer == ProofAnswerKind::blocked || answer == ProofAnswerKind::not_blocked || answer == ProofAnswerKind::skip;
    case ProofStepKind::start_source:
    case ProofStepKind::to_source: return answer == ProofAnswerKind::done || answer == ProofAnswerKind::skip;
    case ProofStepKind::look:
      return answer == ProofAnswerKind::live || answer == ProofAnswerKind::dead || answer == ProofAnswerKind::not_sure || answer == ProofAnswerKind::skip;
    case ProofStepKind::caution:
    case ProofStepKind::to_utility:
    case ProofStepKind::stop_source: return answer == ProofAnswerKind::done;
    case ProofStepKind::done: break;
  }
  return false;
}

ProofStep next_proof_step(const ProofBoard& board) { return board.wiring.panel ? next_panel_step(board) : backup_detail::ProofPlanner(board).next(); }
Series proof_series(const ProofBoard& board) { return backup_detail::ProofPlanner(board).series(); }
ProofProgress proof_progress(const ProofBoard& board) { return board.wiring.panel ? panel_progress(board) : backup_detail::ProofPlanner(board).progress(); }

}  // namespace ohmstead
