#include <algorithm>
#include <functional>
#include <ostream>

#include "ask/proving_words.h"
#include "backup/plan_problem.h"
#include "backup/proof_start.h"
#include "cli/exit_code.h"
#include "json/json_prove.h"
#include "db/keeper.h"
#include "cli/open_house.h"
#include "cli/prove_terminal.h"
#include "cli/run.h"
#include "trace/conclude.h"

namespace ohmstead {

namespace {

Id<Source> source_given(const House& house, const Arguments& arguments) {
  if (arguments.has("--source")) return Names(house).one_source(arguments.text("--source"));
  return house.sources[the_only_source(house)].id;
}

Feeds feeds_for_proof(const House& house) { return conclude(without_proofs(house)); }

bool all_is_proved(const ProofReport& report) {
  if (report.panel) return report.panel->result == ProofResult::proved;
  return report.nothing_fed_from_two && std::ranges::all_of(report.units, [](const UnitProof& unit) { return unit.result == ProofResult::proved; });
}

int show_report(Session& session, const House& house, Id<Source> source) {
  const ProofReport report = proved(house, feeds_for_proof(house), source);
  if (session.json) session.out << json_of_proof(house, report, proving_left_text(house, source));
  else {
    Lines lines = words_of_proof(house, report);
    if (const std::string left = proving_left_text(house, source); !left.empty()) lines.insert(lines.begin(), {.kind = LineKind::danger, .text = left});
    show(session, lines);
  }
  return all_is_proved(report) ? kDone : kDoneButNo;
}

/// Writes what was found into the positions.
int record_as_found(Session& session, Keeper& keeper, Id<Source> source) {
  const House& house = keeper.house();
  const auto next = recorded_as_found(house, proved(house, feeds_for_proof(house), source));
  if (!next) throw Error(ErrorKind::invalid_input, "No position was found to carry another circuit than the record says; nothing was changed.");
  keeper("Positions are recorded as they were found", *next);
  session.out << "Recorded: the positions carry what was found on them. Make the plan anew on this wiring: `ohmstead plan`.\n";
  return show_report(session, keeper.house(), source);
}

void prepare(Keeper& keeper, const Arguments& arguments) {
  if (!arguments.has("--again")) return;
  House next = keeper.house();
  prove_anew(next);
  std::erase_if(next.settings, [](const Setting& setting) { return setting.name.starts_with(kProveCaution) || setting.name.starts_with(kProveStuck) || setting.name == kProveNoSource; });
  keeper("Proving begins anew", next);
}

void offer(Session& session, const House& house, Id<Source> source) {
  const ProofReport report = proved(house, feeds_for_proof(house), source);
  if (recorded_as_found(house, report))
    session.out << "Have the wiring put right; or keep it as it is: `ohmstead prove --record-as-found` writes down what each position really carries, and "
                   "`ohmstead plan` plans on that.\n";
}

}  // namespace

int run_prove(Session& session, const Arguments& arguments) {
  const bool only_tells = arguments.has("--status") || session.json;
  HouseFile file = open_house(session, only_tells ? Access::read : Access::change);
  if (only_tells) {
    const House house = file.load();
    return show_report(session, house, source_given(house, arguments));
  }
  Keeper keeper(file);
  const Id<Source> source = source_given(keeper.house(), arguments);
  if (arguments.has("--record-as-found")) return record_as_found(session, keeper, source);
  prepare(keeper, arguments);
  ProvingSession proving(keeper.house(), feeds_for_proof(keeper.house()), source);
  if (arguments.has("--retry-skipped")) {
    proving.forget_skipped();
    if (proving.house() != keeper.house()) keeper("Proving: what was skipped may be asked for again", proving.house());
  }
  const TraceOptions options{.now = session.now, .who = arguments.text("--who"), .single_keys = session.in_is_terminal};
  const KeepFn keep = std::ref(keeper);
  const bool by_program = arguments.has("--json-lines");
  const TraceEnd end = by_program ? run_prove_lines(proving, session.in, session.out, keep, options)
                                  : run_prove_terminal(proving, session.in, session.out, keep, options);
  if (end == TraceEnd::input_ended) {
    if (by_program) session.err << "The input ended before the session did. Every answer so far is kept; start again and it goes on from here.\n";
    return kDoneButNo;
  }
  if (by_program || end == TraceEnd::paused) return kDone;
  session.out << '\n';
  const int code = show_report(session, keeper.house(), source);
  offer(session, keeper.house(), source);
  return code;
}

}  // namespace ohmstead
