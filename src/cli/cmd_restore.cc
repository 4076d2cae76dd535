#include <algorithm>
#include <ostream>

#include "cli/exit_code.h"
#include "json/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

int run_restore(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const std::size_t point = point_place(record.house, names.one_point(phrase(arguments.texts("THING"))));
  const Supplied from = supplied_by(record, names, arguments);
  State now = state_when(record, {});
  if (from.source != 0) {  // an outage in which nothing was switched over yet
    now.live_legs[0] = 0;
    const State running = state_when(record, from);
    now.live_legs = running.live_legs;
  }
  for (const std::string& word : arguments.texts("--off"))
    move_handle(record.graph, now, record.graph.handle_of(names.one_handle(word)), kOff);
  const RestoreAnswer answer = bring_back(record, point, now, from);
  if (session.json) session.out << json_of_answer(record, names, answer);
  else show(session, words_of_answer(record, names, answer));
  return answer.restoration.cannot == CannotRestore::none ? kDone : kDoneButNo;
}

}  // namespace ohmstead
