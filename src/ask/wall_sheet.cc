#include "ask/wall_sheet.h"

#include <algorithm>

#include "ask/fuel_words.h"
#include "ask/outage_parts.h"
#include "ask/plan_parts.h"
#include "ask/sentence.h"
#include "ask/wall_steps.h"
#include "ask/watts.h"
#include "backup/food_times.h"
#include "backup/proof_report.h"
#include "backup/typical_loads.h"
#include "house/index.h"

namespace ohmstead {

using namespace wall_words;

namespace {

constexpr std::size_t kMostNamed = 4;  ///< of what is left out first

WallItem sentence_item(std::string text) { return {"", "", std::move(text)}; }

/// Loads that are carried, or are not, by how they are wanted.
struct Carried {
  std::vector<std::string> together, on_demand, leave_off, life;  ///< life: of life safety, carried or not
};

Carried carried_of(const House& house, const PlanAnswer& answer) {
  Carried carried;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const CarriedCircuit& circuit = answer.backup.circuits[c];
    const auto placed = std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit);
    const bool has_place = placed != answer.plan.placed.end();
    for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
      const CarriedLoad& load = circuit.loads[l];
      const std::string words = load_text(house, house.loads[load.load]);
      if (!has_place) continue;
      (!placed->served[l] ? carried.leave_off : load.use == LoadUse::on_demand ? carried.on_demand : carried.together).push_back(words);
    }
    if (!has_place) continue;
    for (const std::size_t l : circuit.unwanted) carried.leave_off.push_back(load_text(house, house.loads[l]));
  }
  for (const Load& load : house.loads)
    if (load.importance == Importance::life_safety && wanted_use(load) != LoadUse::not_wanted) carried.life.push_back(load_text(house, load));
  return carried;
}

/// What may still be plugged in, whatever leg it is on and while the largest motor starts.
int room_for_others(const PlanPicture& picture) {
  int room = std::min(picture.limit - picture.running, picture.starting_limit - picture.running - picture.start_extra);
  for (const PictureColumn& column : picture.columns)
    room = std::min({room, column.limit - column.running, column.starting_limit - column.running - column.start_extra});
  return std::max(0, room);
}

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

  /// A fact of the shipped list.
  WallItem fact(Fact which) { return sentence_item(std::string(outage_fact(which).sentence) + mark(which)); }

  [[nodiscard]] bool is_engine() const { return source_.kind == SourceKind::generator; }

  void add_urgent() {
    if (const std::string words = wiring_words(); !words.empty()) part(WallPartKind::urgent, words);
    add_life();
    Lines doubts;  // what this sheet rests on and is not sure, or who is not helped by it
    plan_words::say_life_safety_first(record_, answer_, doubts);
    plan_words::say_doubts(record_, Names(record_.house), answer_, doubts);
    for (const Line& line : doubts)
      if (line.kind == LineKind::danger) part(WallPartKind::urgent, line.text);
  }

  /// A device that moves by itself is proved by its maker's directions, not position by position.
  [[nodiscard]] bool can_be_proved() const {
    return std::ranges::any_of(record_.house.positions, [&](const Position& position) {
      const TransferDevice* device = find_row(record_.house, position.device);
      return position.breaker && device != nullptr && device->source == source_.id && device->kind == TransferKind::circuits && !device->automatic;
    });
  }

  /// How far the wiring may be relied on; empty: it is proved, or there is none to prove.
  [[nodiscard]] std::string wiring_words() const {
    if (!answer_.wired) return "Not connected yet: this sheet is true only when the worksheet is done and the wiring is proved.";
    if (answer_.backup.hookup != Hookup::positions || !can_be_proved()) return "";
    const ProofReport report = proved(record_.house, record_.feeds, source_.id);
    const auto any = [&](ProofResult result) { return std::ranges::find(report.units, result, &UnitProof::result) != report.units.end(); };
    if (any(ProofResult::wrong) || !report.backfed.empty() || !report.panel_live.empty())
      return "Do not use this sheet: the wiring was found wrong. `ohmstead prove --status` says where; have it mended first.";
    return any(ProofResult::not_yet) ? "Not proved yet: before you rely on this sheet prove that every position carries what it says, with `ohmstead prove`." : "";
  }

  void add_life() {
    if (carried_.life.empty()) return;
    WallPart& urgent = part(WallPartKind::urgent, "First of all: " + joined(carried_.life));
    urgent.items.push_back(sentence_item("No power reaches it now: change to its battery or cylinder at once, before anything else on this sheet. When it has power again, change back, and keep the battery or cylinder ready."));
    urgent.items.push_back(sentence_item("If there is none, or it runs out, or somebody gets worse: call 911 (in the US) and say what machine it is."));
    if (std::ranges::any_of(carried_.life, [](const std::string& name) { return find_typical_load(name).row != nullptr && find_typical_load(name).row->name == "oxygen concentrator"; }))
      urgent.items.push_back(fact(Fact::oxygen));
    else urgent.items.push_back(fact(Fact::medical_plan));
  }

  void add_steps() {
    script_ = outage_script(wired_, record_.feeds, answer_.backup.source);
    sheet_.complete = script_.complete;
    WallPart steps = step_part("Step by step", script_, script_.away, record_, [this](Fact which) { return mark(which); });
    steps.first = "In this order. Wait at every handle until what it carries runs evenly; if something does not come on, go on with the next." +
                  (steps.first.empty() ? "" : " " + steps.first);
    if (!script_.complete) steps.items.push_back(sentence_item("From here on there is no safe next step by this sheet alone: ask the outage board, or an electrician."));
    sheet_.parts.push_back(std::move(steps));
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
    may.items.push_back(sentence_item(room < 10 ? "Plug in nothing else there."
                                                : "Anything else plugged in there: not more than " + watts_text(room / 10 * 10) + " in all" +
                                                      (carried_.on_demand.empty() ? "." : ", and not while one of those runs.")));
    may.items.push_back(sentence_item(others_words(answer_.backup.hookup)));
  }

  void add_fuel() {
    WallPart& fuel = part(WallPartKind::facts, is_engine() ? "Fuel" : "The battery");
    Lines lines;
    plan_words::say_fuel(record_, answer_, lines);
    for (const Line& line : lines)
      if (line.kind == LineKind::answer) fuel.items.push_back(sentence_item(line.text));
    if (is_engine()) {
      fuel.items.push_back(sentence_item("To refuel, first all handles to OFF. " + fact(Fact::refuel_cold).text + " Fill up outdoors, then go on step by step as above."));
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
    std::vector<std::string> names;
    for (const auto& [worth, load] : by_worth)
      if (names.size() < kMostNamed) names.push_back(load_text(record_.house, record_.house.loads[load]));
    return names;
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
    WallPart home = step_part("When the utility is back: the way home", script_, script_.home, record_, [this](Fact which) { return mark(which); });
    home.first = "One handle after another, in this order." + (home.first.empty() ? "" : " " + home.first);
    sheet_.parts.push_back(std::move(home));
  }

  void add_food() {
    WallPart& food = part(WallPartKind::facts, "Food, water and air");
    for (const Fact which : {Fact::refrigerator_shut, Fact::freezer_full, Fact::freezer_half, Fact::throw_out, Fact::never_taste}) food.items.push_back(fact(which));
    const auto has = [&](std::string_view kind) {
      return std::ranges::any_of(record_.house.loads, [&](const Load& load) {
        const TypicalMatch match = find_typical_load(load.name);
        return match.row != nullptr && match.row->name == kind;
      });
    };
    if (has("well pump")) food.items.push_back(fact(Fact::well_pump));
    if (has("sump pump")) food.items.push_back(fact(Fact::sump_pump));
    if (has("sewage pump")) food.items.push_back(fact(Fact::septic_reserve));
    if (is_engine()) food.items.push_back(fact(Fact::carbon_monoxide_alarms));
  }

  void add_to_fill() {
    WallPart& fill = part(WallPartKind::to_fill, "To fill in");
    if (!carried_.life.empty()) fill.items = {sentence_item("Battery or cylinder lasts (hours), and where it is"), sentence_item("Its supplier, and the doctor")};
    for (const char* line : {"Utility, to report the outage", "Electrician", "A neighbor who helps"}) fill.items.push_back(sentence_item(line));
  }

  const Record& record_;
  const PlanAnswer& answer_;
  const Source& source_;
  House wired_;  ///< as the plan has it
  Carried carried_;
  OutageScript script_;
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
      if (!item.handle.empty()) line += "Handle " + item.handle + " to " + item.to + ". ";
      lines.push_back(line + item.text);
    }
  }
  return lines;
}

}  // namespace ohmstead
