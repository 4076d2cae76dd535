#include "backup/proving.h"

#include <algorithm>
#include <optional>

#include "backup/proof_start.h"
#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

enum class ActionKind { setting, move, look };

/// One answer, as far as taking it back needs to know it.
struct Action {
  ActionKind kind = ActionKind::look;
  Id<Round> round;
  Id<Observation> observation;
  Id<Setting> setting;
};

/// What was answered before this run, oldest first: rounds in which something stands differently than in the one before are moves.
std::vector<Action> actions_in(const ProofBoard& board) {
  std::vector<Action> actions;
  ProofState before = board.ordinary();
  for (std::size_t i = 0; i < board.rounds.size(); ++i) {
    const Round& round = board.house.rounds[board.rounds[i]];
    if (board.states[i] != before) actions.push_back({ActionKind::move, round.id, {}, {}});
    before = board.states[i];
    for (const Observation& seen : board.house.observations)
      if (seen.round == round.id && !seen.withdrawn) actions.push_back({ActionKind::look, round.id, seen.id, {}});
  }
  return actions;
}

}  // namespace

struct ProvingSession::State {
  State(House start, const Feeds& feeds, Id<Source> source) : house(std::move(start)), wiring(read_proof_wiring(house, feeds, source)) {
    actions = actions_in(read_proof_board(house, wiring));
    refresh();
  }

  House house;
  ProofWiring wiring;
  ProofStep step;
  ProofState now;
  int round = -1;  ///< place in house.rounds where a look belongs; -1: a new one
  std::vector<Action> actions;
  std::string time;

  void refresh() {
    const ProofBoard board = read_proof_board(house, wiring, time);
    now = board.now;
    round = board.round < 0 ? -1 : static_cast<int>(board.rounds[static_cast<std::size_t>(board.round)]);
    step = next_proof_step(board);
  }

  [[nodiscard]] ProofState ordinary() const { return {.units = std::vector<Throw>(wiring.units.size(), kUtilitySide)}; }

  void set(const std::string& name, std::string_view value = "yes") {
    if (std::ranges::find(house.settings, name, &Setting::name) != house.settings.end()) return;
    house.settings.push_back({Id<Setting>::fresh(), name, std::string(value)});
    actions.push_back({ActionKind::setting, {}, {}, house.settings.back().id});
  }

  /// The round under way ends; one in this state begins.
  Id<Round> begin_round(const ProofState& state, const ProofAnswer& answer) {
    finish_last();
    Round next{Id<Round>::fresh(), RoundKind::proof, answer.at, answer.who, state == ordinary()};
    next.utility = state.utility;
    if (state.running) next.source = wiring.source;
    const auto opened = [&](const HandleRef& handle, int stands) { house.opened.push_back({Id<Opened>::fresh(), next.id, handle, stands}); };
    if (!state.utility)
      for (const HandleRef& main : wiring.mains) opened(main, kOff);
    for (std::size_t u = 0; u < state.units.size(); ++u)
      if (state.units[u] != kUtilitySide)
        for (const std::size_t p : wiring.units[u].positions) opened({HandleKind::position, house.positions[p].id.value}, state.units[u]);
    if (wiring.panel && !state.utility)
      for (const ProofMove& part : wiring.panel->part) opened(part.handle, part.to);
    if (wiring.panel && state.let_in)
      for (const ProofMove& way : wiring.panel->ways) opened(way.handle, way.to);
    for (const Id<Breaker> breaker : state.off) opened({HandleKind::breaker, breaker.value}, kOff);
    house.rounds.push_back(next);
    return next.id;
  }

  void finish_last() {
    const ProofBoard board = read_proof_board(house, wiring);
    if (!board.rounds.empty()) house.rounds[board.rounds.back()].finished = true;
  }

  void take_look(const ProofAnswer& answer) {
    const Id<Round> in = round < 0 ? begin_round(ordinary(), answer) : house.rounds[static_cast<std::size_t>(round)].id;
    const Seen seen = answer.kind == ProofAnswerKind::live   ? Seen::live
                      : answer.kind == ProofAnswerKind::dead ? Seen::dead
                      : answer.kind == ProofAnswerKind::skip ? Seen::skipped
                                                             : Seen::not_sure;
    house.observations.push_back({Id<Observation>::fresh(), in, step.point, seen, answer.method, answer.at, false});
    actions.push_back({ActionKind::look, in, house.observations.back().id, {}});
  }

  void take_move(const ProofAnswer& answer) {
    if (answer.kind == ProofAnswerKind::done) {
      actions.push_back({ActionKind::move, begin_round(step.after, answer), {}, {}});
      return;
    }
    if (wiring.panel) return set(kProveNoSource);  // without it nothing more can be proved
    HandleRef stuck = answer.handle;
    const auto can_be_meant = [&](const HandleRef& handle) {
      return std::ranges::any_of(step.moves, [&](const ProofMove& move) { return move.handle == handle && move.to != kUtilitySide; });
    };
    if (!can_be_meant(stuck))
      for (const ProofMove& move : step.moves)
        if (move.to != kUtilitySide && (stuck = move.handle, true)) break;
    if (stuck.kind == HandleKind::position) set(kProveStuck + Id<Position>{stuck.id}.text());
    else
      for (const ProofUnit& unit : wiring.units)  // the breaker of a position: that position is left out
        for (const std::size_t p : unit.positions)
          if (house.positions[p].breaker.value == stuck.id) set(kProveStuck + house.positions[p].id.text());
  }

  /// The result stays in the record until everything is proved anew.
  void take_try(const ProofAnswer& answer) {
    if (answer.kind == ProofAnswerKind::skip) return set(kProveNoSource);
    set(kProveTry + step.caution, text_of(answer.kind));
  }

  void take_source(const ProofAnswer& answer) {
    if (answer.kind == ProofAnswerKind::skip) set(kProveNoSource);
    else actions.push_back({ActionKind::move, begin_round(step.after, answer), {}, {}});
  }

  /// A round in which something was seen stays, marked; one in which nothing was is as if never begun.
  void take_back_move(Id<Round> id) {
    if (std::ranges::any_of(house.observations, [&](const Observation& seen) { return seen.round == id; })) {
      house.settings.push_back({Id<Setting>::fresh(), kProveUndone + id.text(), "yes"});
      row(house, id).finished = true;
    } else {
      std::erase_if(house.opened, [&](const Opened& opened) { return opened.round == id; });
      std::erase_if(house.rounds, [&](const Round& round_row) { return round_row.id == id; });
    }
    const ProofBoard board = read_proof_board(house, wiring);
    if (!board.rounds.empty()) house.rounds[board.rounds.back()].finished = board.states.back() == board.ordinary();
  }
};

ProvingSession::ProvingSession(House house, Feeds feeds, Id<Source> source) : state_(std::make_unique<State>(std::move(house), feeds, source)) {}
ProvingSession::~ProvingSession() = default;
ProvingSession::ProvingSession(ProvingSession&&) noexcept = default;
ProvingSession& ProvingSession::operator=(ProvingSession&&) noexcept = default;

const House& ProvingSession::house() const { return state_->house; }
const ProofStep& ProvingSession::step() const { return state_->step; }
ProofState ProvingSession::now() const { return state_->now; }
const ProofWiring& ProvingSession::wiring() const { return state_->wiring; }
ProofProgress ProvingSession::progress() const { return proof_progress(read_proof_board(state_->house, state_->wiring, state_->time)); }

void ProvingSession::answer(const ProofAnswer& answer) {
  const ProofStep& step = state_->step;
  if (!fits(step, answer.kind))
    throw Error(ErrorKind::invalid_input, "The step '" + std::string(text_of(step.kind)) + "' cannot be answered with '" +
                                              std::string(text_of(answer.kind)) + "'; nothing was recorded.");
  if (answer.at.size() > kLongestName || answer.who.size() > kLongestName)
    throw Error(ErrorKind::invalid_input, "The time or the name given with this answer is too long; nothing was recorded.");
  switch (step.kind) {
    case ProofStepKind::caution: state_->set(kProveCaution + step.caution); break;
    case ProofStepKind::look: state_->take_look(answer); break;
    case ProofStepKind::move: state_->take_move(answer); break;
    case ProofStepKind::try_interlock: state_->take_try(answer); break;
    case ProofStepKind::start_source:
    case ProofStepKind::to_source:
    case ProofStepKind::to_utility:
    case ProofStepKind::stop_source: state_->take_source(answer); break;
    case ProofStepKind::done: break;
  }
  state_->refresh();
}

bool ProvingSession::undo() {
  if (state_->actions.empty()) return false;
  const Action last = state_->actions.back();
  state_->actions.pop_back();
  if (last.kind == ActionKind::look) row(state_->house, last.observation).withdrawn = true;
  else if (last.kind == ActionKind::move) state_->take_back_move(last.round);
  else std::erase_if(state_->house.settings, [&](const Setting& setting) { return setting.id == last.setting; });
  state_->refresh();
  return true;
}

void ProvingSession::now_is(const std::string& at) {
  state_->time = at;
  state_->refresh();
}

void ProvingSession::forget_skipped() {
  std::erase_if(state_->house.settings, [](const Setting& setting) { return setting.name.starts_with(kProveStuck) || setting.name == kProveNoSource; });
  state_->refresh();
}

}  // namespace ohmstead
