#include "trace/session.h"

#include <algorithm>
#include <optional>
#include <set>

#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

enum class ActionKind { setting, open, look, close };

/// One answer, as far as taking it back needs to know it.
struct Action {
  ActionKind kind = ActionKind::look;
  Id<Round> round;
  Id<Observation> observation;
  Id<Setting> setting;  ///< also with close: the breaker stays off
};

Id<Breaker> breaker_of(const HandleRef& handle) {
  return {handle.kind == HandleKind::breaker ? handle.id : 0};
}

}  // namespace

struct TraceSession::State {
  explicit State(House start) : house(std::move(start)) {
    list_actions();
    refresh();
  }

  House house;
  Conclusions conclusions;
  Step step;
  std::optional<Board> board;
  std::vector<Action> actions;

  void refresh() {
    conclusions = conclude_units(house);
    board.emplace(read_board(house, conclusions));
    step = next_step(*board);
  }

  /// What was answered before this run, oldest first. The order of settings is not recorded.
  void list_actions() {
    actions.clear();
    std::set<Id<Round>> with_handles;
    for (const Opened& opened : house.opened) with_handles.insert(opened.round);
    for (const Round& round : house.rounds) {
      if (round.kind != RoundKind::trace) continue;
      const bool opened = with_handles.contains(round.id);
      if (opened) actions.push_back({ActionKind::open, round.id, {}, {}});
      for (const Observation& seen : house.observations)
        if (seen.round == round.id && !seen.withdrawn) actions.push_back({ActionKind::look, round.id, seen.id, {}});
      if (opened && round.finished) actions.push_back({ActionKind::close, round.id, {}, {}});
    }
  }

  Id<Setting> set(const std::string& name) {
    const auto found = std::ranges::find(house.settings, name, &Setting::name);
    if (found != house.settings.end()) return found->id;
    house.settings.push_back({Id<Setting>::fresh(), name, "yes"});
    return house.settings.back().id;
  }

  /// A new round: the given handles are open, and those that would not close again.
  Round& start_round(const Answer& answer, const std::vector<HandleRef>& handles) {
    const Round round{Id<Round>::fresh(), RoundKind::trace, answer.at, answer.who, handles.empty()};
    std::vector<HandleRef> all = handles;
    for (const Breaker& breaker : house.breakers)
      if (board->settings.contains(kStaysOffPrefix + breaker.id.text()))
        all.push_back({HandleKind::breaker, breaker.id.value});
    for (const HandleRef& handle : all) house.opened.push_back({Id<Opened>::fresh(), round.id, handle});
    house.rounds.push_back(round);
    return house.rounds.back();
  }

  void take_open(const Answer& answer) {
    if (answer.kind == AnswerKind::skip) {
      const Id<Setting> skipped = set(kSkipPrefix + breaker_of(step.handles.front()).text());
      actions.push_back({ActionKind::setting, {}, {}, skipped});
      return;
    }
    actions.push_back({ActionKind::open, start_round(answer, step.handles).id, {}, {}});
  }

  void take_close(const Answer& answer) {
    Round& round = house.rounds[static_cast<std::size_t>(board->round)];
    round.finished = true;
    Action action{ActionKind::close, round.id, {}, {}};
    if (answer.kind == AnswerKind::skip) action.setting = set(kStaysOffPrefix + breaker_of(step.handles.front()).text());
    actions.push_back(action);
  }

  void take_look(const Answer& answer) {
    if (board->round < 0) (void)start_round(answer, {});
    const Id<Round> round = board->round < 0 ? house.rounds.back().id : house.rounds[static_cast<std::size_t>(board->round)].id;
    const Seen seen = answer.kind == AnswerKind::live   ? Seen::live
                      : answer.kind == AnswerKind::dead ? Seen::dead
                      : answer.kind == AnswerKind::skip ? Seen::skipped
                                                        : Seen::not_sure;
    house.observations.push_back({Id<Observation>::fresh(), round, step.point, seen, answer.method, answer.at, false});
    actions.push_back({ActionKind::look, round, house.observations.back().id, {}});
  }

  void take_caution() {
    const bool start = step.reason == StepReason::start;
    const Id<Setting> read = set(start ? kCautionStart : kCautionPrefix + breaker_of(step.handles.front()).text());
    actions.push_back({ActionKind::setting, {}, {}, read});
  }

  void erase_setting(Id<Setting> id) {
    std::erase_if(house.settings, [&](const Setting& setting) { return setting.id == id; });
  }

  /// A round in which something was seen stays; one in which nothing was is as if never begun.
  void take_back_open(Id<Round> id) {
    if (std::ranges::any_of(house.observations, [&](const Observation& seen) { return seen.round == id; })) {
      row(house, id).finished = true;
      return;
    }
    std::erase_if(house.opened, [&](const Opened& opened) { return opened.round == id; });
    std::erase_if(house.rounds, [&](const Round& round) { return round.id == id; });
  }

  void take_back(const Action& action) {
    switch (action.kind) {
      case ActionKind::setting: return erase_setting(action.setting);
      case ActionKind::open: return take_back_open(action.round);
      case ActionKind::look: row(house, action.observation).withdrawn = true; return;
      case ActionKind::close:
        row(house, action.round).finished = false;
        if (action.setting) erase_setting(action.setting);
        return;
    }
  }
};

TraceSession::TraceSession(House house) : state_(std::make_unique<State>(std::move(house))) {}
TraceSession::~TraceSession() = default;
TraceSession::TraceSession(TraceSession&&) noexcept = default;
TraceSession& TraceSession::operator=(TraceSession&&) noexcept = default;

const House& TraceSession::house() const { return state_->house; }
const Step& TraceSession::step() const { return state_->step; }
Progress TraceSession::progress() const { return progress_of(*state_->board); }
const Conclusions& TraceSession::conclusions() const { return state_->conclusions; }

void TraceSession::answer(const Answer& answer) {
  const StepKind kind = state_->step.kind;
  if (!fits(kind, answer.kind))
    throw Error(ErrorKind::invalid_input, "The step '" + std::string(text_of(kind)) + "' cannot be answered with '" +
                                              std::string(text_of(answer.kind)) + "'; nothing was recorded.");
  if (answer.at.size() > kLongestName || answer.who.size() > kLongestName)
    throw Error(ErrorKind::invalid_input, "The time or the name given with this answer is too long; nothing was recorded.");
  switch (kind) {
    case StepKind::caution: state_->take_caution(); break;
    case StepKind::open: state_->take_open(answer); break;
    case StepKind::close: state_->take_close(answer); break;
    case StepKind::look:
    case StepKind::ask_dead: state_->take_look(answer); break;
    case StepKind::done: break;
  }
  state_->refresh();
}

bool TraceSession::undo() {
  if (state_->actions.empty()) return false;
  const Action last = state_->actions.back();
  state_->actions.pop_back();
  state_->take_back(last);
  state_->refresh();
  return true;
}

void TraceSession::withdraw(Id<Observation> wrong) {
  row(state_->house, wrong).withdrawn = true;
  std::erase_if(state_->actions, [&](const Action& action) { return action.observation == wrong; });
  state_->refresh();
}

void TraceSession::adopt(House next) {
  state_->house = std::move(next);
  state_->list_actions();
  state_->refresh();
}

void TraceSession::forget_skipped() {
  std::erase_if(state_->house.settings, [](const Setting& setting) { return setting.name.starts_with(kSkipPrefix); });
  std::erase_if(state_->actions, [&](const Action& action) {
    return action.kind == ActionKind::setting && find_row(state_->house, action.setting) == nullptr;
  });
  state_->refresh();
}

}  // namespace ohmstead
