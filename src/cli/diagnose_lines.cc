#include <istream>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/diagnosis_words.h"
#include "cli/diagnose_terminal.h"
#include "json/json_diagnose.h"
#include "json/json_line.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

/// Takes an answer or takes one back; what it was, for the history.
std::string change(DiagnosisSession& session, const JsonLines& lines, const Json& request, const TraceOptions& options) {
  const std::string what = text_field(request, "do");
  if (what == "undo") {
    if (!session.undo()) throw refused_line("There is nothing to take back.");
    return "Diagnosis: took back the last answer";
  }
  lines.require_step_now(request);
  DiagnosisAnswer answer{LookSaw::not_sure, 0, time_field(request, "at"), text_field(request, "who")};
  if (has_field(request, "volts")) answer.volts = number_field(request, "volts", 1, 1000), answer.saw = LookSaw::live;
  else if (const auto saw = word_field<LookSaw>(request, "answer")) answer.saw = *saw;
  else throw refused_line("The field 'answer' must be one of: " + word_list<LookSaw>() + ".");
  if (answer.at.empty()) answer.at = options.now();
  if (answer.who.empty()) answer.who = options.who;
  const std::string said = diagnosis_history_text(session, answer);
  session.answer(answer);
  return said;
}

}  // namespace

TraceEnd run_diagnose_lines(DiagnosisSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options) {
  JsonLines lines(in, out);
  lines.write(diagnosis_step_json(session, lines.number));
  while (const auto request = lines.next()) {
    std::string kept;
    try {
      const std::string what = text_field(*request, "do");
      if (what == "pause") {
        lines.write({{"type", "paused"}});
        return TraceEnd::paused;
      }
      if (what == "answer" || what == "undo") kept = change(session, lines, *request, options);
      else if (what == "why") {
        lines.write({{"type", "why"}, {"text", diagnosis_why_text(session)}});
        continue;
      } else if (what != "step") throw refused_line("The field 'do' must be one of: answer, undo, step, why, pause.");
    } catch (const Error& error) {
      lines.write_error(error);
      continue;
    }
    if (!kept.empty()) keep(kept, session.house()), ++lines.number;
    lines.write(diagnosis_step_json(session, lines.number));
  }
  return session.step().kind == DiagnosisStepKind::done ? TraceEnd::done : TraceEnd::input_ended;
}

}  // namespace ohmstead
