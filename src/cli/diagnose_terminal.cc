#include "cli/diagnose_terminal.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <ostream>

#include "ask/diagnosis_words.h"
#include "cli/step_talk.h"

namespace ohmstead {

namespace {

constexpr const char* kOtherKeys = "?  what it can be     u  undo     p  pause";

/// Keys of one step, in the order in which they are shown.
struct KeyOf {
  char key;
  LookSaw saw;
  const char* words;
};

std::vector<KeyOf> keys_of(const DiagnosisStep& step) {
  using enum LookSaw;
  switch (step.kind) {
    case DiagnosisStepKind::danger: return {{kEnterKey, done, "the main is off"}, {'s', skip, "nothing was brighter than usual"}};
    case DiagnosisStepKind::cure: return {{'w', works, "works"}, {'d', still_dead, "still dead"}, {'t', trips_again, "trips again at once"}, {'s', skip, "not done"}};
    case DiagnosisStepKind::done: return {};
    case DiagnosisStepKind::look: break;
  }
  if (step.what == LookAt::neighbors || step.what == LookAt::source) return {{'y', yes, "yes"}, {'n', no, "no"}, {'s', skip, "cannot tell"}};
  if (step.what == LookAt::handle && step.handle.kind == HandleKind::position)
    return {{'o', on, "utility"}, {'f', off, "off"}, {'b', backup, "backup"}, {'n', not_sure, "not sure"}, {'s', skip, "skip"}};
  if (step.what == LookAt::handle && step.handle.kind == HandleKind::device) return {{'o', on, "on, button in"}, {'f', off, "off"}, {'t', tripped, "button out"}, {'n', not_sure, "not sure"}, {'s', skip, "skip"}};
  if (step.what == LookAt::handle) return {{'o', on, "on"}, {'f', off, "off"}, {'t', tripped, "between (tripped)"}, {'n', not_sure, "not sure"}, {'s', skip, "skip"}};
  return {{'l', live, "live"}, {'d', dead, "dead"}, {'m', dim, "dimmer"}, {'b', bright, "brighter"}, {'n', not_sure, "not sure"}, {'s', skip, "skip"}};
}

std::string keys_text(const DiagnosisStep& step) {
  std::string text;
  for (const KeyOf& one : keys_of(step)) text += (text.empty() ? "" : "     ") + (one.key == kEnterKey ? std::string("Enter") : std::string(1, one.key)) + "  " + one.words;
  return text + (step.meter ? "     v  volts" : "");
}

class DiagnoseTerminal {
 public:
  DiagnoseTerminal(DiagnosisSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), out_(out), keep_(keep), options_(options), keys_(in, out, options.single_keys), talk_{keys_, out} {}

  TraceEnd run() {
    const KeysEnd end = run_by_keys(keys_, [&] { return session_.step().kind == DiagnosisStepKind::done; }, [&] { show_step(); }, [&](char key) { return handle(key); });
    if (end == KeysEnd::over) return TraceEnd::done;
    out_ << '\n';
    talk_.say(std::string(end == KeysEnd::stopped ? "Paused." : "The input ended.") + " Every answer so far is kept; `ohmstead diagnose` goes on from here.");
    return end == KeysEnd::stopped ? TraceEnd::paused : TraceEnd::input_ended;
  }

 private:
  /// True when the step is to be shown again.
  bool handle(char key) {
    if (key == ' ') return false;
    if (key == '?') return talk_.tell(diagnosis_why_text(session_));
    if (key == 'u') return undo();
    if (key == 'v' && session_.step().meter) return take_volts();
    for (const KeyOf& one : keys_of(session_.step()))
      if (one.key == key) return take({one.saw, 0, options_.now(), options_.who});
    out_ << "  This key means nothing here. These do:\n";
    return talk_.tell(keys_text(session_.step()) + "\n" + kOtherKeys);
  }

  bool take(const DiagnosisAnswer& answer) {
    const std::string what = diagnosis_history_text(session_, answer);
    session_.answer(answer);
    keep_(what, session_.house());
    return true;
  }

  bool take_volts() {
    talk_.say("How many volts, a whole number? Enter alone goes back.");
    out_ << "> " << std::flush;
    const std::string line = keys_.line().value_or("");
    int volts = -1;
    const auto [end, fault] = std::from_chars(line.data(), line.data() + line.size(), volts);
    if (fault != std::errc{} || end != line.data() + line.size() || volts < 0 || volts > 1000) return true;
    if (volts == 0) return take({LookSaw::dead, 0, options_.now(), options_.who});
    return take({LookSaw::live, volts, options_.now(), options_.who});
  }

  void show_step() { talk_.show("", diagnosis_step_text(session_), keys_text(session_.step()), kOtherKeys); }

  bool undo() {
    const bool taken = session_.undo();
    if (taken) keep_("Diagnosis: took back the last answer", session_.house());
    talk_.say(taken ? "Taken back." : "There is nothing to take back.");
    return true;
  }

  DiagnosisSession& session_;
  std::ostream& out_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Keys keys_;
  StepTalk talk_;
};

}  // namespace

TraceEnd run_diagnose_terminal(DiagnosisSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options) {
  return DiagnoseTerminal(session, in, out, keep, options).run();
}

}  // namespace ohmstead
