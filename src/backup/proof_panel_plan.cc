// What to ask next where the source comes onto a panel as a whole. Method: docs/backup.md.

#include <algorithm>
#include <bit>
#include <cstdlib>

#include "backup/proof_looks.h"
#include "backup/proof_order.h"
#include "backup/proof_panel_verdict.h"
#include "backup/proof_plan.h"
#include "house/index.h"

namespace ohmstead {

using namespace backup_detail;
using enum ProofReason;

namespace {

constexpr int kSureOfHalf = 2;  ///< votes ahead that settle what nothing was expected of

class PanelPlanner {
 public:
  explicit PanelPlanner(const ProofBoard& board) : board_(board), wiring_(board.wiring), panel_(*board.wiring.panel), now_(board.now), verdict_(board) {}

  [[nodiscard]] ProofStep next() const {
    if (!said("start")) return caution(start);
    if (now_.running) return next_with_source();
    if (now_ == board_.ordinary()) return next_ordinary();
    if (const auto due = due_past(); !due.empty() && !board_.said(kProveNoSource)) return now_ == all_off() ? look_at(board_, due) : to_all_off();
    if (verdict_.danger() || board_.said(kProveNoSource)) return home();
    if (now_ == parted()) return next_parted();
    return now_ == let_in(false) ? next_let_in() : home();
  }

  [[nodiscard]] ProofProgress progress() const;

 private:
  // States, in the order in which they come
  [[nodiscard]] ProofState parted() const { return {.utility = false, .units = {}, .off = {}}; }
  /// Every breaker off: what is live now is fed past its breaker.
  [[nodiscard]] ProofState all_off() const {
    ProofState state{.utility = false, .units = {}, .off = panel_.rest};
    for (const Id<Breaker> id : panel_.kept)
      if (row(board_.house, id).open_rule != OpenRule::never) state.off.push_back(id);
    std::ranges::sort(state.off);
    state.let_in = panel_.ways.empty() && !state.off.empty();
    return state;
  }
  [[nodiscard]] ProofState let_in(bool running) const {
    ProofState state = all_off();
    state.running = running;
    return settled(state);
  }
  /// With the source: what the plan keeps is on, and perhaps one circuit more to tell of a leg.
  [[nodiscard]] ProofState with_source(long witness = -1) const {
    ProofState state{.utility = false, .running = true, .units = {}, .off = panel_.rest};
    if (witness >= 0) {
      const Breaker& more = row(board_.house, wiring_.lines[static_cast<std::size_t>(witness)].breaker);
      std::erase_if(state.off, [&](Id<Breaker> id) { return id == more.id || (more.tie && row(board_.house, id).tie == more.tie); });
    }
    return settled(state);
  }
  [[nodiscard]] ProofState settled(ProofState state) const {
    state.let_in = !panel_.ways.empty() || state.running || !state.off.empty();
    std::ranges::sort(state.off);
    return state;
  }

  // Looks that are due
  [[nodiscard]] std::vector<DueLook> due_ordinary() const;
  [[nodiscard]] std::vector<DueLook> due_parted() const;
  [[nodiscard]] std::vector<DueLook> due_past() const;
  [[nodiscard]] std::vector<DueLook> due_with_source(const ProofState& state) const;
  [[nodiscard]] long witness() const;
  [[nodiscard]] bool is_dead_anyway(std::size_t line) const { return verdict_.ordinary(line).against(true); }
  /// One leg of a circuit that as a whole does not work from the source.
  [[nodiscard]] bool in_doubt(std::size_t line) const;

  // Steps
  [[nodiscard]] ProofStep next_ordinary() const;
  [[nodiscard]] ProofStep next_parted() const;
  [[nodiscard]] ProofStep next_let_in() const;
  [[nodiscard]] ProofStep next_with_source() const;
  [[nodiscard]] ProofStep home() const;
  [[nodiscard]] ProofStep to_all_off() const { return move_to(all_off(), ProofStepKind::move, street); }
  [[nodiscard]] const ProofTry* due_try(bool way) const;
  [[nodiscard]] ProofStep try_step(const ProofTry& one) const;
  [[nodiscard]] ProofStep caution(ProofReason reason) const;
  [[nodiscard]] ProofStep move_to(const ProofState& after, ProofStepKind kind, ProofReason reason) const;
  void add_moves_home(ProofStep& step) const;
  [[nodiscard]] bool wants_source() const { return !due_with_source(with_source()).empty() || witness() >= 0; }
  [[nodiscard]] bool wants_away() const {
    return !board_.said(kProveNoSource) && (!due_past().empty() || (!verdict_.danger() && comes_next()));
  }
  [[nodiscard]] bool comes_next() const { return !due_parted().empty() || due_try(false) != nullptr || wants_source(); }
  [[nodiscard]] bool said(const std::string& what) const { return board_.said(kProveCaution + what); }

  const ProofBoard& board_;
  const ProofWiring& wiring_;
  const ProofPanel& panel_;
  const ProofState& now_;
  PanelVerdict verdict_;
};

/// Each leg that is kept, once; and what was dead from the source, for it may be dead anyway.
std::vector<DueLook> PanelPlanner::due_ordinary() const {
  std::vector<DueLook> due;
  unsigned covered = 0;
  const auto add = [&](std::size_t l) {
    const Votes& votes = verdict_.ordinary(l);
    if (!votes.as_expected(true) && !votes.against(true)) add_due(board_, due, board_.ordinary(), {l, votes.count() > 0 ? confirm : on_utility, last_was_dead(board_, l)});
  };
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const ProofLine& line = wiring_.lines[l];
    if (verdict_.on(l).against(true)) add(l);
    if (!line.kept || line.only_in_doubt || is_dead_anyway(l) || board_.point_of(l) < 0 || (line.legs & ~covered) == 0) continue;
    covered |= line.legs;
    add(l);
  }
  return due;
}

std::vector<DueLook> PanelPlanner::due_parted() const {
  std::vector<DueLook> due;
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const ProofLine& line = wiring_.lines[l];
    const Votes& votes = verdict_.street(l);
    if (line.kept && !line.only_in_doubt && !is_dead_anyway(l) && !votes.as_expected(false) && !votes.against(false)) add_due(board_, due, parted(), {l, votes.count() > 0 ? confirm : street});
  }
  return due;
}

/// Something was live from the street: a circuit that is fed past its breaker, or the panel itself? And a circuit that is live from the
/// source with its breaker off: from another breaker, or from the street?
std::vector<DueLook> PanelPlanner::due_past() const {
  std::vector<DueLook> due;
  if (verdict_.past_found()) return due;
  const ProofState off = all_off();
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const bool wanted = (wiring_.lines[l].legs & verdict_.street_legs()) != 0 || verdict_.off(l).against(false);
    const Votes& votes = verdict_.past(l);
    const bool can = std::ranges::find(off.off, wiring_.lines[l].breaker) != off.off.end();
    if (wanted && can && !votes.as_expected(false) && !votes.against(false)) add_due(board_, due, off, {l, votes.count() > 0 ? confirm : street});
  }
  return due;
}

bool PanelPlanner::in_doubt(std::size_t line) const {
  const Votes& votes = verdict_.on(line);
  for (std::size_t whole = 0; whole < wiring_.lines.size(); ++whole)
    if (!wiring_.lines[whole].only_in_doubt && wiring_.lines[whole].breaker == wiring_.lines[line].breaker && verdict_.on(whole).against(true))
      return std::abs(votes.live - votes.dead) < kSureOfHalf;
  return false;
}

std::vector<DueLook> PanelPlanner::due_with_source(const ProofState& state) const {
  std::vector<DueLook> due;
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const ProofLine& line = wiring_.lines[l];
    const bool is_on = std::ranges::find(state.off, line.breaker) == state.off.end();
    const Votes& votes = is_on ? verdict_.on(l) : verdict_.off(l);
    if (line.kept && line.only_in_doubt && in_doubt(l)) add_due(board_, due, state, {l, which_half});
    if (line.only_in_doubt || is_dead_anyway(l) || votes.as_expected(is_on) || votes.against(is_on)) continue;
    const ProofReason first = !line.kept ? (is_on ? which_leg : left_off) : on_backup;
    add_due(board_, due, state, {l, votes.count() > 0 ? confirm : first, is_on && last_was_dead(board_, l)});
  }
  return due;
}

/// A circuit that the plan leaves off, on a leg that may be dead: is it dead too when it is on? -1: none is to be asked.
long PanelPlanner::witness() const {
  for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
    const ProofLine& line = wiring_.lines[l];
    if (line.kept || (line.legs & verdict_.doubtful_legs()) == 0 || std::popcount(line.legs) != 1 || is_dead_anyway(l)) continue;
    if (verdict_.off(l).against(false) || verdict_.on(l).against(true)) continue;
    for (const DueLook& look : due_with_source(with_source(static_cast<long>(l))))
      if (look.line == l) return static_cast<long>(l);
  }
  return -1;
}

const ProofTry* PanelPlanner::due_try(bool way) const {
  for (const ProofTry& one : panel_.tries)
    if (one.way == way && verdict_.tried(one) == TryResult::not_yet) return &one;
  return nullptr;
}

ProofStep PanelPlanner::try_step(const ProofTry& one) const {
  return {ProofStepKind::try_interlock, interlock, {{one.tried, kOn}}, {}, {}, false, now_, proof_try_name(one)};
}

ProofStep PanelPlanner::caution(ProofReason reason) const {
  ProofStep step{ProofStepKind::caution, reason, {}, {}, {}, false, now_, reason == start ? "start" : reason == source ? "source" : "main"};
  if (reason == source) return step;
  for (const Load& load : board_.house.loads)
    if (load.hurt_by_power_loss) step.loads.push_back(load.id);
  return step;
}

ProofStep PanelPlanner::next_ordinary() const {
  if (!board_.said(kProveNoSource))
    if (const ProofTry* one = due_try(true)) return try_step(*one);
  if (const auto due = due_ordinary(); !due.empty()) return look_at(board_, due);
  if (!wants_away()) return {ProofStepKind::done, finished, {}, {}, {}, false, now_, ""};
  if (ProofStep main = caution(load_at_risk); !main.loads.empty() && !said("main")) return main;
  return due_past().empty() || !due_parted().empty() ? move_to(parted(), ProofStepKind::move, street) : to_all_off();
}

ProofStep PanelPlanner::next_parted() const {
  if (const auto due = due_parted(); !due.empty()) return look_at(board_, due);
  if (due_try(false) == nullptr && !wants_source()) return home();
  return let_in(false) == parted() ? next_let_in() : move_to(let_in(false), ProofStepKind::move, due_try(false) != nullptr ? interlock : on_backup);
}

ProofStep PanelPlanner::next_let_in() const {
  if (const ProofTry* one = due_try(false)) return try_step(*one);
  if (!wants_source()) return home();
  if (!said("source")) return caution(source);
  ProofState after = now_;
  after.running = after.let_in = true;
  return {ProofStepKind::start_source, on_backup, {}, {}, {}, false, after, ""};
}

ProofStep PanelPlanner::next_with_source() const {
  if (now_.utility) {
    ProofState after = now_;
    after.running = false;
    return {ProofStepKind::stop_source, put_back, {}, {}, {}, false, after, ""};
  }
  if (verdict_.danger() || board_.said(kProveNoSource)) return home();
  const bool joined = now_ != let_in(true);
  if (joined)
    if (const auto due = due_with_source(now_); !due.empty()) return look_at(board_, due);
  const long more = witness();
  const ProofState next = !due_with_source(with_source()).empty() || more < 0 ? with_source() : with_source(more);
  if (!wants_source() || next == now_) return home();
  return move_to(next, joined ? ProofStepKind::move : ProofStepKind::to_source, more >= 0 && next == with_source(more) ? which_leg : on_backup);
}

/// Everything as on an ordinary day; the source, if it runs, is stopped after that.
ProofStep PanelPlanner::home() const {
  ProofState after = board_.ordinary();
  after.running = now_.running;
  return move_to(after, now_.running ? ProofStepKind::to_utility : ProofStepKind::move, verdict_.danger() ? ProofReason::danger : put_back);
}

void PanelPlanner::add_moves_home(ProofStep& step) const {
  const auto breaker = [](Id<Breaker> id, Throw to) { return ProofMove{{HandleKind::breaker, id.value}, to}; };
  if (now_.running)
    for (const Id<Breaker> id : let_in(true).off)
      if (std::ranges::find(now_.off, id) == now_.off.end()) step.moves.push_back(breaker(id, kOff));
  if (now_.let_in)
    for (const ProofMove& way : panel_.ways) step.moves.push_back({way.handle, kOff});
  for (const ProofMove& part : panel_.part) step.moves.push_back({part.handle, kUtilitySide});
  std::vector<Id<Breaker>> on = now_.running ? let_in(true).off : now_.off;
  for (const Id<Breaker> id : on) step.moves.push_back(breaker(id, kOn));
}

ProofStep PanelPlanner::move_to(const ProofState& after, ProofStepKind kind, ProofReason reason) const {
  ProofStep step{kind, reason, {}, {}, {}, false, after, ""};
  if (after.utility) {
    add_moves_home(step);
    return step;
  }
  if (now_.utility) step.moves = panel_.part;
  for (const Id<Breaker> id : after.off)
    if (std::ranges::find(now_.off, id) == now_.off.end()) step.moves.push_back({{HandleKind::breaker, id.value}, kOff});
  if (!after.let_in && now_.let_in)
    for (const ProofMove& way : panel_.ways) step.moves.push_back({way.handle, kOff});
  if (after.let_in && !now_.let_in) step.moves.insert(step.moves.end(), panel_.ways.begin(), panel_.ways.end());
  std::vector<Id<Breaker>> on;
  for (const Id<Breaker> id : now_.off)
    if (std::ranges::find(after.off, id) == after.off.end()) on.push_back(id);
  for (const Id<Breaker> id : breaker_order(board_.house, wiring_, on)) step.moves.push_back({{HandleKind::breaker, id.value}, kOn});
  return step;
}

ProofProgress PanelPlanner::progress() const {
  ProofProgress progress{.looks = static_cast<int>(board_.readings.size())};
  progress.looks_left = static_cast<int>(due_ordinary().size());
  if (now_.running && now_.utility) progress.moves_left = 1;
  if (board_.said(kProveNoSource) || verdict_.danger()) return progress;
  for (const ProofTry& one : panel_.tries) progress.moves_left += verdict_.tried(one) == TryResult::not_yet ? 1 : 0;
  progress.looks_left += static_cast<int>(due_parted().size() + due_with_source(with_source()).size());
  if (now_.utility) progress.moves_left += !now_.running && wants_away() ? 6 : 0;  // parted, let in, started, joined, back, stopped
  else progress.moves_left += now_.running ? (now_ == let_in(true) ? 3 : 2) : now_ == parted() && let_in(false) != parted() ? 5 : 4;
  if (now_.utility && !now_.running && wants_away() && let_in(false) == parted()) --progress.moves_left;
  return progress;
}

}  // namespace

ProofStep next_panel_step(const ProofBoard& board) { return PanelPlanner(board).next(); }
ProofProgress panel_progress(const ProofBoard& board) { return PanelPlanner(board).progress(); }

}  // namespace ohmstead
