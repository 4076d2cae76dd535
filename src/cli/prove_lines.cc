#include <istream>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/proving_words.h"
#include "json/json_line.h"
#include "json/json_prove.h"
#include "cli/prove_terminal.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

class ProveLines {
 public:
  ProveLines(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), lines_(in, out), keep_(keep), options_(options) {}

  TraceEnd run() {
    session_.now_is(options_.now());
    lines_.write(proof_step_json(session_, lines_.number));
    while (auto request = lines_.next()) {
      request_ = std::move(*request);
      if (!serve()) return TraceEnd::paused;
    }
    return session_.step().kind == ProofStepKind::done ? TraceEnd::done : TraceEnd::input_ended;
  }

 private:
  /// Serves one request; false when it was `pause`.
  bool serve() {
    std::string kept;
    try {
      const std::string what = text_field(request_, "do");
      if (what == "pause") {
        lines_.write({{"type", "paused"}, {"stands", proof_stands_text(session_)}});
        return false;
      }
      if (what == "why") {
        lines_.write({{"type", "why"}, {"text", proof_why_text(session_)}});
        return true;
      }
      if (what == "answer") kept = answer();
      else if (what == "undo") kept = undo();
      else if (what == "step") session_.now_is(options_.now());
      else throw refused_line("The field 'do' must be one of: answer, undo, step, why, pause.");
    } catch (const Error& error) {
      lines_.write_error(error);
      return true;
    }
    if (!kept.empty()) keep_(kept, session_.house()), ++lines_.number;
    session_.now_is(options_.now());
    lines_.write(proof_step_json(session_, lines_.number));
    return true;
  }

  std::string answer() {
    lines_.require_step_now(request_);
    const auto kind = word_field<ProofAnswerKind>(request_, "answer");
    if (!kind) throw refused_line("The field 'answer' must be one of: " + word_list<ProofAnswerKind>() + ".");
    ProofAnswer answer{*kind, word_field<Method>(request_, "method").value_or(proof_method(session_)), time_field(request_, "at"), text_field(request_, "who")};
    if (answer.at.empty()) answer.at = options_.now();
    if (answer.who.empty()) answer.who = options_.who;
    if (has_field(request_, "handle")) {
      const auto handle = parse_handle_ref(text_field(request_, "handle"));
      if (!handle) throw refused_line("The field 'handle' must be the ref of one of the step's moves.");
      answer.handle = *handle;
    }
    const std::string what = proof_history_text(session_, answer);
    session_.answer(answer);
    return what;
  }

  std::string undo() {
    if (!session_.undo()) throw refused_line("There is nothing to take back.");
    return "Proving: took back the last answer";
  }

  ProvingSession& session_;
  JsonLines lines_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Json request_;
};

}  // namespace

TraceEnd run_prove_lines(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options) {
  return ProveLines(session, in, out, keep, options).run();
}

}  // namespace ohmstead
