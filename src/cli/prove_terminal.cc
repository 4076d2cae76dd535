#include "cli/prove_terminal.h"

#include <algorithm>
#include <optional>
#include <ostream>

#include "ask/proving_words.h"
#include "cli/step_talk.h"
#include "house/index.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

constexpr const char* kOtherKeys = "?  why     o  positions now     u  undo     p  pause";

const char* answers_text(const ProofStep& step) {
  switch (step.kind) {
    case ProofStepKind::caution: return "Enter  I have read this";
    case ProofStepKind::move: return fits(step, ProofAnswerKind::skip) ? "Enter  done     s  one cannot be moved" : "Enter  done";
    case ProofStepKind::start_source: return "Enter  it runs     s  it is not to be started";
    case ProofStepKind::to_source: return "Enter  done     s  the main is not to be turned off";
    case ProofStepKind::to_utility:
    case ProofStepKind::stop_source: return "Enter  done";
    case ProofStepKind::look: return "l  live     d  dead     n  not sure     s  skip";
    case ProofStepKind::try_interlock: return "b  blocked: it does not go on     g  it goes on     s  it is not to be tried";
    case ProofStepKind::done: break;
  }
  return "";
}

class ProveTerminal {
 public:
  ProveTerminal(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), out_(out), keep_(keep), options_(options), keys_(in, out, options.single_keys), talk_{keys_, out} {}

  TraceEnd run() {
    session_.now_is(options_.now());
    if (const std::string stands = proof_stands_text(session_); session_.now() != ordinary()) talk_.say("\nSince before the pause: " + stands);
    const KeysEnd end = run_by_keys(keys_, [&] { return session_.step().kind == ProofStepKind::done; }, [&] { show_step(); }, [&](char key) { return handle(key); });
    if (end == KeysEnd::over) return finish();
    return end == KeysEnd::stopped ? stop("Paused.", TraceEnd::paused) : stop("The input ended.", TraceEnd::input_ended);
  }

 private:
  [[nodiscard]] ProofState ordinary() const { return {.units = std::vector<Throw>(session_.wiring().units.size(), kUtilitySide)}; }

  /// True when the step is to be shown again.
  bool handle(char key) {
    switch (key) {
      case ' ': return false;
      case '?': return talk_.tell(proof_why_text(session_));
      case 'o': return talk_.tell(proof_stands_text(session_));
      case 'u': return undo();
      default: break;
    }
    if (const auto answer = answer_for(key)) return take(*answer);
    out_ << "  This key means nothing here. These do:\n";
    return talk_.tell(std::string(answers_text(session_.step())) + "\n" + kOtherKeys);
  }

  bool take(ProofAnswerKind kind) {
    ProofAnswer answer{kind, proof_method(session_), options_.now(), options_.who};
    if (kind == ProofAnswerKind::skip && session_.step().kind == ProofStepKind::move && !session_.wiring().panel && session_.step().moves.size() > 1 && !ask_which(answer)) return true;
    const std::string what = proof_history_text(session_, answer);
    session_.answer(answer);
    keep_(what, session_.house());
    session_.now_is(options_.now());
    return true;
  }

  /// Which of several cannot be moved; false when the person goes back.
  bool ask_which(ProofAnswer& answer) {
    const auto& moves = session_.step().moves;
    std::string text = "Which one cannot be moved? Leave the others as they were.";
    for (const ProofMove& move : moves) text += "\n- " + handle_name(session_.house(), move.handle);
    talk_.say(text);
    for (;;) {
      talk_.say("Type the number of its position, such as " + number_of(moves.front()) + ", and Enter. Enter alone goes back.");
      out_ << "> " << std::flush;
      const auto line = keys_.line();
      if (!line || line->empty()) return false;
      const auto meant = std::ranges::find_if(moves, [&](const ProofMove& move) { return *line == number_of(move) || *line == tie_of(move); });
      if (meant != moves.end()) {
        answer.handle = meant->handle;
        return true;
      }
      talk_.say("No position of this step is called so.");
    }
  }

  /// As it stands on the handle: the number of a position, else the name of the breaker.
  [[nodiscard]] std::string number_of(const ProofMove& move) const {
    if (move.handle.kind != HandleKind::position) return handle_name(session_.house(), move.handle);
    return std::to_string(row(session_.house(), Id<Position>{move.handle.id}).number);
  }

  /// "5+6", as the steps write tied positions.
  [[nodiscard]] std::string tie_of(const ProofMove& move) const {
    for (const ProofUnit& unit : session_.wiring().units)
      for (const std::size_t p : unit.positions)
        if (move.handle == HandleRef{HandleKind::position, session_.house().positions[p].id.value}) return position_numbers(session_.house(), unit.positions);
    return "";
  }

  [[nodiscard]] std::optional<ProofAnswerKind> answer_for(char key) const {
    std::optional<ProofAnswerKind> answer;
    switch (key) {
      case kEnterKey: answer = ProofAnswerKind::done; break;
      case 'l': answer = ProofAnswerKind::live; break;
      case 'd': answer = ProofAnswerKind::dead; break;
      case 'n': answer = ProofAnswerKind::not_sure; break;
      case 's': answer = ProofAnswerKind::skip; break;
      case 'b': answer = ProofAnswerKind::blocked; break;
      case 'g': answer = ProofAnswerKind::not_blocked; break;
      default: break;
    }
    return answer && fits(session_.step(), *answer) ? answer : std::nullopt;
  }

  void show_step() { talk_.show(proof_progress_text(session_.progress()), proof_step_text(session_), answers_text(session_.step()), kOtherKeys); }

  bool undo() {
    const bool taken = session_.undo();
    if (taken) keep_("Proving: took back the last answer", session_.house());
    talk_.say(taken ? "Taken back. If a handle was moved for it, move it back." : "There is nothing to take back.");
    return true;
  }

  TraceEnd finish() {
    out_ << '\n';
    talk_.say(proof_step_text(session_));
    return TraceEnd::done;
  }

  TraceEnd stop(const char* why, TraceEnd end) {
    out_ << '\n';
    talk_.say(std::string(why) + " Every answer so far is kept; start again and it goes on from here.");
    if (session_.now() != ordinary()) talk_.say("As it stands: " + proof_stands_text(session_) + " Do not leave it so for long.");
    out_ << std::flush;
    return end;
  }

  ProvingSession& session_;
  std::ostream& out_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Keys keys_;
  StepTalk talk_;
};

}  // namespace

TraceEnd run_prove_terminal(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options) {
  return ProveTerminal(session, in, out, keep, options).run();
}

}  // namespace ohmstead
