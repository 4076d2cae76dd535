#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/printable.h"
#include "ask/worksheet_words.h"
#include "cli/exit_code.h"
#include "json/json_text.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

/// The key of the step that is meant by a number, by 'next' or by the key itself.
std::string key_of(const Worksheet& sheet, const std::string& words) {
  if (words == "next") {
    const auto open = std::ranges::find(sheet.steps, false, &WorkStep::done);
    if (open == sheet.steps.end()) throw Error(ErrorKind::not_found, "Every step of the worksheet is ticked already.");
    return open->key;
  }
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), number);
  if (error == std::errc{} && end == words.data() + words.size() && number >= 1 && number <= sheet.steps.size()) return sheet.steps[number - 1].key;
  if (std::ranges::find(sheet.steps, words, &WorkStep::key) != sheet.steps.end()) return words;
  throw Error(ErrorKind::not_found, "The worksheet has no step '" + terminal::printable(words.substr(0, 80)) + "'; its steps are numbered 1 to " +
                                        std::to_string(sheet.steps.size()) + ".");
}

Json step_json(const Record& record, const Names& names, const Worksheet& sheet, const WorkStep& step) {
  const WorkStepWords words = words_of_step(record, names, sheet, step);
  Json json{{"key", step.key}, {"kind", text_of(step.kind)}, {"part", part_of_step(step)}, {"moves_wire", step.moves_wire()}};
  json["text"] = words.text, json["details"] = words.details, json["cautions"] = words.cautions;
  if (step.position) json["position"] = {{"ref", text_of_ref(HandleRef{HandleKind::position, step.position.value})},
                                         {"name", names.name_of(HandleRef{HandleKind::position, step.position.value})}};
  if (step.breaker) json["breaker"] = {{"ref", text_of_ref(HandleRef{HandleKind::breaker, step.breaker.value})},
                                       {"name", names.name_of(HandleRef{HandleKind::breaker, step.breaker.value})}, {"pole", step.pole}};
  json["done"] = step.done, json["at"] = step.at, json["who"] = step.who;
  return json;
}

void show_json(Session& session, const Record& record, const Names& names, const Worksheet& sheet) {
  Json json = started_json("worksheet", words_of_worksheet(record, names, sheet));
  json["wires_move"] = sheet.wires_move, json["connected"] = sheet.connected, json["steps"] = Json::array();
  for (const WorkStep& step : sheet.steps) json["steps"].push_back(step_json(record, names, sheet, step));
  json["open"] = std::ranges::count(sheet.steps, false, &WorkStep::done);
  json["wiring_open"] = wiring_not_done(sheet).size();
  session.out << json_text(json);
}

/// Ticks, takes a tick back or writes the plan into the positions; `key` is then the step. False when steps are missing for that.
bool change(Session& session, const Arguments& arguments, HouseFile& file, std::string& key) {
  const House house = file.load();
  const Worksheet sheet = worksheet(house);
  const bool connected = arguments.has("--connected");
  if (connected && !wiring_not_done(sheet).empty()) {
    const Record record = make_record(house);
    show(session, words_of_missing(record, Names(record.house), sheet));
    return false;
  }
  const std::string done = arguments.text("--done"), undone = arguments.text("--undo"), who = arguments.text("--who");
  const std::string what = connected ? "the plan is connected" : "a step of the worksheet was " + std::string(done.empty() ? "opened again" : "done");
  if (!connected) key = key_of(sheet, done.empty() ? undone : done);
  file.change(what, [&](House& next) {
    if (!done.empty()) tick_step(next, key, session.now(), who);
    else if (connected) plan_is_connected(next);
    else if (!untick_step(next, key)) throw Error(ErrorKind::invalid_input, "That step is not ticked; nothing was changed.");
  });
  return true;
}

}  // namespace

int run_worksheet(Session& session, const Arguments& arguments) {
  const int asked = static_cast<int>(arguments.has("--done")) + static_cast<int>(arguments.has("--undo")) + static_cast<int>(arguments.has("--connected"));
  if (asked > 1) throw Error(ErrorKind::invalid_input, "Give one of --done, --undo and --connected at a time; nothing was changed.");
  HouseFile file = open_house(session, asked == 1 ? Access::change : Access::read);
  std::string key;
  if (asked == 1 && !change(session, arguments, file, key)) return kDoneButNo;
  const Record record = make_record(file.load());
  const Names names(record.house);
  const Worksheet sheet = worksheet(record.house);
  if (session.json) {
    show_json(session, record, names, sheet);
  } else if (arguments.has("--connected")) {
    session.out << "Recorded: the house is wired as the plan says. Have it checked as local code wants; then prove it: `ohmstead prove`. "
                   "`ohmstead worksheet` shows what was done and what is open.\n";
  } else if (!key.empty()) {
    show(session, words_of_tick(record, names, sheet, key));
  } else {
    show(session, words_of_worksheet(record, names, sheet));
  }
  return kDone;
}

}  // namespace ohmstead
