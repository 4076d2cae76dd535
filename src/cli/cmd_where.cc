#include <algorithm>
#include <ostream>

#include "ask/notes.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "json/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "house/index.h"

namespace ohmstead {

namespace {

/// The handle that was asked for; who names a point instead is told which question it belongs to.
HandleRef asked_handle(const Names& names, const std::string& words) {
  try {
    return names.one_handle(words);
  } catch (const Error& error) {
    if (error.kind != ErrorKind::not_found || names.find(words, {ThingKind::point}).best.empty()) throw;
    throw Error(ErrorKind::not_found, "'" + words + "' is not a breaker or another handle; `ohmstead where " + words + "` tells what feeds it.");
  }
}

}  // namespace

int run_where(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const WhereAnswer answer = where_is(record, point_place(record.house, names.one_point(phrase(arguments.texts("THING")))));
  if (session.json) session.out << json_of_answer(record, names, answer);
  else {
    show(session, words_of_answer(record, names, answer));
    show(session, words_of_notes(record.house, names, notes_about(record.house, thing_of(record.house.points[answer.point]))));
  }
  return answer.feed.taps.empty() ? kDoneButNo : kDone;
}

int run_carries(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const CarriesAnswer answer = what_does_it_carry(record, asked_handle(names, phrase(arguments.texts("HANDLE"))));
  if (session.json) session.out << json_of_answer(record, names, answer);
  else show(session, words_of_answer(record, names, answer));
  return answer.points.empty() ? kDoneButNo : kDone;
}

}  // namespace ohmstead
