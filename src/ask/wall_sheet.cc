#include "ask/wall_sheet.h"

#include <algorithm>
#include <optional>
#include <set>

#include "ask/fuel_words.h"
#include "ask/outage_parts.h"
#include "ask/plan_parts.h"
#include "ask/plan_wiring.h"
#include "ask/sentence.h"
#include "ask/wall_loads.h"
#include "ask/wall_steps.h"
#include "ask/watts.h"
#include "backup/food_times.h"
#include "backup/typical_loads.h"
#include "house/index.h"

namespace ohmstead {

using namespace wall_words;

namespace {

WallItem sentence_item(std::string text) { return {"", "", std::move(text)}; }

/// What of the house is not in the plan. It is never called dead: it may be fed another way.
const char* others_words(Hookup hookup) {
  switch (hookup) {
    case Hookup::positions: return "Everything else waits for the utility, as planned. No wire is dead because of that.";
    case Hookup::interlock: return "Every other breaker of the panel stays OFF until the utility is back. No wire is dead because of that.";
    case Hookup::subpanel: break;
  }
  return "Everything else behind it may have power too, and adds up: leave it switched off.";
}

class Sheet {
 public:
  Sheet(const Record& record, const PlanAnswer& answer)
      : record_(record), answer_(answer), source_(record.house.sources[answer.backup.source]), wired_(house_as_planned(record.house)), carried_(carried_of(record.house, answer)) {}

  WallSheet make() {
    sheet_.source = source_.name + (record_.house.dwelling.name.empty() ? "" : ", for " + record_.house.dwelling.name);
    add_urgent();
    add_steps();
    add_what_may_run();
    add_fuel();
    add_gave_up();
    add_home();
    add_food();
    add_to_fill();
    return std::move(sheet_);
  }

 private:
  WallPart& part(WallPartKind kind, std::string title) { return sheet_.parts.emplace_back(WallPart{kind, std::move(title), "", {}}); }

  /// " [2]": who says so is the second of the sources in the small print.
  std::string mark(Fact which) {
    const std::string words = cited(which).substr(outage_fact(which).sentence.size() + 2);  // behind the sentence and " ("
    const std::string who = words.substr(0, words.size() - 1);
    const auto found = std::ranges::find(sheet_.sources, who);
    const auto number = found - sheet_.sources.begin() + 1;
    if (found == sheet_.sources.end()) sheet_.sources.push_back(who);
    return " [" + std::to_string(number) + "]";
  }

  /// For the steps: nothing the second time. What the food needs is said with the food.
  std::optional<std::string> mark_once(Fact which) {
    if (which == Fact::throw_out || !said_.insert(which).second) return std::nullopt;
    return mark(which);
  }

  /// A fact of the shipped list.
  WallItem fact(Fact which) { return sentence_item(std::string(outage_fact(which).sentence) + mark(which)); }

  /// Several in one paragraph; who says so stands behind the last of those that one publisher says.
  WallItem facts(const std::vector<Fact>& which) {
    std::string text, last;
    for (const Fact one : which) {
      const std::string its = mark(one);
      if (its == last) text.resize(text.size() - last.size());
      text += (text.empty() ? "" : " ") + std::string(outage_fact(one).sentence) + its;
      last = its;
    }
    return sentence_item(text);
  }

  [[nodiscard]] bool is_engine() const { return source_.kind == SourceKind::generator; }

  void add_urgent() {
    Lines first;
    plan_words::say_wiring(record_, answer_, first);
    plan_words::say_no_interlock(record_, answer_, first);
    add_frames(first);
    add_life();
    add_not_carried();
    Lines doubts;  // what this sheet rests on and is not sure
    plan_words::say_doubts(record_, Names(record_.house), answer_, doubts);
    add_frames(doubts);
  }

  void add_frames(const Lines& lines) {
    for (const Line& line : lines)
      if (line.kind == LineKind::danger) part(WallPartKind::urgent, line.text);
  }

  void add_life() {
    if (carried_.life.empty()) return;
    WallPart& urgent = part(WallPartKind::urgent, "First of all: " + joined(carried_.life));
    urgent.items.push_back(sentence_item("No power reaches it now: change to its battery or cylinder at once, before anything else on this sheet." +
                                       std::string(carried_.life_left.size() == carried_.life.size() ? "" : " When it has power again, change back, and keep the battery or cylinder ready.")));
    urgent.items.push_back(sentence_item("If there is none, or it runs out, or somebody gets worse: call 911 (in the US) and say what machine it is."));
    if (std::ranges::any_of(carried_.life, [](const std::string& name) { return find_typical_load(name).row != nullptr && find_typical_load(name).row->name == "oxygen concentrator"; }))
      urgent.items.push_back(fact(Fact::oxygen));
    else urgent.items.push_back(fact(Fact::medical_plan));
  }

  void add_not_carried() {
    if (carried_.life_left.empty()) return;
    WallPart& urgent = part(WallPartKind::urgent, "Somebody depends on what this plan does not carry: " + joined(carried_.life_left));
    urgent.items.push_back(sentence_item(sentence::capital(source_.name) + " will NOT power it, now or later. It runs on its battery or cylinder only: write below how many hours that is."));
    urgent.items.push_back(sentence_item("Long before that runs out: ask its supplier for more, or go where there is power (a neighbor, a shelter, a hospital). Call 911 (in the US) if neither can be done in time."));
  }

  /// "Transfer device T is in: Utility room. "
  [[nodiscard]] std::string where_it_is() const {
    std::string words;
    for (const TransferDevice& device : wired_.transfer_devices) {
      const Room* room = device.source == source_.id ? find_row(wired_, device.room) : nullptr;
      if (room != nullptr) words += "The transfer device " + device.name + " is in: " + room->name + ". ";
    }
    for (const Panel& panel : wired_.panels) {
      const bool backfed = std::ranges::any_of(wired_.breakers, [&](const Breaker& b) { return b.panel == panel.id && b.backfed_from == source_.id; });
      const Room* room = backfed ? find_row(wired_, panel.room) : nullptr;
      if (room != nullptr) words += "The panel " + panel.name + " is in: " + room->name + ". ";
    }
    return words;
  }

  void add_steps() {
    script_ = outage_script(wired_, record_.feeds, answer_.backup.source);
    sheet_.complete = script_.complete;
    WallPart steps = step_part("Step by step", script_, script_.away, record_, [this](Fact which) { return mark_once(which); });
    steps.first = where_it_is() + "In this order. Wait at every handle until what it carries runs evenly; if something does not come on, go on with the next." +
                  (steps.first.empty() ? "" : " " + steps.first);
    if (!script_.complete) steps.items.push_back(sentence_item("From here on there is no safe next step by this sheet alone: ask the outage board, or an electrician."));
    sheet_.parts.push_back(std::move(steps));
  }

  /// Rooms with receptacles that have power by the plan.
  [[nodiscard]] std::string where_words() const {
    std::vector<std::string> rooms;
    for (const OutageUnit& unit : script_.gear.units)
      for (const std::size_t p : unit.points) {
        const Point& point = script_.house.points[p];
        const Room* room = unit.planned && point.kind == PointKind::receptacle ? find_row(script_.house, point.room) : nullptr;
        if (room != nullptr && std::ranges::find(rooms, room->name) == rooms.end()) rooms.push_back(room->name);
      }
    return rooms.empty() ? " on the circuits that have power" : " where receptacles have power (" + joined(rooms) + "; perhaps not all of them)";
  }

  void add_what_may_run() {
    WallPart& may = part(WallPartKind::facts, "What may run");
    const PlanPicture picture = plan_picture(answer_.backup, answer_.plan);
    if (!carried_.together.empty())
      may.items.push_back(sentence_item("All the time, together: " + joined(carried_.together) + "."));
    if (!carried_.on_demand.empty())
      may.items.push_back(sentence_item("When wanted, ONE AT A TIME, off again before the next: " + joined(carried_.on_demand) + "."));
    if (!carried_.leave_off.empty()) may.items.push_back(sentence_item("Leave OFF, although it has power: " + joined(carried_.leave_off) + "."));
    const int room = room_for_others(picture);
    may.items.push_back(sentence_item(room < 10 ? "Plug in nothing else" + where_words() + "."
                                                : "Anything else plugged in" + where_words() + ": not more than " + watts_text(room / 10 * 10) + " in all" +
                                                      (carried_.on_demand.empty() ? "." : ", and not while one of those runs.")));
    may.items.push_back(sentence_item(others_words(answer_.backup.hookup)));
  }

  /// All handles go to OFF: what keeps somebody alive loses its power with them.
  [[nodiscard]] std::string life_first_to_refuel() const {
    if (carried_.life.empty()) return "To refuel, first ";
    return "To refuel: FIRST change " + joined(carried_.life) + " to its battery or cylinder and see that it works. Then ";
  }

  void add_fuel() {
    WallPart& fuel = part(WallPartKind::facts, is_engine() ? "Fuel" : "The battery");
    Lines lines;
    plan_words::say_fuel(record_, answer_, lines);
    for (const Line& line : lines)
      if (line.kind == LineKind::answer) fuel.items.push_back(sentence_item(line.text));
    if (is_engine()) {
      said_.insert(Fact::refuel_cold);
      fuel.items.push_back(sentence_item(life_first_to_refuel() + "all handles to OFF. " + fact(Fact::refuel_cold).text + " Fill up outdoors, then go on step by step as above."));
    }
    if (fuel.items.empty()) fuel.items.push_back(sentence_item("How long it lasts is not recorded: look at its display."));
  }

  [[nodiscard]] std::string source_words() const { return script_.away.empty() ? source_.name : outage_words::source_name(script_.view(script_.away.front())); }

  /// What is left out first when it is too much, as the outage board does: least worth first, never what keeps somebody alive.
  [[nodiscard]] std::vector<std::string> first_to_go() const {
    const OutageGear gear = outage_gear(wired_, record_.feeds, answer_.backup.source);
    std::vector<std::pair<int, std::size_t>> by_worth;  // worth, place in house.loads
    for (const Placed& placed : answer_.plan.placed)
      for (const CarriedLoad& load : answer_.backup.circuits[static_cast<std::size_t>(placed.circuit)].loads)
        if (load.use == LoadUse::together && gear.loads[load.load].worth < kLifeWorth) by_worth.emplace_back(gear.loads[load.load].worth, load.load);
    std::ranges::sort(by_worth);
    const Names names(wired_);
    const OutageNow now;
    std::vector<std::string> first;
    for (const auto& [worth, load] : by_worth)
      first.push_back(outage_words::consumer_on_handle({wired_, gear, now}, names, {.load = static_cast<int>(load), .unit = gear.loads[load].unit, .draw = {}}));
    return first;
  }

  void add_gave_up() {
    WallPart& gave_up = part(WallPartKind::steps, "If " + source_words() + " gives up or everything goes dark again");
    if (!carried_.life.empty()) gave_up.items.push_back(sentence_item(sentence::capital(joined(carried_.life)) + ": battery or cylinder, at once."));
    const bool moved = std::ranges::any_of(script_.away, [](const ScriptStep& one) { return one.step.kind == OutageStepKind::move; });
    if (moved) gave_up.items.push_back(sentence_item("Put all the handles that were moved to OFF. Leave the main as it is."));
    gave_up.items.push_back(sentence_item("Switch off what was switched on last, and everything that is for one at a time."));
    gave_up.items.push_back(sentence_item(is_engine() ? "Look at its fuel, its oil and its own breaker. Start it again, and go on in the order above."
                                                      : "Look at its display and its own breaker. Switch it on again, and go on in the order above."));
    if (const auto names = first_to_go(); !names.empty())
      gave_up.items.push_back(sentence_item("If it gives up again, leave out, first of these first: " + joined(names) + "."));
    gave_up.items.push_back(sentence_item("If it will not start: keep refrigerator and freezer shut; whoever depends on a machine goes where there is power."));
  }

  void add_home() {
    WallPart home = step_part("When the utility is back: the way home", script_, script_.home, record_, [this](Fact which) { return mark_once(which); });
    home.first = "In this order." + std::string(home.first.empty() ? "" : " ") + home.first;
    sheet_.parts.push_back(std::move(home));
  }

  void add_food() {
    WallPart& food = part(WallPartKind::facts, "Food, water and air");
    for (const auto& together : {std::vector{Fact::refrigerator_shut, Fact::freezer_full, Fact::freezer_half}, std::vector{Fact::throw_out, Fact::never_taste}})
      food.items.push_back(facts(together));
    const auto has = [&](std::string_view kind) {
      return std::ranges::any_of(record_.house.loads, [&](const Load& load) {
        const TypicalMatch match = find_typical_load(load.name);
        return match.row != nullptr && match.row->name == kind;
      });
    };
    if (has("well pump")) food.items.push_back(fact(Fact::well_pump));
    if (has("sump pump")) food.items.push_back(fact(Fact::sump_pump));
    if (has("sewage pump")) food.items.push_back(fact(Fact::septic_reserve));
    if (is_engine() && !said_.contains(Fact::carbon_monoxide_alarms)) food.items.push_back(fact(Fact::carbon_monoxide_alarms));
  }

  void add_to_fill() {
    WallPart& fill = part(WallPartKind::to_fill, "To fill in");
    if (!carried_.life.empty()) fill.items = {sentence_item("Battery or cylinder: hours, place"), sentence_item("Its supplier, and the doctor")};
    for (const char* line : {"Utility, for reporting it", "Electrician", "A neighbor who helps"}) fill.items.push_back(sentence_item(line));
  }

  const Record& record_;
  const PlanAnswer& answer_;
  const Source& source_;
  House wired_;  ///< as the plan has it
  Carried carried_;
  OutageScript script_;
  std::set<Fact> said_;  ///< in the steps
  WallSheet sheet_;
};

}  // namespace

WallSheet wall_sheet(const Record& record, const PlanAnswer& answer) { return Sheet(record, answer).make(); }

std::vector<std::string> text_of(const WallSheet& sheet) {
  std::vector<std::string> lines;
  for (const WallPart& part : sheet.parts) {
    if (part.kind == WallPartKind::to_fill) continue;
    lines.push_back(part.title + (part.items.empty() || part.title.ends_with('.') ? "" : "."));
    if (!part.first.empty()) lines.push_back(part.first);
    int number = 0;
    for (const WallItem& item : part.items) {
      std::string line = part.kind == WallPartKind::steps ? std::to_string(++number) + ". " : "";
      if (!item.handle.empty()) line += (item.what.empty() ? item.handle == "MAIN" ? "" : "Handle" : item.what) + (item.what.empty() && item.handle == "MAIN" ? "" : " ") + item.handle + " to " + item.to + ". ";
      if (!item.rows.empty()) line += item.what + " to " + item.to + ". ";
      lines.push_back(line + item.text);
      for (const WallRow& row : item.rows) lines.push_back("- " + row.handle + (row.text.empty() ? "" : ": " + row.text));
    }
  }
  return lines;
}

}  // namespace ohmstead
