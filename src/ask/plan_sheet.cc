#include "ask/plan_sheet.h"

#include <algorithm>

#include "ask/plan_parts.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/plan_measure.h"
#include "house/index.h"

namespace ohmstead {

using namespace plan_words;

namespace {

/// The words behind their first one: "Position 3 (15 A)" -> "3 (15 A)".
std::string without_first_word(const std::string& words) { return words.substr(words.find(' ') + 1); }

std::string legs_words(const BackupCase& backup, const Placed& placed) {
  std::vector<std::string> legs;
  for (const int leg : legs_of(backup.problem, placed))
    if (leg >= 0 && std::ranges::find(legs, std::to_string(leg + 1)) == legs.end()) legs.push_back(std::to_string(leg + 1));
  std::ranges::sort(legs);
  return joined(legs);
}

PlanSheetLoad sheet_load(const House& house, const CarriedLoad& carried) {
  const int running = planned_running(carried.figures), starting = planned_starting(carried.figures);
  return {(carried.use == LoadUse::on_demand ? "when wanted: " : "") + load_text(house, house.loads[carried.load]),
          carried.figures.known ? watts_text(running) : "?", starting > running ? watts_text(starting) : ""};
}

PlanSheetRow sheet_row(const House& house, const BackupCase& backup, const Placed& placed) {
  const CarriedCircuit& circuit = backup.circuits[static_cast<std::size_t>(placed.circuit)];
  const bool stays = placed.position[0] < 0;
  PlanSheetRow row{stays ? "" : without_first_word(place_words(house, backup, placed)), legs_words(backup, placed),
                   without_first_word(breaker_words(house, circuit)), {}};
  for (const bool on_demand : {false, true})
    for (std::size_t l = 0; l < circuit.loads.size(); ++l)
      if (placed.served[l] && (circuit.loads[l].use == LoadUse::on_demand) == on_demand) row.loads.push_back(sheet_load(house, circuit.loads[l]));
  return row;
}

int first_number(const House& house, const BackupCase& backup, const Placed& placed) {
  return placed.position[0] < 0 ? 0 : row(house, backup.positions[static_cast<std::size_t>(placed.position[0])]).number;
}

std::string what_words(const Record& record, const PlanAnswer& answer) {
  const Source& source = record.house.sources[answer.backup.source];
  std::string words = source.name + ": " + watts_text(answer.backup.problem.source.running) + " running, " + watts_text(answer.backup.problem.source.starting) + " for a start";
  switch (answer.backup.hookup) {
    case Hookup::positions: words += ", on " + sentence::counted(answer.backup.positions.size(), "position", "positions") + " of the transfer device."; break;
    case Hookup::interlock: words += ", through a breaker of the panel that is interlocked with its main."; break;
    case Hookup::subpanel: words += ", for every panel behind it."; break;
  }
  return words;
}

}  // namespace

PlanSheet plan_sheet(const Record& record, const Names& names, const PlanAnswer& answer) {
  PlanSheet sheet;
  sheet.what = what_words(record, answer);
  sheet.positions = answer.backup.hookup == Hookup::positions;
  sheet.wired = answer.wired;
  say_life_safety_first(record, answer, sheet.doubts);
  say_doubts(record, names, answer, sheet.doubts);
  if (answer.best) sentence::say(sheet.doubts, LineKind::answer, "A better plan is possible now; see `ohmstead plan`.");
  std::vector<Placed> placed = answer.plan.placed;
  std::ranges::stable_sort(placed, {}, [&](const Placed& one) { return first_number(record.house, answer.backup, one); });
  for (const Placed& one : placed) sheet.rows.push_back(sheet_row(record.house, answer.backup, one));
  say_sums(record, answer, sheet.sums);
  say_fuel(record, answer, sheet.sums);
  say_flags(record, answer, sheet.flags);
  say_free_positions(record, answer, sheet.flags);
  say_not_served(record, answer, sheet.not_served);
  return sheet;
}

std::vector<std::string> text_of(const PlanSheet& sheet) {
  std::vector<std::string> lines;
  for (const Line& doubt : sheet.doubts)
    if (doubt.kind == LineKind::danger) lines.push_back(doubt.text);
  lines.push_back(sheet.what);
  for (const PlanSheetRow& row : sheet.rows) {
    std::vector<std::string> loads;
    for (const PlanSheetLoad& load : row.loads) loads.push_back(load.words + " " + load.running);
    lines.push_back((sheet.positions ? "Position " + row.place + ", breaker " : "Breaker ") + row.breaker + (sheet.positions ? "" : " stays on") + ", " +
                    (loads.empty() ? "nothing wished for" : joined(loads)) + ".");
  }
  for (const Line& line : sheet.sums) {
    lines.push_back(line.text);
    for (const std::string& item : line.items) lines.push_back(item + ".");
  }
  return lines;
}

}  // namespace ohmstead
