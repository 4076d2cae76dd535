#include <ostream>

#include "cli/exit_code.h"
#include "json/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

int run_status(Session& session, const Arguments&) {
  HouseFile file = open_house(session, Access::read);
  std::ostream nowhere(nullptr);
  const Record record = make_record(load_house(session, file, session.json ? nowhere : session.out));
  const Names names(record.house);
  const StandAnswer answer = how_it_stands(record);
  if (session.json) {
    session.out << json_of_answer(record, names, answer);
  } else {
    show(session, words_of_answer(record, names, answer));
    if (session.as_of.empty()) session.out << "Revision " << file.revision() << ", last changed " << file.changed_at().substr(0, 10) << " " << file.changed_at().substr(11, 5) << " UTC.\n";
  }
  return kDone;
}

}  // namespace ohmstead
