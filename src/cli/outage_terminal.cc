#include "cli/outage_terminal.h"

#include <optional>
#include <ostream>

#include "ask/outage_ask.h"
#include "ask/printable.h"
#include "cli/outage_screen.h"
#include "house/error.h"

namespace ohmstead {

namespace {

class OutageTerminal : private OutageScreen {
 public:
  using OutageScreen::OutageScreen;

  OutageEnd run() {
    if (board_.now().phase == OutagePhase::none && !begin()) return ended_ ? OutageEnd::input_ended : OutageEnd::paused;
    const KeysEnd end = run_by_keys(keys_, [&] { return board_.now().phase == OutagePhase::none; }, [&] { show_step(); }, [&](char key) { return handle(key); }, options_.look_seconds);
    if (end == KeysEnd::over) return OutageEnd::over;
    return end == KeysEnd::stopped ? stop("Stopped for now.", OutageEnd::paused) : stop("The input ended.", OutageEnd::input_ended);
  }

 private:
  bool begin() {
    say("Is the power from the street gone?");
    say("Enter  yes: begin     q  no");
    prompt();
    const char key = keys_.key();
    ended_ = key == kInputEnded;
    if (key != kEnterKey && key != 'y') return false;
    if (others_went_on()) return true;
    board_.begin(options_.now(), options_.who);
    (void)kept("Outage: the power from the street is gone");
    return true;
  }

  /// True when the step is to be shown again.
  bool handle(char key) {
    if (key == kNoKeyYet) return look_again();
    if (others_went_on()) return true;
    switch (key) {
      case ' ': return false;  // an arrow or function key
      case kEnterKey: return take(OutageAnswerKind::done);
      case 'n': return take(OutageAnswerKind::no);
      case 'd': return take(OutageAnswerKind::no_effect);
      case 's': say_lines(status_words()); return prompt(), false;
      case 'm': out_ << '\n'; say(kMoreOutageKeys); return prompt(), false;
      case 'l': say_lines(words_of_outage_log(board_.house(), names_, options_.local)); return prompt(), false;
      case 'u': return undo();
      case 'a': return may();
      case 'o': return switched_off();
      case 'x': return tell({.kind = OutageEventKind::overload}, "it gave up");
      case 'b': return street();
      case 'h': return moved();
      case 'k': return source();
      case 'f': return fuel();
      case 'w': return note();
      default: break;
    }
    say("This key means nothing here.\n" + outage_answers_text(board_.step()) + "\n" + kOutageKeys);
    return prompt(), false;
  }

  bool take(OutageAnswerKind kind) {
    const OutageStep step = board_.step();
    if (step.kind == OutageStepKind::running) return true;
    if (!fits(step, kind)) {
      say("This key means nothing here. " + outage_answers_text(step));
      return prompt(), false;
    }
    OutageAnswer answer{kind, options_.now(), options_.who};
    if (kind == OutageAnswerKind::no && step.handles.size() > 1) {
      const auto which = choose("Which one cannot be moved? (The others are moved now.)", step.handles);
      if (!which) return true;
      answer.handle = *which;
    }
    board_.answer(answer);
    if (!kept(outage_history_text(board_.house(), names_, step))) return true;
    if (kind == OutageAnswerKind::no_effect) say_lines(words_of_trouble(board_.view(), names_, step));
    if (step.kind == OutageStepKind::end) say("Everything is as on an ordinary day. The log: ohmstead outage --log");
    return true;
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
    say("Enter  that is done     n  leave it as it is");
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

  bool fuel() {
    OutageEvent event{.kind = OutageEventKind::note, .source = board_.house().sources[board_.gear().source].id};
    const bool engine = board_.house().sources[board_.gear().source].kind == SourceKind::generator;
    say(engine ? "Enter  fill the tank now, step by step     y  it was filled already\nn  neither" : "y  the battery is full again     n  it is not");
    prompt();
    const char key = keys_.key();
    if (!engine && key == kEnterKey) return answered("");
    event.text = key == kEnterKey ? outage_log::kToRefuel : outage_log::kRefuelled;
    return key == kEnterKey || key == 'y' ? tell(event, event.text) : answered("");
  }

  bool note() {
    const auto what = ask("What is to be written down? (Enter: nothing)");
    if (!what || what->empty()) return answered("");
    return tell({.kind = OutageEventKind::note, .text = *what}, "a note");
  }

  bool undo() {
    const bool taken = board_.undo();
    if (taken && !kept("Outage: took back the last answer")) return true;
    say(taken ? "Taken back." : "There is nothing to take back.");
    return true;
  }

  OutageEnd stop(const char* why, OutageEnd end) {
    out_ << '\n';
    say(std::string(why) + " Every answer so far is kept; `ohmstead outage` goes on from here.");
    return end;
  }

  bool ended_ = false;
};

}  // namespace

OutageEnd run_outage_terminal(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options) {
  return OutageTerminal(board, in, out, keep, options).run();
}

}  // namespace ohmstead
