#include "trace/session.h"

#include <algorithm>
#include <optional>
#include <set>

#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

enum class ActionKind { setting, open, look, close, lamp_taken };

/// One answer, as far as taking it back needs to know it.
struct Action {
  ActionKind kind = ActionKind::look;
  Id<Round> round;
  Id<Observation> observation;
  Id<Setting> setting;  ///< also with close: the breaker stays off
  Id<Round> before;     ///< with open: the round that ended with it, handles still open
  Id<Point> lamp;       ///< lamp_taken: the receptacle it was in
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

  [[nodiscard]] std::vector<HandleRef> opened_on_purpose(Id<Round> round) const {
    std::vector<HandleRef> handles;
    for (const Opened& opened : house.opened)
      if (opened.round == round && !stays_off(opened.handle)) handles.push_back(opened.handle);
    return handles;
  }
  static bool shares_one(const std::vector<HandleRef>& some, const std::vector<HandleRef>& other) {
    return std::ranges::any_of(some, [&](const HandleRef& handle) { return std::ranges::find(other, handle) != other.end(); });
  }

  /// What was answered before this run, oldest first. The order of settings is not recorded.
  void list_actions() {
    actions.clear();
    std::set<Id<Round>> with_handles;
    Id<Round> before;
    std::vector<HandleRef> handles_before;  ///< of the round before, if it is finished
    for (const Opened& opened : house.opened) with_handles.insert(opened.round);
    for (const Round& round : house.rounds) {
      if (round.kind != RoundKind::trace) continue;
      const bool opened = with_handles.contains(round.id);
      const auto handles = opened ? opened_on_purpose(round.id) : std::vector<HandleRef>{};
      const bool goes_on = shares_one(handles, handles_before);
      if (goes_on) actions.pop_back();  // it was not closed, but went on with other handles
      if (opened) actions.push_back({ActionKind::open, round.id, {}, {}, goes_on ? before : Id<Round>{}});
      if (opened) before = round.id, handles_before = round.finished ? handles : std::vector<HandleRef>{};
      for (const Observation& seen : house.observations)
        if (seen.round == round.id && !seen.withdrawn) actions.push_back({ActionKind::look, round.id, seen.id, {}});
      if (opened && round.finished) actions.push_back({ActionKind::close, round.id, {}, {}});
    }
  }

  [[nodiscard]] bool stays_off(const HandleRef& handle) const {
    return std::ranges::find(house.settings, kStaysOffPrefix + breaker_of(handle).text(), &Setting::name) != house.settings.end();
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
      if (stays_off({HandleKind::breaker, breaker.id.value}))
        all.push_back({HandleKind::breaker, breaker.id.value});
    for (const HandleRef& handle : all) house.opened.push_back({Id<Opened>::fresh(), round.id, handle});
    house.rounds.push_back(round);
    return house.rounds.back();
  }

  /// The breaker that a skip is about.
  [[nodiscard]] HandleRef meant(const Answer& answer) const {
    const bool there = std::ranges::find(step.handles, answer.handle) != step.handles.end();
    return there ? answer.handle : step.handles.front();
  }

  void take_open(const Answer& answer) {
    if (answer.kind == AnswerKind::skip) {
      const Id<Setting> skipped = set(kSkipPrefix + breaker_of(meant(answer)).text());
      actions.push_back({ActionKind::setting, {}, {}, skipped});
      return;
    }
    std::vector<HandleRef> open = board->open_handles;
    open.insert(open.end(), step.handles.begin(), step.handles.end());
    change_to(answer, open);
  }

  void take_close(const Answer& answer) {
    Id<Setting> stays;
    if (answer.kind == AnswerKind::skip) stays = set(kStaysOffPrefix + breaker_of(meant(answer)).text());
    std::vector<HandleRef> open = board->open_handles;
    std::erase_if(open, [&](const HandleRef& handle) { return std::ranges::find(step.handles, handle) != step.handles.end(); });
    if (open.empty()) {
      Round& round = house.rounds[static_cast<std::size_t>(board->round)];
      round.finished = true;
      actions.push_back({ActionKind::close, round.id, {}, stays});
    } else {
      change_to(answer, open);
      actions.back().setting = stays;
    }
  }

  /// The round under way ends; one with these handles open begins.
  void change_to(const Answer& answer, const std::vector<HandleRef>& open) {
    Id<Round> before;
    if (!board->open_handles.empty()) {
      Round& round = house.rounds[static_cast<std::size_t>(board->round)];
      round.finished = true;
      before = round.id;
    }
    actions.push_back({ActionKind::open, start_round(answer, open).id, {}, {}, before});
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

  void take_lamp_step(const Answer& answer) {
    const std::string lamp = kLampPrefix + step.point.text();
    if (step.kind == StepKind::put_lamp) {
      const bool done = answer.kind == AnswerKind::done;
      actions.push_back({ActionKind::setting, {}, {}, set(done ? lamp : kNoLampPrefix + step.point.text())});
      return;
    }
    std::erase_if(house.settings, [&](const Setting& setting) { return setting.name == lamp; });
    actions.push_back({ActionKind::lamp_taken, {}, {}, {}, {}, step.point});
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
      case ActionKind::open:
        take_back_open(action.round);
        if (action.before) row(house, action.before).finished = false;
        if (action.setting) erase_setting(action.setting);
        return;
      case ActionKind::look: row(house, action.observation).withdrawn = true; return;
      case ActionKind::lamp_taken: (void)set(kLampPrefix + action.lamp.text()); return;
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
    case StepKind::put_lamp:
    case StepKind::take_lamp: state_->take_lamp_step(answer); break;
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
