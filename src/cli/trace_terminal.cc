#include "cli/trace_terminal.h"

#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <istream>
#include <optional>
#include <ostream>

#include "cli/wrapped.h"
#include "house/index.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

/// Takes keys from standard input as they are pressed, for as long as it lives.
class SingleKeys {
 public:
  explicit SingleKeys(bool wanted) : on_(wanted && tcgetattr(STDIN_FILENO, &before_) == 0) {
    if (!on_) return;
    termios now = before_;
    now.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO | ISIG);
    now.c_cc[VMIN] = 1;
    now.c_cc[VTIME] = 0;
    tcsetattr(STDIN_FILENO, TCSANOW, &now);
  }
  ~SingleKeys() {
    if (on_) tcsetattr(STDIN_FILENO, TCSANOW, &before_);
  }
  SingleKeys(const SingleKeys&) = delete;
  SingleKeys& operator=(const SingleKeys&) = delete;
  [[nodiscard]] bool on() const { return on_; }

 private:
  termios before_{};
  bool on_;
};

constexpr char kEnter = '\n', kInputEnded = '\0', kCtrlC = 3, kCtrlD = 4, kEscape = 27;

class Terminal {
 public:
  Terminal(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), in_(in), out_(out), keep_(keep), options_(options), keys_(options.single_keys) {}

  TraceEnd run() {
    session_.now_is(options_.now());  // a breaker may have been off through a pause
    for (bool show = true;;) {
      if (session_.step().kind == StepKind::done) return finish();
      if (show) show_step();
      const char key = read_key();
      if (key == kInputEnded) return stop("The input ended.", TraceEnd::input_ended);
      if (key == 'p' || key == 'q') return stop("Paused.", TraceEnd::paused);
      show = handle(key);
    }
  }

 private:
  /// Acts on one key; says whether the step is to be shown again.
  bool handle(char key) {
    if (key == '?') return explain();
    if (key == 'u') return undo();
    const auto answer = answer_for(key);
    if (!answer) {
      out_ << "  This key means nothing here. " << keys_text() << "\n> " << std::flush;
      return false;
    }
    const std::string what = history_text(*answer);
    const Step& step = session_.step();
    const Point* point = find_row(session_.house(), step.point);
    const bool seen_by_eye = point != nullptr && (point->kind == PointKind::light || point->kind == PointKind::fan);
    session_.answer({*answer, seen_by_eye ? Method::look : options_.method, options_.now(), options_.who});
    keep_(what, session_.house());
    return true;
  }

  [[nodiscard]] std::optional<AnswerKind> answer_for(char key) const {
    const StepKind kind = session_.step().kind;
    std::optional<AnswerKind> answer;
    switch (key) {
      case kEnter: answer = AnswerKind::done; break;
      case 'l': answer = AnswerKind::live; break;
      case 'd': answer = AnswerKind::dead; break;
      case 'n': answer = AnswerKind::not_sure; break;
      case 's': answer = AnswerKind::skip; break;
      default: break;
    }
    return answer && fits(kind, *answer) ? answer : std::nullopt;
  }

  [[nodiscard]] const char* keys_text() const {
    switch (session_.step().kind) {
      case StepKind::caution: return "Enter: I have read this.   ? why   u undo   p pause";
      case StepKind::open: return "Enter: it is off.   s skip: leave it on   ? why   u undo   p pause";
      case StepKind::close: return "Enter: it is on.   s it will not stay on   ? why   u undo   p pause";
      default: return "l live   d dead   n not sure   s skip   ? why   u undo   p pause";
    }
  }

  void show_step() {
    const Progress now = session_.progress();
    const Step& step = session_.step();
    if (now.settled != shown_.settled || !ever_shown_) out_ << "\n---- " << progress_text(now) << '\n';
    if (!ever_shown_ && (step.kind == StepKind::look || step.kind == StepKind::close) && !step.handles.empty())
      out_ << "\n    Off since before the pause: " << handle_name(session_.house(), step.handles.front()) << ".\n";
    shown_ = now;
    ever_shown_ = true;
    out_ << '\n' << wrapped(step_text(session_.house(), session_.step()), 4) << "\n\n  " << keys_text() << "\n> " << std::flush;
  }

  bool explain() {
    out_ << '\n' << wrapped(why_text(session_.house(), session_.conclusions(), session_.step()), 4) << "\n> " << std::flush;
    return false;
  }

  bool undo() {
    if (!session_.undo()) {
      out_ << "  There is nothing to take back.\n> " << std::flush;
      return false;
    }
    keep_("Took back the last answer", session_.house());
    out_ << "  Taken back.\n";
    return true;
  }

  [[nodiscard]] std::string history_text(AnswerKind answer) const {
    const Step& step = session_.step();
    const House& house = session_.house();
    switch (step.kind) {
      case StepKind::open: return (answer == AnswerKind::done ? "Opened " : "Skipped ") + handle_name(house, step.handles.front());
      case StepKind::close: return (answer == AnswerKind::done ? "Closed " : "Will not close: ") + handle_name(house, step.handles.front());
      case StepKind::caution: return "Read the caution";
      default: break;
    }
    static constexpr const char* kSeen[] = {"done", "seen live", "seen dead", "not sure", "skipped"};
    return point_name(house, step.point) + ": " + kSeen[static_cast<int>(answer)];
  }

  /// One key; kEnter for an empty line, kInputEnded at the end. From a pipe: first letter of a line.
  char read_key() {
    if (keys_.on()) return read_pressed_key();
    std::string line;
    for (int c = in_.get();; c = in_.get()) {
      if (c == std::istream::traits_type::eof() && line.empty()) return kInputEnded;
      if (c == std::istream::traits_type::eof() || c == '\n') break;
      if (line.size() < 64) line += static_cast<char>(c);
    }
    const auto first = line.find_first_not_of(" \t\r");
    return first == std::string::npos ? kEnter : lower(line[first]);
  }

  char read_pressed_key() {
    const int c = in_.get();
    if (c == std::istream::traits_type::eof() || c == kCtrlD) return kInputEnded;
    if (c == kCtrlC) return 'p';
    if (c == kEscape) {  // an arrow or function key: swallow what comes with it
      while (in_.rdbuf()->in_avail() > 0) in_.get();
      return ' ';
    }
    const char key = c == '\r' ? kEnter : lower(static_cast<char>(c));
    if (key > ' ') out_ << key;
    out_ << '\n' << std::flush;
    return key;
  }

  static char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

  TraceEnd finish() {
    out_ << '\n' << wrapped(step_text(session_.house(), session_.step()), 4) << "\n\n"
         << summary_text(session_.house(), session_.conclusions()) << std::flush;
    return TraceEnd::done;
  }

  TraceEnd stop(const char* why, TraceEnd end) {
    out_ << "\n  " << why << " Every answer so far is kept; start again and it goes on from here.\n";
    const Step& step = session_.step();
    if (step.kind == StepKind::close || (step.kind == StepKind::look && !step.handles.empty()))
      out_ << "  Still off: " << handle_name(session_.house(), step.handles.front()) << ". Turn it on if you leave it for long.\n";
    out_ << "  " << progress_text(session_.progress()) << '\n' << std::flush;
    return end;
  }

  TraceSession& session_;
  std::istream& in_;
  std::ostream& out_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  SingleKeys keys_;
  Progress shown_;
  bool ever_shown_ = false;
};

}  // namespace

TraceEnd run_trace_terminal(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                            const TraceOptions& options) {
  return Terminal(session, in, out, keep, options).run();
}

}  // namespace ohmstead
