#include <algorithm>

#include "ask/outage_parts.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/food_times.h"

namespace ohmstead {

namespace {

using namespace sentence;
using namespace outage_words;

/// Where a handle is to stand, as it is marked.
std::string throw_text(const HandleRef& handle, int to) {
  if (handle.kind == HandleKind::position) return to == kBackupSide ? "BACKUP" : to == kUtilitySide ? "UTILITY" : "OFF";
  return to == kOn ? "ON" : "OFF";
}

class StepWords {
 public:
  StepWords(const OutageView& view, const Names& names, const OutageStep& step) : view_(view), names_(names), step_(step) {}

  Lines words() {
    using enum OutageStepKind;
    switch (step_.kind) {
      case no_outage: add(LineKind::answer, "No outage is under way."); break;
      case move: say_move(); break;
      case switch_off: say_switch_off(); break;
      case switch_on:
        add(LineKind::answer, "Switch on: " + joined(load_names(view_.house, step_.loads)) + ".");
        add(LineKind::detail, "There is room for it now.");
        break;
      case running: add(LineKind::answer, "Nothing is left to do now: all that can be on is on."); break;
      case no_source: say_no_source(); break;
      case no_safe_way: say_no_safe_way(); break;
      default: say_source(); break;
    }
    return std::move(lines_);
  }

 private:
  void add(LineKind kind, std::string text, std::vector<std::string> items = {}) { say(lines_, kind, std::move(text), std::move(items)); }
  [[nodiscard]] std::string name(const HandleRef& handle) const { return outage_handle_text(view_.house, names_, handle); }
  [[nodiscard]] std::string source() const { return source_name(view_); }

  [[nodiscard]] std::string move_text(const HandleRef& handle) const {
    const std::string to = throw_text(handle, step_.to);
    return handle.kind == HandleKind::position ? "Move " + name(handle) + " to " + to + "." : "Turn " + name(handle) + " " + to + ".";
  }

  void say_move() {
    if (step_.reason == OutageReason::put_right)
      add(LineKind::danger, "First put this right: as it stands, " + source() + " can meet the power from the street. That can kill line workers and start a fire.");
    if (step_.handles.size() == 1) {
      add(LineKind::answer, move_text(step_.handles.front()));
    } else {
      std::vector<std::string> items;
      for (const HandleRef& handle : step_.handles) items.push_back(capital(name(handle)));
      add(LineKind::answer, "One after another, " + std::string(step_.handles.front().kind == HandleKind::position ? "move these to " : "turn these ") +
                                throw_text(step_.handles.front(), step_.to) + ":", items);
    }
    say_why_moved();
  }

  void say_why_moved() {
    const auto loads = load_names(view_.house, step_.loads);
    switch (step_.reason) {
      case OutageReason::clear:
        return add(LineKind::detail, view_.now.phase == OutagePhase::back ? "Nothing is moved over under load." : "Nothing may draw power when " + source() + " starts or is let in.");
      case OutageReason::part:
        add(LineKind::detail, "It parts the house from the street: nothing can flow out to the people who mend the line.");
        return add(LineKind::caution, "The wires above it can come alive at any time. Leave the panel's cover on.");
      case OutageReason::let_in: return add(LineKind::detail, "It lets " + source() + " into the panel. Nothing comes on yet.");
      case OutageReason::in_order: return say_comes_on();
      case OutageReason::make_room:
        add(LineKind::detail, loads.empty() ? "There is not enough power for it." : "There is not enough power for " + joined(loads) + " beside what matters more. It comes back on when there is.");
        return say_keep_shut();
      case OutageReason::for_a_start: return add(LineKind::detail, "Only for a moment: something that needs more to start comes first.");
      case OutageReason::way_home: return say_way_home();
      default: return;
    }
  }

  void say_comes_on() {
    const int unit = view_.gear.unit_of(view_.gear.graph.handle_of(step_.handles.front()));
    const auto items = comes_on_items(view_, unit);
    if (items.empty()) add(LineKind::detail, "What hangs on it is not written down.");
    else add(LineKind::detail, "This comes on:", items);
  }

  void say_keep_shut() {
    for (const Id<Load> id : step_.loads)
      if (const Load* load = find_row(view_.house, id); load != nullptr && longest_off_min(*load).value_or(0) > 0)
        add(LineKind::detail, "Keep the door of " + load_text(view_.house, *load) + " shut: without power it keeps for about " + minutes_text(*longest_off_min(*load)) + ".");
  }

  void say_way_home() {
    const HandleRef& handle = step_.handles.front();
    if (handle.kind != HandleKind::position || step_.to != kUtilitySide) return;
    const int unit = view_.gear.unit_of(view_.gear.graph.handle_of(handle));
    if (unit < 0) return;
    for (const std::size_t load : view_.gear.units[static_cast<std::size_t>(unit)].loads)
      if (view_.gear.loads[load].worth >= kLifeWorth)
        add(LineKind::caution, load_text(view_.house, view_.house.loads[load]) + " is without power for a moment: have its battery or cylinder at hand.");
    if (view_.now.running) add(LineKind::detail, "If nothing on it comes on, move it back to BACKUP and say so: the power from the street is not good yet.");
  }

  void say_switch_off() {
    std::vector<std::string> things = load_names(view_.house, step_.loads);
    for (const std::string& guest : step_.guests) things.push_back(terminal::printable(guest));
    add(LineKind::answer, "Switch off or unplug: " + joined(things) + ".");
    if (step_.reason == OutageReason::before_close && !step_.handles.empty())
      add(LineKind::detail, "It would start with " + name(step_.handles.front()) + ", which comes next.");
    else if (step_.reason == OutageReason::make_room) add(LineKind::detail, source() + " cannot carry it beside what matters more.");
    else if (step_.reason == OutageReason::for_a_start) add(LineKind::detail, "Something that needs more to start comes first.");
    else add(LineKind::detail, "It would start together with " + source() + ".");
    say_keep_shut();
  }

  void say_source() {
    using enum OutageStepKind;
    switch (step_.kind) {
      case ask_away: return add(LineKind::answer, "Has the automatic transfer switch moved by itself? Then " + source() + " runs and lights are on.");
      case ask_back: return add(LineKind::answer, "Has the automatic transfer switch gone back by itself? Then " + source() + " stops after some minutes.");
      case place_source:
        add(LineKind::answer, "Take " + source() + " outdoors, at least " + std::to_string(kGeneratorFeet) + " ft (6 m) from every window, door and vent, exhaust away from people.");
        for (const Fact fact : {Fact::never_inside, Fact::windows_shut, Fact::carbon_monoxide_alarms}) add(LineKind::caution, cited(fact));
        return add(LineKind::caution, "Local code and a licensed electrician decide how it may be connected.");
      case connect_source:
        add(LineKind::answer, "Plug the heavy cord into " + source() + " and into the inlet of the house.");
        add(LineKind::detail, "Unroll the cord, keep its plugs dry, and do not start yet.");
        return add(LineKind::caution, cited(Fact::no_backfeed));
      case start_source:
        add(LineKind::answer, "Start " + source() + ".");
        return add(LineKind::detail, is_engine(view_) ? "If its engine runs already, turn its own breaker off and on again." : "If it has shut itself off, switch it off, wait, and on again.");
      case warm_up:
        add(LineKind::answer, "Let " + source() + " run for about 3 minutes with nothing on it.");
        return add(LineKind::detail, "Its booklet says how long (3 minutes are common practice, no source). It must run evenly.");
      case cool_down: return add(LineKind::answer, "Everything is on the street's power. Let " + source() + " run for about 5 minutes with nothing on it, to cool (common practice, no source).");
      case stop_source:
        if (step_.reason == OutageReason::put_right) add(LineKind::danger, "Stop it now: it can meet the power from the street.");
        add(LineKind::answer, (is_engine(view_) ? "Stop " : "Switch off ") + source() + ".");
        if (is_engine(view_)) add(LineKind::detail, cited(Fact::refuel_cold));
        return;
      case end:
        add(LineKind::answer, "The outage is over: every handle stands as on an ordinary day. Pull the cord of " + source() + ", and refill it when it is cold.");
        return add(LineKind::detail, cited(Fact::throw_out));
      default: return;
    }
  }

  void say_no_source() {
    add(LineKind::answer, source() + " does not start.");
    add(LineKind::detail, "Look at: fuel and its valve, the oil level, the switch, the choke, the battery that starts it. Try again when something was done.");
    add(LineKind::detail, cited(Fact::refuel_cold));
    if (std::ranges::any_of(view_.gear.loads, [](const OutageLoad& load) { return load.worth >= kLifeWorth; })) add(LineKind::detail, cited(Fact::medical_plan));
    add(LineKind::detail, "Keep the refrigerator and the freezer shut. " + cited(Fact::freezer_half));
  }

  void say_no_safe_way() {
    add(LineKind::danger, "Do not connect " + source() + ": with a handle that cannot be moved, or no main breaker, it could meet the power from the street.");
    add(LineKind::answer, "Leave everything off and call a licensed electrician.");
  }

  const OutageView& view_;
  const Names& names_;
  const OutageStep& step_;
  Lines lines_;
};

}  // namespace

Lines words_of_outage_step(const OutageView& view, const Names& names, const OutageStep& step) {
  return StepWords(view, names, step).words();
}

Lines words_of_trouble(const OutageView& view, const Names& names, const OutageStep& step) {
  Lines lines;
  (void)names;
  if (step.kind == OutageStepKind::switch_on) {
    say(lines, LineKind::answer, "It is counted as on. Try its own switch, its plug, and the reset button of a GFCI receptacle on the way.");
    return lines;
  }
  std::vector<std::string> items{"Move the handle fully to OFF, then firmly back.", "Look whether the small breaker beside the handle has tripped; push it in or turn it off and on.",
                                 "Press the reset button of a GFCI receptacle on the way.", "Try a lamp in another receptacle of the same room."};
  if (!view.now.running) items.insert(items.begin(), "Is " + outage_words::source_name(view) + " still running?");
  say(lines, LineKind::answer, "It did not come on. Try this, in this order:", items);
  say(lines, LineKind::detail, "If a breaker trips at once, leave it off: something on it is broken or draws too much. Press x and say that it gave up if everything went dark.");
  return lines;
}

std::string outage_history_text(const House& house, const Names& names, const OutageStep& step) {
  std::string text = "Outage: " + std::string(text_of(step.kind));
  std::ranges::replace(text, '_', ' ');
  if (!step.handles.empty() && step.kind == OutageStepKind::move)
    text = "Outage: " + outage_handle_text(house, names, step.handles.front()) + " to " + throw_text(step.handles.front(), step.to) +
           (step.handles.size() > 1 ? " and " + std::to_string(step.handles.size() - 1) + " more" : "");
  if (!step.loads.empty() && step.kind != OutageStepKind::move) text += ": " + joined(load_names(house, step.loads));
  return text;
}

}  // namespace ohmstead
