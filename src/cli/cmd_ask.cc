#include <istream>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/ask.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "json/json_ask.h"
#include "json/json_line.h"
#include "json/json_text.h"

namespace ohmstead {

namespace {

void show_answer(Session& session, const AskAnswer& answer) {
  if (!answer.understood.empty()) session.out << "(Asked: " << terminal::printable(answer.understood) << ")\n";
  show(session, answer.lines);
}

/// A line at a time until the input ends, or "quit". Each answer knows the question before it.
int run_sitting(Session& session, const AskFrom& from) {
  const bool talks = session.in_is_terminal && !session.json;
  if (talks) session.out << "Ask a line at a time, such as: which breaker for the dishwasher. An empty line ends it.\n";
  Sitting sitting;
  bool yes = true;
  for (;;) {
    if (talks) session.out << "? " << std::flush;
    const auto line = read_json_line(session.in);
    if (!line) break;
    const std::string words = line->value_or(std::string(kLongestQuestion + 1, 'x'));  // too long: it is not understood
    const bool blank = words.find_first_not_of(" \t\r") == std::string::npos;
    if (talks && (blank || words == "quit" || words == "q")) break;
    if (blank) continue;
    const AskAnswer answer = answer_question(from, sitting, words);
    yes = answer.yes;
    if (session.json)
      session.out << json_of_ask(from.names, answer).dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) << '\n';
    else
      show_answer(session, answer);
    session.out << (session.json ? "" : "\n") << std::flush;
  }
  return yes ? kDone : kDoneButNo;
}

}  // namespace

int run_ask(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const AskFrom from{record, names, session.now(), {session.clock_ahead}};
  const std::string words = phrase(arguments.texts("WORDS"));
  if (words.empty()) return run_sitting(session, from);
  Sitting sitting;
  const AskAnswer answer = answer_question(from, sitting, words);
  if (session.json)
    session.out << json_text(json_of_ask(names, answer));
  else
    show_answer(session, answer);
  return answer.yes ? kDone : kDoneButNo;
}

}  // namespace ohmstead
