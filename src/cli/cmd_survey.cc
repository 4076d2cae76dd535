#include <functional>

#include "cli/exit_code.h"
#include "db/keeper.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "cli/survey_terminal.h"

namespace ohmstead {

int run_survey(Session& session, const Arguments&) {
  HouseFile file = open_house(session, Access::change);
  Keeper keeper(file);
  WalkThrough survey(keeper.house());
  const SurveyEnd end = run_survey_terminal(survey, session.in, session.out, std::ref(keeper));
  return end == SurveyEnd::input_ended ? kDoneButNo : kDone;  // the survey has said so
}

}  // namespace ohmstead
