#include <ostream>

#include "cli/exit_code.h"
#include "json/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

/// The box that the words name; else the point, whose box may not be recorded.
IsolateAnswer isolate_named(const Record& record, const Names& names, const std::string& words) {
  const auto boxes = names.find(words, {ThingKind::box}).best;
  if (boxes.size() == 1) return isolate_box(record, {boxes[0].thing.id});
  const auto handles = names.find(words, {ThingKind::handle}).best;
  const auto points = names.find(words, {ThingKind::point, ThingKind::load}).best;
  if (points.empty() && handles.size() == 1)
    for (const Handle& handle : record.house.handles)
      if (handle.id.value == handles[0].thing.id && handle.box) return isolate_box(record, handle.box);
  return isolate_point(record, point_place(record.house, names.one_point(words)));
}

}  // namespace

int run_isolate(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const IsolateAnswer answer = isolate_named(record, names, phrase(arguments.texts("THING")));
  if (session.json) session.out << json_of_answer(record, names, answer);
  else show(session, words_of_answer(record, names, answer));
  return answer.isolation.possible && !answer.unknown_supply && answer.isolation.not_established.empty() ? kDone : kDoneButNo;
}

}  // namespace ohmstead
