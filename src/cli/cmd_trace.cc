#include <functional>
#include <ostream>

#include "cli/exit_code.h"
#include "cli/keeper.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "cli/trace_lines.h"
#include "cli/trace_terminal.h"

namespace ohmstead {

int run_trace(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  Keeper keeper(file);
  TraceSession tracing(keeper.house());
  TraceOptions options{.now = session.now, .who = arguments.text("--who"), .single_keys = session.in_is_terminal};
  const KeepFn keep = std::ref(keeper);
  const bool by_program = arguments.has("--json-lines");
  const TraceEnd end = by_program ? run_trace_lines(tracing, session.in, session.out, keep, options)
                                  : run_trace_terminal(tracing, session.in, session.out, keep, options);
  if (end == TraceEnd::input_ended && !by_program) return kDoneButNo;  // the session has said so
  return kDone;
}

}  // namespace ohmstead
