#include "trace/session.h"

#include <algorithm>
#include <optional>

#include "house/index.h"
#include "house/invariants.h"
#include "trace/behind_plan.h"
#include "trace/session_actions.h"

namespace ohmstead {

namespace {

void check_texts(const std::string& at, const std::string& who) {
  if (at.size() > kLongestName || who.size() > kLongestName)
    throw Error(ErrorKind::invalid_input, "The time or the name given with this answer is too long; nothing was recorded.");
}

}  // namespace

struct TraceSession::State {
  explicit State(House start) : house(std::move(start)) {
    actions = actions_in(house);
    refresh();
  }

  House house;
  Conclusions conclusions;
  Step step;
  std::optional<Board> board;
  std::optional<BehindBoard> behind;  ///< when a session asks what one handle takes down
  std::vector<Action> actions;
  std::string now;  ///< as it was told; may be empty

  void refresh() {
    conclusions = conclude_units(house);
    board.emplace(read_board(house, conclusions)).now = now;
    behind.reset();
    if (const HandleRef asked = asked_behind(house)) behind.emplace(read_behind_board(*board, asked));
    step = behind ? next_behind_step(*behind) : next_step(*board);
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
    std::vector<HandleRef> all = told_to_stay_off(house);
    all.insert(all.begin(), handles.begin(), handles.end());
    for (const HandleRef& handle : all) house.opened.push_back({Id<Opened>::fresh(), round.id, handle});
    return house.rounds.emplace_back(round);
  }

  /// The breaker that a skip is about.
  [[nodiscard]] HandleRef meant(const Answer& answer) const {
    return std::ranges::find(step.handles, answer.handle) == step.handles.end() ? step.handles.front() : answer.handle;
  }

  void take_open(const Answer& answer) {
    if (answer.kind == AnswerKind::skip) {
      const Id<Setting> skipped = set(kSkipPrefix + handle_key(meant(answer)));
      actions.push_back({ActionKind::setting, {}, {}, skipped});
      return;
    }
    std::vector<HandleRef> open = board->open_handles;
    open.insert(open.end(), step.handles.begin(), step.handles.end());
    change_to(answer, open);
  }

  void take_close(const Answer& answer) {
    Id<Setting> stays;
    if (answer.kind == AnswerKind::skip) stays = set(kStaysOffPrefix + handle_key(meant(answer)));
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

  /// What is left of the round under way is a round of its own, with this breaker open too. Its time is
  /// that of the round, for what is open has been open since then.
  void take_stays_off(Id<Breaker> breaker, const std::string& who) {
    const Id<Setting> stays = set(kStaysOffPrefix + breaker.text());
    std::vector<HandleRef> open = board->open_handles;
    std::erase(open, HandleRef{HandleKind::breaker, breaker.value});
    if (board->open_handles.empty()) {
      actions.push_back({ActionKind::setting, {}, {}, stays});
      return;
    }
    Round& round = house.rounds[static_cast<std::size_t>(board->round)];
    if (open.empty()) {
      round.finished = true;
      actions.push_back({ActionKind::close, round.id, {}, stays});
      return;
    }
    change_to({AnswerKind::done, Method::look, round.at, who}, open);
    actions.back().setting = stays;
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
    const bool begins = board->round < 0 || (board->open_handles.empty() && !holds_what_stays_off(house, house.rounds[static_cast<std::size_t>(board->round)].id));
    if (begins) (void)start_round(answer, {});
    const Id<Round> round = begins ? house.rounds.back().id : house.rounds[static_cast<std::size_t>(board->round)].id;
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
      actions.push_back({ActionKind::setting, {}, {}, set(answer.kind == AnswerKind::done ? lamp : kNoLampPrefix + step.point.text())});
      return;
    }
    const Id<Setting> was = set(lamp);
    erase_setting(was);
    actions.push_back({ActionKind::lamp_taken, {}, {}, was, {}, step.point});
  }

  void take_caution() {
    const bool start = step.reason == StepReason::start;
    const Id<Setting> read = set(start ? kCautionStart : kCautionPrefix + handle_key(step.handles.front()));
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
      case ActionKind::withdrawal: row(house, action.observation).withdrawn = false; return;
      case ActionKind::lamp_taken: house.settings.push_back({action.setting, kLampPrefix + action.point.text(), "yes"}); return;
      case ActionKind::close:
        row(house, action.round).finished = false;
        if (action.setting) erase_setting(action.setting);
        return;
      case ActionKind::found:
        std::erase_if(house.loads, [&](const Load& load) { return load.point == action.point; });
        std::erase_if(house.points, [&](const Point& point) { return point.id == action.point; });
        return;
    }
  }

  /// A point that was looked at stays, even when the look was taken back: looks stay in the record.
  /// A look that was withdrawn by itself is taken back already.
  [[nodiscard]] bool can_be_taken_back(const Action& action) const {
    if (action.kind == ActionKind::look) return !row(house, action.observation).withdrawn;
    return action.kind != ActionKind::found ||
           std::ranges::none_of(house.observations, [&](const Observation& seen) { return seen.point == action.point; });
  }
};

TraceSession::TraceSession(House house) : state_(std::make_unique<State>(std::move(house))) {}
TraceSession::~TraceSession() = default;
TraceSession::TraceSession(TraceSession&&) noexcept = default;
TraceSession& TraceSession::operator=(TraceSession&&) noexcept = default;

const House& TraceSession::house() const { return state_->house; }
const Step& TraceSession::step() const { return state_->step; }
Progress TraceSession::progress() const { return state_->behind ? behind_progress(*state_->behind) : progress_of(*state_->board); }
const Conclusions& TraceSession::conclusions() const { return state_->conclusions; }

void TraceSession::answer(const Answer& answer) {
  const StepKind kind = state_->step.kind;
  if (!fits(kind, answer.kind))
    throw Error(ErrorKind::invalid_input, "The step '" + std::string(text_of(kind)) + "' cannot be answered with '" +
                                              std::string(text_of(answer.kind)) + "'; nothing was recorded.");
  check_texts(answer.at, answer.who);
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
  while (!state_->actions.empty() && !state_->can_be_taken_back(state_->actions.back())) state_->actions.pop_back();
  if (state_->actions.empty()) return false;
  const Action last = state_->actions.back();
  state_->actions.pop_back();
  state_->take_back(last);
  state_->refresh();
  return true;
}

void TraceSession::withdraw(Id<Observation> wrong) {
  Observation& seen = row(state_->house, wrong);
  if (seen.withdrawn) return;
  seen.withdrawn = true;
  state_->actions.push_back({ActionKind::withdrawal, seen.round, wrong, {}});
  state_->refresh();
}

void TraceSession::stays_off(Id<Breaker> breaker, const std::string& at, const std::string& who) {
  (void)row(state_->house, breaker);
  check_texts(at, who);
  if (is_told_to_stay_off(state_->house, {HandleKind::breaker, breaker.value})) return;
  state_->take_stays_off(breaker, who);
  state_->refresh();
}

void TraceSession::now_is(const std::string& at) {
  check_texts(at, "");
  state_->now = at;
  state_->refresh();
}

void TraceSession::adopt(House next) {
  state_->house = std::move(next);
  state_->actions = actions_in(state_->house);
  state_->refresh();
}

void TraceSession::add(const Point& found, const std::vector<Load>& loads) {
  House next = state_->house;
  next.points.push_back(found);
  next.loads.insert(next.loads.end(), loads.begin(), loads.end());
  require_sound(next);
  std::swap(state_->house, next);
  state_->actions.push_back({ActionKind::found, {}, {}, {}, {}, found.id});
  state_->refresh();
}

void TraceSession::work_as(const Manner& manner) {
  keep_manner(state_->house, manner);
  state_->refresh();
}

void TraceSession::again(const std::vector<Id<Point>>& points) {
  for (const Id<Point> point : points) (void)row(state_->house, point);
  for (const Id<Point> point : points) trace_again(state_->house, point);
  state_->refresh();
}

void TraceSession::forget_skipped() {
  State& now = *state_;
  const auto starts_with = [](const char* prefix) { return [prefix](const Setting& setting) { return setting.name.starts_with(prefix); }; };
  std::erase_if(now.house.settings, starts_with(kSkipPrefix));
  const bool works_again = std::erase_if(now.house.settings, starts_with(kStaysOffPrefix)) > 0;
  std::erase_if(now.actions, [&](const Action& action) {
    return action.kind == ActionKind::setting && find_row(now.house, action.setting) == nullptr;
  });
  // What works again is on in the rest of the round; what was opened is open since then.
  if (works_again && !now.board->open_handles.empty()) {
    const Round& round = now.house.rounds[static_cast<std::size_t>(now.board->round)];
    now.change_to({AnswerKind::done, Method::look, round.at, round.who}, std::vector(now.board->open_handles));
  }
  now.refresh();
}

}  // namespace ohmstead
