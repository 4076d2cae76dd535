#include <algorithm>
#include <functional>
#include <ostream>

#include "ask/calculation_words.h"
#include "ask/plan_answer.h"
#include "ask/printable.h"
#include "cli/calculate_options.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "json/json_calculation.h"

namespace ohmstead {

namespace {

/// Options by what they belong to; what does not belong is refused instead of ignored.
struct Belongs {
  const char* what;
  std::vector<std::string> options;
};
const std::vector<Belongs>& options_by_kind() {
  static const std::vector<Belongs> rows{
      {"load", {"--area", "--item", "--method", "--small-appliance", "--laundry", "--record", "--edition"}},
      {"drop", {"--circuit", "--wire", "--metal", "--feet", "--meters", "--amps", "--volts", "--phases", "--conductor-c", "--stranded", "--conduit", "--pf"}},
      {"ampacity", {"--wire", "--metal", "--insulation", "--ambient-c", "--conductors", "--terminals", "--nm-cable", "--receptacles", "--motor", "--edition"}},
      {"add", {"THING", "--area", "--service", "--small-appliance", "--laundry", "--edition"}},
      {"neutral", {"--load", "--system"}},
  };
  return rows;
}

void check_options(const std::string& what, const Arguments& arguments) {
  const auto& rows = options_by_kind();
  const auto own = std::ranges::find(rows, what, &Belongs::what);
  if (own == rows.end())
    throw Error(ErrorKind::invalid_input, "'" + terminal::printable(what.substr(0, 40)) + "' cannot be calculated; say load, drop, ampacity, neutral or add.");
  for (const Belongs& row : rows)
    for (const std::string& option : row.options)
      if (arguments.has(option) && std::ranges::find(own->options, option) == own->options.end())
        throw Error(ErrorKind::invalid_input, (option == "THING" ? "Further words do" : option + " does") + " not belong to `calculate " + what + "`.");
}

/// On paper, as JSON, or on the screen.
void give(Session& session, const Arguments& arguments, const Shown& shown, const std::function<std::string()>& json) {
  if (arguments.has("--output")) print_calculation_paper(session, arguments, shown);
  else if (session.json) session.out << json();
  else show(session, shown.lines);
}

int show_load(Session& session, const Arguments& arguments) {
  RecordedDwelling dwelling;
  std::string house;
  if (arguments.has("--record")) {
    const Record record = load_record(session);
    dwelling = recorded_dwelling(record, edition_of(arguments));
    house = record.house.dwelling.name;
  }
  take_load_options(arguments, dwelling.given);
  const LoadAnswer answer = dwelling_load(dwelling.given);
  Lines lines = words_of_load(answer);
  const Lines gaps = words_of_gaps(dwelling);
  lines.insert(lines.end() - 1, gaps.begin(), gaps.end());
  give(session, arguments, {answer.calculation, lines, house}, [&] { return json_of_load(answer, lines); });
  return kDone;
}

int show_drop(Session& session, const Arguments& arguments) {
  DropCase given;
  std::string house;
  std::vector<std::string> taken;
  if (arguments.has("--circuit")) {
    const Record record = load_record(session);
    given = recorded_circuit(record, breaker_of(record, Names(record.house), arguments.text("--circuit")), taken);
    house = record.house.dwelling.name;
  }
  take_drop_options(arguments, given, !arguments.has("--circuit"));
  const DropAnswer answer = voltage_drop(given);
  Lines lines = words_of_drop(answer);
  if (!taken.empty()) lines.insert(lines.end() - 1, {LineKind::detail, "From the record:", taken});
  give(session, arguments, {answer.calculation, lines, house}, [&] { return json_of_drop(answer, lines); });
  return answer.percent <= kGoodPercent ? kDone : kDoneButNo;
}

int show_ampacity(Session& session, const Arguments& arguments) {
  const AmpacityAnswer answer = ampacity(ampacity_case(arguments));
  const Lines lines = words_of_ampacity(answer);
  give(session, arguments, {answer.calculation, lines, ""}, [&] { return json_of_ampacity(answer, lines); });
  return kDone;
}

int show_neutral(Session& session, const Arguments& arguments) {
  const NeutralAnswer answer = neutral_current(neutral_case(arguments));
  const Lines lines = words_of_neutral(answer);
  give(session, arguments, {answer.calculation, lines, ""}, [&] { return json_of_neutral(answer, lines); });
  return kDone;
}

int show_add(Session& session, const Arguments& arguments) {
  const std::string words = phrase(arguments.texts("THING"));
  if (words.empty()) throw Error(ErrorKind::invalid_input, "Say what is to be added, such as `ohmstead calculate add 'car charger 40 A'`.");
  AddCase given{.added = item_in_words(words)};
  const Record record = load_record(session);
  RecordedDwelling dwelling = recorded_dwelling(record, edition_of(arguments));
  take_load_options(arguments, dwelling.given);
  dwelling.service_amps = static_cast<int>(arguments.number("--service", dwelling.service_amps, 0, 2000));
  given.house = dwelling.given;
  given.service_amps = dwelling.service_amps;
  given.continuous = given.added.kind == LoadClass::vehicle || given.added.kind == LoadClass::heating || given.added.kind == LoadClass::supplementary_heat;
  const AddAnswer answer = may_add(given);
  const Lines lines = words_of_add(dwelling, given.added, answer);
  give(session, arguments, {answer.calculation, lines, record.house.dwelling.name}, [&] { return json_of_add(dwelling, answer, lines); });
  return answer.verdict == MayAdd::fits && dwelling.missing.empty() ? kDone : kDoneButNo;
}

}  // namespace

int run_calculate(Session& session, const Arguments& arguments) {
  const std::string what = arguments.text("WHAT");
  check_options(what, arguments);
  if (what == "load") return show_load(session, arguments);
  if (what == "drop") return show_drop(session, arguments);
  if (what == "neutral") return show_neutral(session, arguments);
  return what == "ampacity" ? show_ampacity(session, arguments) : show_add(session, arguments);
}

}  // namespace ohmstead
