#include <functional>
#include <ostream>

#include "ask/names.h"
#include "cli/exit_code.h"
#include "db/keeper.h"
#include "cli/manner_options.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "cli/trace_lines.h"
#include "cli/trace_terminal.h"
#include "trace/behind.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

/// What the session asks about: the handle of --behind, until everything about it was asked.
void choose_handle(Keeper& keeper, const std::string& words) {
  House next = keeper.house();
  if (words == "nothing") ask_behind(next, {});
  else if (!words.empty()) ask_behind(next, Names(next).one_handle(words));
  else if (asked_behind(next) && TraceSession(next).step().kind == StepKind::done) ask_behind(next, {});
  if (next == keeper.house()) return;
  const HandleRef asked = asked_behind(next);
  keeper(asked ? "Asked what " + handle_name(next, asked) + " takes down" : "Asked about breakers again", next);
}

/// Takes in what the command line says of the way of working, and keeps it if it is new.
void begin(TraceSession& tracing, const Arguments& arguments, const KeepFn& keep) {
  const House before = tracing.house();
  const Names names(before);
  const Manner kept = manner_of(before), manner = manner_given(arguments, before, names, kept);
  require_some_wanted(before, manner);
  const auto again = again_given(arguments, before, names);
  if (manner != kept) tracing.work_as(manner);
  if (!again.empty()) tracing.again(again);
  if (arguments.has("--retry-skipped")) tracing.forget_skipped();
  if (tracing.house() != before) keep("How to trace was changed", tracing.house());
}

}  // namespace

int run_trace(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  Keeper keeper(file);
  choose_handle(keeper, arguments.text("--behind"));
  TraceSession tracing(keeper.house());
  TraceOptions options{.now = session.now, .who = arguments.text("--who"), .single_keys = session.in_is_terminal};
  const KeepFn keep = std::ref(keeper);
  begin(tracing, arguments, keep);
  const bool by_program = arguments.has("--json-lines");
  const TraceEnd end = by_program ? run_trace_lines(tracing, session.in, session.out, keep, options)
                                  : run_trace_terminal(tracing, session.in, session.out, keep, options);
  if (end != TraceEnd::input_ended) return kDone;
  if (by_program)  // at the terminal the session has said so
    session.err << "The input ended before the session did. Every answer so far is kept; start again and it goes on from here.\n";
  return kDoneButNo;
}

}  // namespace ohmstead
