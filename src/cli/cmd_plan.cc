#include <algorithm>
#include <ostream>

#include "ask/plan_answer.h"
#include "ask/printable.h"
#include "ask/turns.h"
#include "cli/exit_code.h"
#include "json/json_backup.h"
#include "cli/open_house.h"
#include "cli/plan_columns.h"
#include "cli/run.h"
#include "house/index.h"

namespace ohmstead {

namespace {

std::size_t source_of(const House& house, const Names& names, const Arguments& arguments) {
  if (!arguments.has("--source")) return the_only_source(house);
  const Id<Source> id = names.one_source(arguments.text("--source"));
  return static_cast<std::size_t>(std::ranges::find(house.sources, id, &Source::id) - house.sources.begin());
}

/// One more pin of this command. What the command itself says twice is refused; what was pinned before gives way (set_pins).
void add_pin(const House& house, const Names& names, std::vector<Pin>& added, const Pin& pin) {
  for (const Pin& other : added) {
    if (other.breaker == pin.breaker)
      throw Error(ErrorKind::invalid_input, "Two pins of this command are for " + names.name_of(HandleRef{HandleKind::breaker, pin.breaker.value}) +
                                            "; a circuit has one place or none, so say one of them. Nothing was changed.");
    if (pin.position && other.position == pin.position)
      throw Error(ErrorKind::invalid_input, "Two things of this command are pinned to position " + std::to_string(row(house, pin.position).number) +
                                            ", and a position carries one circuit; give each its own. Nothing was changed.");
  }
  added.push_back(pin);
}

void set_pins(House& house, const std::vector<Pin>& added) {
  for (const Pin& pin : added) {
    std::erase_if(house.pins, [&](const Pin& old) { return old.breaker == pin.breaker || (pin.position && old.position == pin.position); });
    house.pins.push_back(pin);
  }
}

/// The position that is meant; of tied ones, "5+6" or "position 5+6" as the screens write them, the first.
Id<Position> position_of(const House& house, const Names& names, std::string place) {
  if (!place.empty() && place.find_first_not_of("0123456789+") == std::string::npos) place = "position " + place;
  const std::size_t plus = place.find('+');
  const Id<Position> first{names.one(place.substr(0, plus), {ThingKind::position}).id};
  if (plus == std::string::npos) return first;
  std::string tied;  // as it is marked
  for (const Position& position : house.positions)
    if (position.tie && position.tie == row(house, first).tie) tied += (tied.empty() ? "" : "+") + std::to_string(position.number);
  const std::string said = place.substr(place.find_last_not_of("0123456789+") + 1);
  if (said != tied)
    throw Error(ErrorKind::not_found, "No tied positions are called '" + terminal::printable(said.substr(0, 60)) + "'" + (tied.empty() ? "" : "; there are " + tied) + ".");
  return first;
}

/// "freezer on 3", "well pump on T5", "well pump on 5+6".
Pin pin_to(const Record& record, const Names& names, const std::string& words) {
  const std::size_t on = words.rfind(" on ");
  if (on == std::string::npos)
    throw Error(ErrorKind::invalid_input, "--pin takes a thing and a position, such as --pin 'freezer on 3', not '" + terminal::printable(words.substr(0, 60)) + "'.");
  const Id<Position> position = position_of(record.house, names, words.substr(on + 4));
  return {Id<Pin>::fresh(), breaker_of(record, names, words.substr(0, on)), false, position};
}

/// Takes in the pins of the command line.
void take_pins(HouseFile& file, const Arguments& arguments) {
  file.change("pins of the plan", [&](House& house) {
    const Record record = make_record(house);
    const Names names(house);
    House next = house;
    for (const std::string& words : arguments.texts("--unpin")) {
      const Id<Breaker> breaker = words == "all" ? Id<Breaker>{} : breaker_of(record, names, words);
      std::erase_if(next.pins, [&](const Pin& pin) { return !breaker || pin.breaker == breaker; });
    }
    std::vector<Pin> added;
    for (const std::string& words : arguments.texts("--pin")) add_pin(house, names, added, pin_to(record, names, words));
    for (const bool never : {false, true})
      for (const std::string& words : arguments.texts(never ? "--never" : "--must"))
        add_pin(house, names, added, {Id<Pin>::fresh(), breaker_of(record, names, words), never, {}});
    set_pins(next, added);
    house.pins = next.pins;
  });
}

void keep(HouseFile& file, const House& seen, const PlanAnswer& answer, Session& session) {
  if (answer.plan.end == PlanEnd::impossible || answer.plan.placed.empty())
    throw Error(ErrorKind::invalid_input, "There is no plan that could be kept; nothing was changed.");
  const auto revision = file.change("kept a plan for outages", [&](House& house) {
    if (house != seen) throw Error(ErrorKind::conflict, "The house was changed meanwhile, and the plan was not kept; run `ohmstead plan --keep` again.");
    house.planned = planned_rows(answer.backup, answer.plan);
  });
  if (!session.json) session.out << "Kept as the plan, revision " << revision << ". Next, for whoever does the wiring: ohmstead worksheet\n";
}

void show_plan(Session& session, const Record& record, const Names& names, const PlanAnswer& answer) {
  const Lines lines = words_of_plan(record, names, answer);
  if (session.json) {
    session.out << json_of_plan(record, names, answer, lines);
    return;
  }
  show(session, lines);
  if (answer.plan.placed.empty()) return;
  session.out << '\n';
  for (const std::string& line : plan_columns(record.house, plan_picture(answer.backup, answer.plan), 78)) session.out << line << '\n';
}

std::vector<int> sizes_given(const std::string& words) {
  std::vector<int> sizes;
  std::string number;
  for (const char c : words + ",") {
    if (c >= '0' && c <= '9' && number.size() < 7) number += c;
    else if (c == ',' || c == ' ') {
      if (!number.empty()) sizes.push_back(std::stoi(number));
      number.clear();
    } else throw Error(ErrorKind::invalid_input, "--sizes takes watts parted by commas, such as --sizes 3000,5000,7500.");
  }
  if (sizes.empty()) throw Error(ErrorKind::invalid_input, "--sizes names no size; give watts parted by commas, such as --sizes 3000,5000,7500.");
  return sizes;
}

}  // namespace

int run_plan(Session& session, const Arguments& arguments) {
  const bool pins = arguments.has("--pin") || arguments.has("--must") || arguments.has("--never") || arguments.has("--unpin");
  HouseFile file = open_house(session, pins || arguments.has("--keep") ? Access::change : Access::read);
  if (pins) take_pins(file, arguments);
  const House house = file.load();
  const Record record = make_record(house);
  const Names names(record.house);
  const std::size_t source = source_of(record.house, names, arguments);
  const PlanAnswer answer = arguments.has("--kept") ? kept_plan_for(record, source) : best_plan_for(record, source);
  Lines lines;
  const auto add = [&](const Lines& more) { lines.insert(lines.end(), more.begin(), more.end()); };
  for (const std::string& words : arguments.texts("--why-not")) add(words_of_why_not(record, names, answer, breaker_of(record, names, words)));
  if (arguments.has("--others")) add(words_of_alternatives(record, answer));
  if (arguments.has("--sizes")) add(words_of_sizes(record, answer, sizes_given(arguments.text("--sizes"))));
  if (arguments.has("--smallest")) add(words_of_smallest(record, answer));
  if (arguments.has("--in-turn")) add(words_of_turns(record, turns_for(record, source)));
  const bool asked = arguments.has("--why-not") || arguments.has("--others") || arguments.has("--sizes") || arguments.has("--smallest") || arguments.has("--in-turn");
  if (!asked) show_plan(session, record, names, answer);
  else if (session.json) session.out << json_of_lines("plan", lines);
  else show(session, lines);
  if (arguments.has("--keep")) keep(file, house, answer, session);
  return answer.plan.end == PlanEnd::impossible || answer.plan.placed.empty() ? kDoneButNo : kDone;
}

}  // namespace ohmstead
