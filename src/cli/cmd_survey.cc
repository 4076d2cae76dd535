#include <functional>
#include <ostream>

#include "cli/exit_code.h"
#include "cli/keeper.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "cli/survey_terminal.h"

namespace ohmstead {

int run_survey(Session& session, const Arguments&) {
  HouseFile file = open_house(session, Access::change);
  Keeper keeper(file);
  WalkThrough survey(keeper.house());
  if (run_survey_terminal(survey, session.in, session.out, std::ref(keeper)) != SurveyEnd::input_ended) return kDone;
  session.err << "ohmstead: the input ended. Every answer given is saved; run `ohmstead survey` to go on.\n";
  return kDoneButNo;
}

}  // namespace ohmstead
