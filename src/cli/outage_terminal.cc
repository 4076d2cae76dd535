#include "cli/outage_terminal.h"

#include <algorithm>
#include <optional>
#include <ostream>

#include "ask/outage_ask.h"
#include "ask/outage_words.h"
#include "ask/printable.h"
#include "cli/keys.h"
#include "cli/wrapped.h"
#include "house/error.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMargin = 2, kItems = 4;

/// Keys that answer a step, and what they mean.
std::string answers_text(const OutageStep& step) {
  using enum OutageStepKind;
  switch (step.kind) {
    case ask_away:
    case ask_back: return "Enter  yes     n  no";
    case move: return std::string("Enter  done     n  it cannot be moved") + (fits(step, OutageAnswerKind::no_effect) ? "\nd  done, but nothing came on" : "");
    case start_source: return "Enter  it runs     n  it will not start";
    case switch_off: return step.loads.empty() ? "Enter  it is off" : "Enter  off     n  it cannot be switched off";
    case switch_on: return "Enter  it is on     n  not wanted\nd  it did not come on";
    case no_source: return "Enter  try again";
    case look_over: return "Enter  try again     n  leave it as it is";
    case running: return "Enter  show this again";
    case end: return "Enter  yes, it is over";
    case no_safe_way:
    case no_outage: return "";
    default: return "Enter  done";
  }
}

constexpr const char* kOtherKeys = "a  may I switch on ...?     s  how it stands\nu  undo     m  more     p  stop for now";
constexpr const char* kMoreKeys =
    "o  something was switched off\n"
    "x  everything went dark: it gave up, or its breaker tripped\n"
    "b  the power from the street is back, or gone again\n"
    "h  I moved a handle on my own\n"
    "k  it stopped, runs again, or gives less than it should\n"
    "w  write a line into the log\n"
    "l  the log";

class OutageTerminal {
 public:
  OutageTerminal(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options)
      : board_(board), names_(board.house()), out_(out), keep_(keep), options_(options), keys_(in, out, options.single_keys) {}

  OutageEnd run() {
    if (board_.now().phase == OutagePhase::none && !begin()) return ended_ ? OutageEnd::input_ended : OutageEnd::paused;
    const KeysEnd end = run_by_keys(keys_, [&] { return board_.now().phase == OutagePhase::none; }, [&] { show_step(); }, [&](char key) { return handle(key); });
    if (end == KeysEnd::over) return OutageEnd::over;
    return end == KeysEnd::stopped ? stop("Stopped for now.", OutageEnd::paused) : stop("The input ended.", OutageEnd::input_ended);
  }

 private:
  void say(std::string_view text, std::size_t indent = kMargin) { out_ << wrapped(text, indent, keys_.columns()) << '\n'; }
  void prompt() { out_ << "> " << std::flush; }
  void say_lines(const Lines& lines) {
    bool first = true;
    for (const Line& line : lines) {
      const bool bold = keys_.can_be_bold() && (line.kind == LineKind::danger || (line.kind == LineKind::answer && first));
      if (line.kind == LineKind::answer) first = false;
      const std::string mark = line.kind == LineKind::danger ? "! " : line.kind == LineKind::caution ? "Caution: " : "";
      out_ << (bold ? "\x1b[1m" : "");
      say(mark + terminal::printable(line.text));
      out_ << (bold ? "\x1b[0m" : "");
      for (const std::string& item : line.items) say("- " + terminal::printable(item), kItems);
    }
  }

  bool begin() {
    say("Is the power from the street gone?");
    say("Enter  yes: begin     q  no");
    prompt();
    const char key = keys_.key();
    ended_ = key == kInputEnded;
    if (key != kEnterKey && key != 'y') return false;
    board_.begin(options_.now(), options_.who);
    keep_("Outage: the power from the street is gone", board_.house());
    return true;
  }

  void show_step() {
    out_ << '\n' << std::string(keys_.columns(), '-') << '\n';
    const OutageStatus status = outage_status(board_.view(), options_.now());
    Lines urgent, rest;
    for (const Line& line : words_of_outage_status(board_.view(), status)) (line.kind == LineKind::danger ? urgent : rest).push_back(line);
    say_lines(urgent);
    if (!urgent.empty()) out_ << '\n';
    say_lines(words_of_outage_step(board_.view(), names_, board_.step()));
    if (is_settled(board_.step().kind)) say_lines(rest);
    out_ << '\n';
    say(answers_text(board_.step()) + "\n" + kOtherKeys);
    prompt();
  }

  /// True when the step is to be shown again.
  bool handle(char key) {
    switch (key) {
      case ' ': return false;  // an arrow or function key
      case kEnterKey: return take(OutageAnswerKind::done);
      case 'n': return take(OutageAnswerKind::no);
      case 'd': return take(OutageAnswerKind::no_effect);
      case 's': say_lines(words_of_outage_status(board_.view(), outage_status(board_.view(), options_.now()))); return prompt(), false;
      case 'm': out_ << '\n'; say(kMoreKeys); return prompt(), false;
      case 'l': say_lines(words_of_outage_log(board_.house(), names_)); return prompt(), false;
      case 'u': return undo();
      case 'a': return may();
      case 'o': return switched_off();
      case 'x': return tell({.kind = OutageEventKind::overload}, "it gave up");
      case 'b': return street();
      case 'h': return moved();
      case 'k': return source();
      case 'w': return note();
      default: break;
    }
    say("This key means nothing here.\n" + answers_text(board_.step()) + "\n" + kOtherKeys);
    return prompt(), false;
  }

  bool take(OutageAnswerKind kind) {
    const OutageStep step = board_.step();
    if (step.kind == OutageStepKind::running) return true;
    if (!fits(step, kind)) {
      say("This key means nothing here. " + answers_text(step));
      return prompt(), false;
    }
    OutageAnswer answer{kind, options_.now(), options_.who};
    if (kind == OutageAnswerKind::no && step.handles.size() > 1) {
      const auto which = choose("Which one cannot be moved? (The others are moved now.)", step.handles);
      if (!which) return true;
      answer.handle = *which;
    }
    board_.answer(answer);
    keep_(outage_history_text(board_.house(), names_, step), board_.house());
    if (kind == OutageAnswerKind::no_effect) say_lines(words_of_trouble(board_.view(), names_, step));
    if (step.kind == OutageStepKind::end) say("Everything is as on an ordinary day. The log: ohmstead outage --log");
    return true;
  }

  std::optional<HandleRef> choose(const std::string& question, const std::vector<HandleRef>& handles) {
    say(question);
    for (std::size_t i = 0; i < handles.size(); ++i) say(std::to_string(i + 1) + "  " + outage_handle_text(board_.house(), names_, handles[i]), kItems);
    const auto given = ask("Type its number and Enter; only Enter: none.");
    if (!given || given->empty() || given->size() > 3 || given->find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
    const std::size_t number = std::stoul(*given);
    return number >= 1 && number <= handles.size() ? std::optional(handles[number - 1]) : std::nullopt;
  }

  std::optional<std::string> ask(const std::string& question) {
    say(question);
    prompt();
    return keys_.line();
  }

  /// Tells the board, keeps it, and says so; what it refuses is said, and nothing is changed.
  bool tell(OutageEvent event, const std::string& what) {
    event.at = options_.now();
    event.who = options_.who;
    const OutageStep before = board_.step();
    try {
      board_.tell(std::move(event));
    } catch (const Error& error) {
      return answered(error.what());
    }
    keep_("Outage: " + what, board_.house());
    return board_.step() != before || answered("Written down.");
  }

  /// Says something; the step stays as it was shown, so that the answer is not pushed off the screen.
  bool answered(const std::string& text) {
    if (!text.empty()) say(terminal::printable(text));
    return prompt(), false;
  }

  bool may() {
    const auto what = ask("What do you want to switch on? (Enter: nothing)");
    if (!what || what->empty()) return answered("");
    try {
      std::string at;
      if (!is_in_record(board_.view(), names_, *what)) at = ask("At which receptacle, or in which room?").value_or("");
      const AskedInWords asked = asked_in_words(board_.view(), names_, *what, at);
      const MayI answer = may_i(board_.view(), asked.thing);
      say_lines(words_of_may_i(board_.view(), names_, asked.name, answer));
      if (answer.kind == MayIKind::yes) return ask_switched_on(*what, at);
      if (answer.kind == MayIKind::after) return ask_switched_off(answer, *what, at);
      return answered("");
    } catch (const Error& error) {
      return answered(error.what());
    }
  }

  bool ask_switched_on(const std::string& what, const std::string& at) {
    say("Enter  it is on now     n  not after all");
    prompt();
    if (keys_.key() != kEnterKey) return answered("");
    return tell(switched_in_words(board_.view(), names_, true, what, at), what + " switched on");
  }

  bool ask_switched_off(const MayI& answer, const std::string& what, const std::string& at) {
    const std::vector<GuestThing> guests = board_.now().guests;
    say("Enter  all of that is off now     n  leave it as it is");
    prompt();
    if (keys_.key() != kEnterKey) return answered("");
    for (const Consumer& one : answer.off_first) {
      OutageEvent event{.kind = OutageEventKind::load_off};
      if (one.load >= 0) event.load = board_.house().loads[static_cast<std::size_t>(one.load)].id, event.text = outage_log::kForAWhile;
      else event.text = guests[static_cast<std::size_t>(one.guest)].text;
      tell(event, "switched off to make room");
    }
    say("Now " + terminal::printable(what) + " may be switched on.");
    return ask_switched_on(what, at);
  }

  bool switched_off() {
    const auto what = ask("What was switched off? (Enter: nothing)");
    if (!what || what->empty()) return answered("");
    try {
      return tell(switched_in_words(board_.view(), names_, false, *what, ""), *what + " switched off");
    } catch (const Error& error) {
      return answered(error.what());
    }
  }

  bool street() {
    if (board_.now().phase == OutagePhase::lost) return tell({.kind = OutageEventKind::utility_back}, "the power from the street is back");
    return tell({.kind = OutageEventKind::utility_lost}, "the power from the street is gone again");
  }

  bool moved() {
    const auto what = ask("Which handle, and where does it stand now? Such as: T4 backup, 12 on, main off (Enter: none)");
    if (!what || what->empty()) return answered("");
    try {
      return tell(moved_in_words(board_.view(), names_, *what), *what);
    } catch (const Error& error) {
      return answered(error.what());
    }
  }

  bool source() {
    const auto what = ask("Type: stopped, runs, or the watts that it gives now, such as 2000 (Enter: none of them)");
    if (!what || what->empty()) return answered("");
    try {
      if (*what == "stopped") return tell({.kind = OutageEventKind::source_stopped}, "it stopped");
      if (*what == "runs") return tell({.kind = OutageEventKind::source_started}, "it runs");
      return tell({.kind = OutageEventKind::source_started, .running_watts = watts_in_words(*what)}, "it gives " + *what);
    } catch (const Error& error) {
      return answered(error.what());
    }
  }

  bool note() {
    const auto what = ask("What is to be written down? (Enter: nothing)");
    if (!what || what->empty()) return answered("");
    return tell({.kind = OutageEventKind::note, .text = *what}, "a note");
  }

  bool undo() {
    const bool taken = board_.undo();
    if (taken) keep_("Outage: took back the last answer", board_.house());
    say(taken ? "Taken back." : "There is nothing to take back.");
    return true;
  }

  OutageEnd stop(const char* why, OutageEnd end) {
    out_ << '\n';
    say(std::string(why) + " Every answer so far is kept; `ohmstead outage` goes on from here.");
    return end;
  }

  OutageBoard& board_;
  Names names_;
  std::ostream& out_;
  const KeepFn& keep_;
  const OutageOptions& options_;
  Keys keys_;
  bool ended_ = false;
};

}  // namespace

OutageEnd run_outage_terminal(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options) {
  return OutageTerminal(board, in, out, keep, options).run();
}

}  // namespace ohmstead
