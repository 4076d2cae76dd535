// Steps at the source itself.

#include <algorithm>

#include "ask/outage_parts.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/food_times.h"

namespace ohmstead::outage_words {

namespace {

using namespace sentence;

class SourceWords {
 public:
  SourceWords(const OutageView& view, const Names& names, const OutageStep& step, Lines& lines) : view_(view), names_(names), step_(step), lines_(lines) {}

  void say_source() {
    using enum OutageStepKind;
    switch (step_.kind) {
      case ask_away:
        add(LineKind::answer, "Has the automatic transfer switch moved by itself? Then " + source() + " runs and lights are on.");
        return say_stay_on(view_, names_, lines_);
      case ask_back: return add(LineKind::answer, "Has the automatic transfer switch gone back by itself? Then " + source() + " stops after some minutes.");
      case place_source:
        add(LineKind::answer, "Take " + source() + " outdoors, at least " + std::to_string(kGeneratorFeet) + " ft (6 m) from every window, door and vent, exhaust away from people.");
        for (const Fact fact : {Fact::never_inside, Fact::windows_shut, Fact::carbon_monoxide_alarms}) add(LineKind::caution, cited(fact));
        return add(LineKind::caution, "Local code and a licensed electrician decide how it may be connected.");
      case connect_source:
        add(LineKind::answer, "Plug the heavy cord into " + source() + " and into the inlet of the house.");
        add(LineKind::detail, "Unroll the cord, keep its plugs dry, and do not start yet.");
        return add(LineKind::caution, cited(Fact::no_backfeed));
      case start_source: return say_start();
      case warm_up:
        add(LineKind::answer, "Let " + source() + " run for about 3 minutes with nothing on it.");
        return add(LineKind::detail, "Its booklet says how long (3 minutes are common practice, no source). It must run evenly.");
      case cool_down: return add(LineKind::answer, "Everything is on the street's power. Let " + source() + " run for about 5 minutes with nothing on it, to cool (common practice, no source).");
      case stop_source:
        if (step_.reason == OutageReason::put_right) add(LineKind::danger, "Stop it now: it can meet the power from the street.");
        if (!step_.handles.empty()) return say_stop_held();
        if (step_.reason == OutageReason::refuel) say_life_lost();
        add(LineKind::answer, (is_engine(view_) ? "Stop " : "Switch off ") + source() + ".");
        if (is_engine(view_)) add(LineKind::detail, cited(Fact::refuel_cold));
        return;
      case no_source: return say_no_source();
      case refuel: return say_refuel();
      case end:
        say_not_home();
        add(LineKind::answer, "The outage is over: every " + std::string(view_.now.stuck.empty() ? "" : "other ") + "handle stands as on an ordinary day." +
                              (is_engine(view_) ? " Pull the cord of " + source() + ", and refill it when it is cold." : ""));
        say_switched_off();
        return add(LineKind::detail, cited(Fact::throw_out));
      default: return;
    }
  }

 private:
  void add(LineKind kind, std::string text, std::vector<std::string> items = {}) { say(lines_, kind, std::move(text), std::move(items)); }
  [[nodiscard]] std::string name(const HandleRef& handle) const { return outage_handle_text(view_.house, names_, handle); }
  [[nodiscard]] std::string source() const { return source_name(view_); }
  [[nodiscard]] std::vector<std::string> step_handles() const {
    std::vector<std::string> names;
    for (const HandleRef& handle : step_.handles) names.push_back(name(handle));
    return names;
  }

  void say_start() {
    say_unplug();
    add(LineKind::answer, "Start " + source() + ".");
    if (!is_engine(view_)) add(LineKind::detail, "If it has shut itself off, switch it off, wait, and on again.");
    else if (!view_.now.started_at.empty()) add(LineKind::detail, "If its engine runs already, turn its own breaker off and on again.");
  }

  /// It gave up and has not run since: what nobody told the board of would be too much again.
  void say_unplug() {
    bool gave_up = false;
    for (const std::size_t line : outage_lines(view_.house)) {
      const OutageEvent& event = view_.house.outage_events[line];
      if (event.withdrawn) continue;
      if (event.kind == OutageEventKind::overload) gave_up = true;
      if (event.kind == OutageEventKind::source_started) gave_up = false;
    }
    if (gave_up)
      add(LineKind::caution, "Ask everybody first: what was switched on and never asked about here, such as a hair dryer or a kettle, "
                             "must be unplugged. It is not counted, and would be too much again.");
  }

  /// Somebody's machine that no handle parts from the source.
  void say_life_lost() {
    for (const Id<Load> id : step_.loads)
      if (const Load* load = find_row(view_.house, id); load != nullptr && load->importance == Importance::life_safety)
        add(LineKind::danger, "This takes the power from " + load_text(view_.house, *load) + ": change to its battery or cylinder first, and see that it works.");
  }

  /// What the board asked to be switched off may go on again.
  void say_switched_off() {
    std::vector<std::string> off;
    for (std::size_t l = 0; l < view_.house.loads.size(); ++l)
      if (is_off(view_.now.loads[l])) off.push_back(load_text(view_.house, view_.house.loads[l]));
    if (!off.empty()) add(LineKind::detail, "Switched off in the outage, and free to go on again: " + joined(off) + ".");
  }

  void say_refuel() {
    add(LineKind::caution, cited(Fact::refuel_cold) + " Its booklet says how long (15 minutes are common practice, no source).");
    add(LineKind::answer, "Now fill the tank of " + source() + ", outdoors, no flame and no cigarette near.");
    add(LineKind::detail, "Fill it full: the next hours are counted from a full tank. Close the cap, and let what was spilled dry before it is started again.");
  }

  void say_no_source() {
    add(LineKind::answer, capital(source()) + " does not start.");
    add(LineKind::detail, "Look at: fuel and its valve, the oil level, the switch, the choke, the battery that starts it. Try again when something was done.");
    add(LineKind::detail, cited(Fact::refuel_cold));
    if (std::ranges::any_of(view_.gear.loads, [](const OutageLoad& load) { return load.worth >= kLifeWorth; })) add(LineKind::detail, cited(Fact::medical_plan));
    add(LineKind::detail, "Keep the refrigerator and the freezer shut. " + cited(Fact::freezer_half));
  }

  void say_stop_held() {
    const auto loads = load_names(view_.house, step_.loads);
    const std::string what = loads.empty() ? "what hangs there" : joined(loads);
    add(LineKind::danger, capital(joined(step_handles())) + (step_.handles.size() > 1 ? " stay" : " stays") + " on " + source() + ": " + what + " lose" + (loads.size() > 1 ? "" : "s") +
                              " power when it stops. Let it run until each has other power: a receptacle with the street's power, its battery or cylinder.");
    for (const Id<Load> id : step_.loads)
      if (const Load* load = find_row(view_.house, id); load != nullptr && load->importance == Importance::life_safety)
        add(LineKind::danger, capital(load_text(view_.house, *load)) + " first. Do not stop " + source() + " before it runs from something else.");
    add(LineKind::answer, "Call a licensed electrician. Only when all that hangs there has other power, stop " + source() + ".");
    if (is_engine(view_)) add(LineKind::detail, cited(Fact::refuel_cold));
  }

  void say_not_home() {
    std::vector<std::string> stuck;
    for (const std::uint32_t group : view_.now.stuck) stuck.push_back(name(view_.gear.graph.handles[group].ref));
    if (!stuck.empty()) add(LineKind::caution, capital(joined(stuck)) + " could not be moved: what hangs there may have no power. Call a licensed electrician.");
  }

  const OutageView& view_;
  const Names& names_;
  const OutageStep& step_;
  Lines& lines_;
};

}  // namespace

void say_source_step(const OutageView& view, const Names& names, const OutageStep& step, Lines& lines) { SourceWords(view, names, step, lines).say_source(); }

void say_stay_on(const OutageView& view, const Names& names, Lines& lines) {
  std::vector<std::string> stay;
  for (const OutageUnit& unit : view.gear.units)
    if (unit.on == kOn && unit.planned && view.now.state.throws[unit.handle] == kOn && view.gear.bar_of(unit.handle) == nullptr)
      stay.push_back(capital(names.name_of(view.gear.graph.handles[unit.handle].ref)));
  if (view.gear.automatic && !view.house.planned.empty() && !stay.empty()) say(lines, LineKind::detail, "These stay ON, by the plan:", stay);
}

}  // namespace ohmstead::outage_words
