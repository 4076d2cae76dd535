#include "json/outage_desk.h"

#include <nlohmann/json.hpp>

#include "ask/outage_ask.h"
#include "json/json_line.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

std::string take_answer(OutageBoard& board, const Json& request, const TraceOptions& options) {
  const auto kind = word_field<OutageAnswerKind>(request, "answer");
  if (!kind) throw refused_line("The field 'answer' must be one of: " + word_list<OutageAnswerKind>() + ".");
  board.answer({*kind, options.now(), options.who});
  return "Outage step answered";
}

std::string take_told(OutageBoard& board, const Names& names, const Json& request, const TraceOptions& options) {
  OutageEvent event = told_in_words(board.view(), names, text_field(request, "what"), text_field(request, "thing"), text_field(request, "at"));
  event.at = options.now(), event.who = options.who;
  board.tell(event);
  return "Outage log";
}

}  // namespace

std::string take_outage_request(OutageBoard& board, const Names& names, const Json& request, const TraceOptions& options) {
  const std::string what = text_field(request, "do");
  if (what == "answer") return take_answer(board, request, options);
  if (what == "tell") return take_told(board, names, request, options);
  if (what != "undo") throw refused_line("The field 'do' must be one of: answer, tell, undo.");
  if (!board.undo()) throw refused_line("There is nothing to take back in the outage under way.");
  return "Took back a line of the outage log";
}

}  // namespace ohmstead
