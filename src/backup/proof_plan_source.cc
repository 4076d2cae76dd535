// The part of a proving session in which the source runs.

#include <algorithm>
#include <cstdlib>

#include "backup/proof_planner.h"

namespace ohmstead::backup_detail {

using enum ProofReason;

namespace {
constexpr int kSureOfNoPlan = 2;  ///< votes ahead that settle what nothing was expected of
}  // namespace

bool ProofPlanner::back_alarm() const {
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
    if (verdict_.back(l).against(false)) return true;
  return false;
}

ProofState ProofPlanner::main_off() const {
  ProofState state = board_.ordinary();
  state.utility = false, state.running = true;
  return state;
}

bool ProofPlanner::panel_alarm() const {
  return std::ranges::any_of(wiring_.panel_lines, [&](std::size_t l) { return verdict_.backup(l).against(false); });
}

/// A circuit that may be off for a short time only has been off longer, and can be brought back.
bool ProofPlanner::time_over() const {
  const auto off_too = [&](const ProofState& state) {
    for (std::size_t u = 0; u < state.units.size(); ++u)
      if (wiring_.units[u].alone && (state.units[u] == kOff || (!state.utility && state.units[u] != kBackupSide))) return true;
    return false;
  };
  return board_.lasting(off_too) > kProofBriefSeconds;
}

/// What must be dead with the main off and nothing on backup: for each leg one circuit that was seen live before.
std::vector<std::size_t> ProofPlanner::back_lines(bool if_all_is_right) const {
  std::vector<std::size_t> lines;
  unsigned covered = 0, wanted = 0;
  for (const ProofLine& line : wiring_.lines)
    if (line.unit >= 0) wanted |= line.legs;
  const auto add = [&](std::size_t l) {
    const Cutter& cutter = verdict_.cutter(l);
    const bool seen_live = if_all_is_right || std::ranges::find(cutter.open, kNeverFed) == cutter.open.end();
    if (!seen_live || board_.point_of(l) < 0 || (wiring_.lines[l].legs & wanted & ~covered) == 0) return;
    covered |= wiring_.lines[l].legs;
    lines.push_back(l);
  };
  for (const std::size_t l : wiring_.panel_lines) add(l);
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
    if (wiring_.lines[l].unit >= 0 && (if_all_is_right || verdict_.cutter(l).right())) add(l);
  return lines;
}

std::vector<DueLook> ProofPlanner::due_back() const {
  std::vector<DueLook> due;
  for (const std::size_t l : back_lines(false))
    if (!verdict_.back(l).as_expected(false) && !verdict_.back(l).against(false))
      add_due(due, main_off(), l, verdict_.back(l).count() > 0 ? confirm : nothing_live);
  return due;
}

/// Units whose circuit is known go on backup; of one that stays live when its position is off, the breaker goes off first, so that
/// the source cannot reach the panel through it.
std::optional<ProofState> ProofPlanner::backup_state() const {
  ProofState state = main_off();
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const Cutter& cutter = verdict_.cutter(l);
    const int unit = verdict_.unit_on_backup(l);
    const bool carried_line = wiring_.lines[l].unit >= 0 || cutter.fault();
    if (unit < 0 || !carried_line || wiring_.lines[l].only_in_doubt || board_.is_stuck(static_cast<std::size_t>(unit))) continue;
    const bool never = wiring_.units[static_cast<std::size_t>(unit)].never;  // it cannot be off by itself, and is not known by that
    if (!cutter.sure && !never) continue;
    state.units[static_cast<std::size_t>(unit)] = kBackupSide;
    if (cutter.fault() && cutter.is == kNothingCuts)
      for (const std::size_t p : wiring_.units[static_cast<std::size_t>(unit)].positions)
        if (const Id<Breaker> breaker = board_.house.positions[p].breaker; std::ranges::find(state.off, breaker) == state.off.end())
          state.off.push_back(breaker);
  }
  std::ranges::sort(state.off);
  return state.on_backup() ? std::optional(state) : std::nullopt;
}

/// One leg of a unit whose circuit as a whole does not work from the source.
void ProofPlanner::add_halves(std::vector<DueLook>& due, const ProofState& state) const {
  for (const ProofUnit& unit : wiring_.units) {
    const bool dead = std::ranges::any_of(unit.lines, [&](std::size_t l) { return !wiring_.lines[l].only_in_doubt && verdict_.backup(l).against(true); });
    for (const std::size_t l : unit.lines)
      if (dead && wiring_.lines[l].only_in_doubt && state.units[static_cast<std::size_t>(wiring_.lines[l].unit)] == kBackupSide &&
          std::abs(verdict_.backup(l).live - verdict_.backup(l).dead) < kSureOfNoPlan)
        add_due(due, state, l, which_half);
  }
}

std::vector<DueLook> ProofPlanner::due_backup(const ProofState& state) const {
  std::vector<DueLook> due;
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const int unit = verdict_.unit_on_backup(l);
    const Votes& votes = verdict_.backup(l);
    if (unit < 0 || wiring_.lines[l].only_in_doubt || state.units[static_cast<std::size_t>(unit)] != kBackupSide) continue;
    const int cutter = verdict_.cutter(l).is;
    const bool nothing_expected = verdict_.cutter(l).fault() && cutter < 0;
    const bool settled = nothing_expected ? std::abs(votes.live - votes.dead) >= kSureOfNoPlan : votes.as_expected(true) || votes.against(true);
    if (!settled) add_due(due, state, l, votes.count() > 0 ? confirm : on_backup, last_was_dead(l));
  }
  for (const std::size_t l : wiring_.panel_lines) {
    const Cutter& cutter = verdict_.cutter(l);
    const bool seen_live = std::ranges::find(cutter.open, kNeverFed) == cutter.open.end();
    if (cutter.fault() || !seen_live) continue;  // it is carried after all, or says nothing
    const Votes& votes = verdict_.backup(l);
    if (!votes.as_expected(false) && !votes.against(false)) add_due(due, state, l, votes.count() > 0 ? confirm : not_the_panel);
  }
  add_halves(due, state);
  return due;
}

bool ProofPlanner::wants_source() const {
  if (board_.said(kProveNoSource) || back_alarm()) return false;
  const auto state = backup_state();
  return state && (!due_backup(*state).empty() || !due_back().empty());
}

ProofStep ProofPlanner::next_with_source() const {
  const auto step = [&](ProofStepKind kind, ProofReason reason, const ProofState& after) { return ProofStep{kind, reason, {}, {}, {}, false, after, ""}; };
  ProofState after = board_.now;
  if (!board_.now.running) {
    if (!wants_source()) return step(ProofStepKind::done, finished, after);
    if (!board_.said(std::string(kProveCaution) + "source")) {
      ProofStep caution = step(ProofStepKind::caution, source, after);
      caution.caution = "source";
      return caution;
    }
    after.running = true;
    return step(ProofStepKind::start_source, on_backup, after);
  }
  if (!board_.now.utility) return next_main_off();
  if (!wants_source()) {
    after.running = false;
    return step(ProofStepKind::stop_source, put_back, after);
  }
  if (!board_.said(std::string(kProveCaution) + "main")) {
    ProofStep caution = step(ProofStepKind::caution, load_at_risk, after);
    caution.caution = "main";
    for (const Load& load : board_.house.loads)
      if (load.hurt_by_power_loss) caution.loads.push_back(load.id);
    if (!caution.loads.empty()) return caution;
  }
  after.utility = false;
  ProofStep off = step(ProofStepKind::to_source, nothing_live, after);
  for (const HandleRef& main : wiring_.mains) off.moves.push_back({main, kOff});
  return off;
}

ProofStep ProofPlanner::next_main_off() const {
  const bool backfed = back_alarm(), danger = backfed || panel_alarm();
  const auto backup = backfed ? std::nullopt : backup_state();
  const bool backup_due = backup && !due_backup(*backup).empty();
  if (board_.now.on_backup()) {
    if (!backfed)
      if (const auto due = due_backup(board_.now); !due.empty()) return look_at(due);
    if (backup_due && *backup != board_.now) return move_to(*backup, on_backup);
    return move_to(main_off(), danger ? ProofReason::danger : put_back);
  }
  if (!backfed && !(backup_due && time_over()))
    if (const auto due = due_back(); !due.empty()) return look_at(due);
  if (backup_due) return move_to(*backup, on_backup);
  ProofState after = board_.ordinary();
  after.running = true;
  ProofStep step{ProofStepKind::to_utility, danger ? ProofReason::danger : put_back, {}, {}, {}, false, after, ""};
  for (const HandleRef& main : wiring_.mains) step.moves.push_back({main, kOn});
  return step;
}

/// Start, main off, to backup, to utility, main on, stop: those that are left.
int ProofPlanner::moves_with_source(bool looks_left) const {
  if (!board_.now.running) return looks_left ? 6 : 0;
  if (board_.now.on_backup()) return 3;
  if (board_.now.utility) return looks_left ? 5 : 1;
  return looks_left ? 4 : 2;
}

ProofProgress ProofPlanner::progress() const {
  ProofProgress progress{.looks = static_cast<int>(board_.readings.size())};
  for (const SeriesRound& round : series_) {
    const ProofState state = with_off(round.off);
    std::vector<DueLook> due;
    add_planned(due, state);
    progress.looks_left += static_cast<int>(due.size());
    progress.moves_left += !due.empty() && state != board_.now ? 1 : 0;
  }
  const auto not_seen_live = [&](std::size_t l) { return std::ranges::find(verdict_.cutter(l).open, kNeverFed) != verdict_.cutter(l).open.end() ? 1 : 0; };
  int with_source = 0;
  for (const std::size_t l : wiring_.panel_lines) progress.looks_left += not_seen_live(l), with_source += verdict_.backup(l).count() == 0 ? 1 : 0;
  for (std::size_t u = 0; u < wiring_.units.size(); ++u)
    for (const std::size_t l : wiring_.units[u].lines) {
      if (wiring_.lines[l].only_in_doubt) continue;
      if (!board_.may_be_off(u)) progress.looks_left += not_seen_live(l);
      with_source += verdict_.backup(l).count() == 0 && !board_.is_stuck(u) ? 1 : 0;
    }
  for (const std::size_t l : back_lines(true)) with_source += verdict_.back(l).count() == 0 ? 1 : 0;
  if (board_.said(kProveNoSource)) with_source = 0;
  progress.looks_left += with_source;
  const bool some_off = progress.moves_left > 0 || (board_.now.utility && !board_.now.all_on_utility());
  progress.moves_left += (some_off && !board_.now.running ? 1 : 0) + moves_with_source(with_source > 0);
  return progress;
}

}  // namespace ohmstead::backup_detail
