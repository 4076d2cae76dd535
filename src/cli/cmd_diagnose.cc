#include <algorithm>
#include <array>
#include <functional>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/diagnosis_words.h"
#include "ask/printable.h"
#include "ask/saw.h"
#include "ask/saw_clauses.h"
#include "ask/words.h"
#include "cli/diagnose_terminal.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/keeper.h"
#include "json/json_diagnose.h"
#include "json/json_text.h"

namespace ohmstead {

namespace {

Before before_given(const Arguments& arguments) {
  const std::string word = arguments.text("--before");
  if (word.empty()) return Before::not_known;
  for (const auto& [said, before] : {std::pair{"storm", Before::storm}, {"appliance", Before::appliance_started}, {"work", Before::work_done}, {"backup", Before::to_backup}})
    if (word == said) return before;
  throw Error(ErrorKind::invalid_input, "--before must be storm, appliance, work or backup, not '" + terminal::printable(word.substr(0, 40)) + "'.");
}

/// What is dead and live, as `saw` reads it; a thing without a word for how it is, is dead.
DiagnosisStart told(const House& house, const Arguments& arguments) {
  const Names names(house);
  std::string text = phrase(arguments.texts("THING"));
  for (const std::string& live : arguments.texts("--live")) text += "; " + live + " live";
  if (saw_clauses(text).understood.empty() || !saw_clauses(text).not_understood.empty()) {
    text = phrase(arguments.texts("THING")) + " dead";
    for (const std::string& live : arguments.texts("--live")) text += "; " + live + " live";
  }
  Sighting sighting;
  read_saw(house, names, text, sighting);
  DiagnosisStart start;
  for (const SeenPoint& seen : sighting.seen) (seen.dead ? start.dead : start.live).push_back(house.points[seen.point].id);
  for (const HandleRef& handle : sighting.off)
    (std::ranges::find(sighting.tripped, handle) == sighting.tripped.end() ? start.off : start.tripped).push_back(handle);
  return start;
}

House begun(const House& house, const Arguments& arguments, const std::string& now) {
  Diagnosis diagnosis{.id = Id<Diagnosis>::fresh(), .at = now, .who = arguments.text("--who"), .before = before_given(arguments), .meter = arguments.has("--meter")};
  const Record record = make_record(house);
  if (const Supplied supplied = supplied_by(record, Names(house), arguments); supplied.source > 0) diagnosis.source = house.sources[static_cast<std::size_t>(supplied.source - 1)].id;
  return begin_diagnosis(house, diagnosis, told(house, arguments));
}

/// The house with the session to go on with, new or left open.
House with_session(const House& house, const Arguments& arguments, const std::string& now) {
  if (arguments.has("THING")) return begun(house, arguments, now);
  if (open_diagnosis(house)) return house;
  throw Error(ErrorKind::invalid_input, "Say what is dead, such as `ohmstead diagnose kitchen light`; no diagnosis is left open to go on with.");
}

Id<Diagnosis> last_of(const House& house) { return open_diagnosis(house) ? open_diagnosis(house) : house.diagnoses.back().id; }

/// Bright, dim and flickering lights are no case for questions.
bool tells_of_too_bright(const Arguments& arguments) {
  const std::string words = " " + folded(phrase(arguments.texts("THING"))) + " ";
  return std::ranges::any_of(std::array{"bright", "brighter", "dim", "flicker", "flickers", "flickering"},
                             [&](const char* word) { return words.find(" " + std::string(word) + " ") != std::string::npos; });
}

int say_too_bright(Session& session) {
  std::string text = kTooBright;
  std::ranges::replace(text, '\n', ' ');
  const Lines lines{{LineKind::danger, "If anything is brighter than usual: " + text, {}},
                    {LineKind::answer, "If things are only dimmer, and those of 240 V do not work, a leg may be lost: the main off, and the utility called, too.", {}},
                    {LineKind::answer, "If it is one lamp alone, it is the lamp or its dimmer: `ohmstead diagnose THING` without that word.", {}}};
  if (session.json) session.out << json_text(started_json("diagnose", lines));
  else show(session, lines);
  return kDoneButNo;
}

}  // namespace

int run_diagnose(Session& session, const Arguments& arguments) {
  if (tells_of_too_bright(arguments)) return say_too_bright(session);
  HouseFile file = open_house(session, session.json ? Access::read : Access::change);
  if (session.json) {
    const House house = with_session(file.load(), arguments, session.now());
    session.out << json_of_diagnosis(DiagnosisSession(house, last_of(house)));
    return kDone;
  }
  Keeper keeper(file);
  const House begun = with_session(keeper.house(), arguments, session.now());
  DiagnosisSession diagnosis(begun, last_of(begun));
  if (diagnosis.house() != keeper.house()) keeper("Diagnosis: something is dead", diagnosis.house());
  const TraceOptions options{.now = session.now, .who = arguments.text("--who"), .single_keys = session.in_is_terminal};
  const KeepFn keep = std::ref(keeper);
  const bool by_program = arguments.has("--json-lines");
  const TraceEnd end = by_program ? run_diagnose_lines(diagnosis, session.in, session.out, keep, options)
                                  : run_diagnose_terminal(diagnosis, session.in, session.out, keep, options);
  if (end == TraceEnd::input_ended) {
    if (by_program) session.err << "The input ended before the session did. Every answer so far is kept; start again and it goes on from here.\n";
    return kDoneButNo;
  }
  if (by_program || end == TraceEnd::paused) return kDone;
  session.out << '\n';
  show(session, words_of_diagnosis(diagnosis));
  return diagnosis.step().end == DiagnosisEnd::cured ? kDone : kDoneButNo;
}

}  // namespace ohmstead
