#include "cli/trace_terminal.h"

#include <algorithm>
#include <optional>
#include <ostream>

#include "ask/saw.h"
#include "cli/keys.h"
#include "cli/trace_dialogs.h"
#include "cli/wrapped.h"
#include "trace/session_actions.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

constexpr std::size_t kWidestBar = 24, kNarrowestBar = 6;

/// Keys that answer a step, and what they mean.
const char* answers_text(const Step& step) {
  const bool several = step.handles.size() > 1;
  switch (step.kind) {
    case StepKind::caution: return "Enter  I have read this";
    case StepKind::open:
      return several ? "Enter  all of them are off     s  one cannot be moved" : "Enter  it is off     s  it cannot be moved, or must stay on";
    case StepKind::close:
      return several ? "Enter  all of them are on     r  one trips, or will not reset" : "Enter  it is on     r  it trips, or will not reset";
    case StepKind::put_lamp: return "Enter  it is in     s  no lamp can stay there";
    case StepKind::take_lamp: return "Enter  I have it     s  it is gone";
    case StepKind::done: return "";
    case StepKind::look:
    case StepKind::ask_dead: break;
  }
  return step.from_door ? "l  lit (live)     d  dark (dead)     n  not sure     s  skip" : "l  live     d  dead     n  not sure     s  skip";
}

constexpr const char* kOtherKeys = "?  why     u  undo     p  pause     m  more";
constexpr const char* kMoreKeys =
    "f  I found something that is not in the list\n"
    "w  an earlier answer was wrong\n"
    "t  a breaker tripped by itself, and will not come on\n"
    "o  what is off now";

class TraceTerminal {
 public:
  TraceTerminal(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), out_(out), keep_(keep), options_(options), keys_(in, out, options.single_keys), talk_{{keys_, out}, session, keep} {}

  TraceEnd run() {
    session_.now_is(options_.now());  // a breaker may have been off through a pause
    if (session_.step().kind != StepKind::done) begin();
    const KeysEnd end = run_by_keys(keys_, [&] { return session_.step().kind == StepKind::done; }, [&] { show_step(); }, [&](char key) { return handle(key); });
    if (end == KeysEnd::over) return finish();
    return end == KeysEnd::stopped ? stop("Paused.", TraceEnd::paused) : stop("The input ended.", TraceEnd::input_ended);
  }

 private:
  /// True when the step is to be shown again.
  bool handle(char key) {
    switch (key) {
      case ' ': return false;  // an arrow or function key
      case '?': return talk_.tell(why_text(session_.house(), session_.conclusions(), session_.step()));
      case 'm': return talk_.tell(kMoreKeys);
      case 'o': return talk_.tell(off_text());
      case 'u': return undo();
      case 'w': ask_wrong_answer(talk_); return true;
      case 't': ask_tripped(talk_, options_.now(), options_.who); return true;
      case 'f': ask_found(talk_); return true;
      default: break;
    }
    const auto answer = answer_for(key);
    if (answer) return take(*answer);
    out_ << "  This key means nothing here.\n";
    return talk_.tell(std::string(answers_text(session_.step())) + "\n" + kOtherKeys);
  }

  bool take(AnswerKind kind) {
    const Step step = session_.step();
    const bool moved = step.kind == StepKind::open || step.kind == StepKind::close, several = step.handles.size() > 1;
    Answer answer{kind, usual_method(session_.house(), step), options_.now(), options_.who};
    if (moved && kind == AnswerKind::skip) {
      const auto meant = ask_which(talk_, step.kind == StepKind::open ? "Which one cannot be moved?" : "Which one stays off?", step.handles);
      if (!meant) return true;
      answer.handle = *meant;
    }
    const std::string what = history_text(session_.house(), step, answer);
    session_.answer(answer);
    keep_(what, session_.house());
    if (!answer.handle) return true;
    const std::string name = handle_name(session_.house(), answer.handle);
    if (step.kind == StepKind::close) talk_.say("From now on " + name + " counts as off." + (several ? " Turn the others of the list on." : ""));
    else talk_.say(name + " is left alone." + (several ? " If you turned others of the list off, turn them on again now." : ""));
    return true;
  }

  [[nodiscard]] std::optional<AnswerKind> answer_for(char key) const {
    const StepKind kind = session_.step().kind;
    std::optional<AnswerKind> answer;
    switch (key) {
      case kEnterKey: answer = AnswerKind::done; break;
      case 'l': answer = AnswerKind::live; break;
      case 'd': answer = AnswerKind::dead; break;
      case 'n': answer = AnswerKind::not_sure; break;
      case 's': answer = AnswerKind::skip; break;
      case 'r':
        if (kind == StepKind::close) answer = AnswerKind::skip;
        break;
      default: break;
    }
    return answer && fits(kind, *answer) ? answer : std::nullopt;
  }

  void begin() {
    out_ << '\n';
    talk_.say(manner_text(session_.house(), manner_of(session_.house())) + " (--at-once, --helper, --lamps, --with and --room change that.)");
    std::vector<HandleRef> off, stuck;
    for (const HandleRef& handle : standing_off(session_.house()))
      (is_told_to_stay_off(session_.house(), handle) ? stuck : off).push_back(handle);
    if (!off.empty()) talk_.say("\nOff since before the pause (if somebody turned one on, turn it off again):\n" + listed(off));
    if (!stuck.empty()) talk_.say("\nCounted as off, for it would not come on (once it does: --retry-skipped):\n" + listed(stuck));
  }

  void show_step() {
    const Progress now = session_.progress();
    const std::string how_far = progress_text(now);
    const std::size_t rest = keys_.columns() > how_far.size() + 3 ? keys_.columns() - how_far.size() - 3 : 0;
    talk_.show(progress_bar(now, std::clamp(rest, kNarrowestBar, kWidestBar)) + " " + how_far, step_text(session_.house(), session_.step()),
               answers_text(session_.step()), kOtherKeys);
  }

  [[nodiscard]] std::string listed(const std::vector<HandleRef>& handles) const {
    std::string text;
    for (const HandleRef& handle : handles) text += (text.empty() ? "- " : "\n- ") + handle_name(session_.house(), handle);
    return text;
  }
  [[nodiscard]] std::string off_text() const {
    const auto off = standing_off(session_.house());
    return off.empty() ? "Nothing is off." : listed(off);
  }

  bool undo() {
    const bool taken = session_.undo();
    if (taken) keep_("Took back the last answer", session_.house());
    talk_.say(taken ? "Taken back." : "There is nothing to take back.");
    return true;
  }

  TraceEnd finish() {
    out_ << '\n';
    talk_.say(step_text(session_.house(), session_.step()), StepTalk::kMargin);
    out_ << '\n';
    talk_.say(summary_text(session_.house(), session_.conclusions()), 0);
    out_ << std::flush;
    return TraceEnd::done;
  }

  TraceEnd stop(const char* why, TraceEnd end) {
    out_ << '\n';
    talk_.say(std::string(why) + " Every answer so far is kept; start again and it goes on from here.");
    const auto off = standing_off(session_.house());
    if (off.size() == 1) talk_.say("Still off: " + handle_name(session_.house(), off.front()) + ". Turn it on if you leave it for long.");
    if (off.size() > 1) talk_.say("Still off:\n" + off_text() + "\nTurn them on if you leave it for long.");
    talk_.say(progress_text(session_.progress()));
    out_ << std::flush;
    return end;
  }

  TraceSession& session_;
  std::ostream& out_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Keys keys_;
  TraceTalk talk_;
};

}  // namespace

TraceEnd run_trace_terminal(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                            const TraceOptions& options) {
  return TraceTerminal(session, in, out, keep, options).run();
}

}  // namespace ohmstead
