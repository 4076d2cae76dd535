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

class StepWords {
 public:
  StepWords(const OutageView& view, const Names& names, const OutageStep& step) : view_(view), names_(names), step_(step) {}

  Lines words() {
    using enum OutageStepKind;
    say_wiring();
    switch (step_.kind) {
      case no_outage: add(LineKind::answer, "No outage is under way."); break;
      case move: say_move(); break;
      case switch_off: say_switch_off(); break;
      case switch_on:
        add(LineKind::answer, "Switch on: " + joined(loads_on_handles()) + ".");
        add(LineKind::detail, "There is room for it now.");
        break;
      case look_over: say_look_over(); break;
      case running:
        add(LineKind::answer, "Nothing is left to do now: all that can be on is on.");
        add(LineKind::detail, "The power from the street is back when lights that " + source() + " does not carry, street lights or the neighbors' come on: say so then (key b)."); break;
      case no_safe_way: say_no_safe_way(); break;
      default: say_source_step(view_, names_, step_, lines_); break;
    }
    return std::move(lines_);
  }

 private:
  void add(LineKind kind, std::string text, std::vector<std::string> items = {}) { say(lines_, kind, std::move(text), std::move(items)); }
  [[nodiscard]] std::string name(const HandleRef& handle) const { return outage_handle_text(view_.house, names_, handle); }
  [[nodiscard]] std::string source() const { return source_name(view_); }

  /// The things of this step, each with the handle that it hangs on.
  [[nodiscard]] std::vector<std::string> loads_on_handles() const {
    std::vector<std::string> texts;
    for (const Id<Load> id : step_.loads) {
      const auto load = static_cast<std::size_t>(std::ranges::find(view_.house.loads, id, &Load::id) - view_.house.loads.begin());
      if (load < view_.house.loads.size())
        texts.push_back(consumer_on_handle(view_, names_, {.load = static_cast<int>(load), .unit = view_.gear.loads[load].unit, .draw = {}}));
    }
    return texts;
  }

  [[nodiscard]] std::string move_text(const HandleRef& handle) const {
    const std::string to = throw_text(handle, step_.to);
    return handle.kind == HandleKind::position ? "Move " + name(handle) + " to " + to + "." : "Turn " + name(handle) + " " + to + ".";
  }

  /// At the start, and as long as something is wrong: how far the wiring may be relied on.
  void say_wiring() {
    if (view_.now.phase == OutagePhase::none) return;
    const bool start = view_.now.phase == OutagePhase::lost && view_.now.started_at.empty();
    if (view_.gear.reaches_panel)
      return add(LineKind::danger, "Proving found that " + source() + (view_.gear.ways.empty() ? " reaches the panel past the handles: it" : "") + " can meet the power from the street. Do not use " +
                                   (view_.gear.ways.empty() ? "the transfer device" : "it") + " until a licensed electrician has looked.");
    std::vector<std::string> wrong, shared;
    for (const OutageBar& bar : view_.gear.bars) (bar.kind == OutageBarKind::found_wrong ? wrong : shared).push_back(name(view_.gear.graph.handles[bar.handle].ref));
    if (!wrong.empty() && start)
      add(LineKind::danger, "Proving found the wiring of " + joined(wrong) + " wrong: do not use it until a licensed electrician has looked.");
    if (!shared.empty() && start)
      add(LineKind::danger, capital(joined(shared)) + ": never with " + source() + ". The circuits share a neutral, which would carry the sum of both: it can start a fire.");
    if (view_.gear.wiring == OutageWiring::not_proved && start)
      add(LineKind::caution, "It is not proved that each handle carries what is written down: look what comes on with each.");
  }

  /// Who loses power while these handles move, said before the hand moves.
  void say_life_off() {
    std::vector<std::string> names;
    for (const Consumer& one : consumers_now(view_.gear, view_.now)) {
      const bool hit = one.life() && one.on && one.unit >= 0 && step_.to == kOff && std::ranges::any_of(step_.handles, [&](const HandleRef& handle) {
        const std::uint32_t group = view_.gear.graph.handle_of(handle);
        return view_.gear.unit_of(group) == one.unit || view_.gear.is_way(group);
      });
      if (hit) names.push_back(consumer_name(view_, one));
    }
    if (!names.empty()) add(LineKind::danger, "This takes the power from " + joined(names) + ": have its battery or cylinder at hand, and change to it first.");
  }

  /// Where the transfer device is, at the first handle that is moved.
  [[nodiscard]] std::string device_place() const {
    const Position* position = step_.handles.front().kind == HandleKind::position ? find_row(view_.house, Id<Position>{step_.handles.front().id}) : nullptr;
    const TransferDevice* device = position == nullptr || view_.now.last_moved != 0 ? nullptr : find_row(view_.house, position->device);
    const Room* room = device == nullptr ? nullptr : find_row(view_.house, device->room);
    return room == nullptr ? "" : " " + terminal::printable(device->name) + " is in: " + terminal::printable(room->name) + ".";
  }

  void say_move() {
    say_life_off();
    if (step_.reason == OutageReason::put_right)
      add(LineKind::danger, "First put this right: as it stands, " + source() + " can meet the power from the street. That can kill line workers and start a fire.");
    if (step_.handles.size() == 1) {
      add(LineKind::answer, move_text(step_.handles.front()) + device_place());
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
        say_no_lock(true);
        return add(LineKind::caution, "The wires above it can come alive at any time. Leave the panel's cover on.");
      case OutageReason::let_in:
        say_main_first();
        return add(LineKind::detail, "It lets " + source() + " into the panel. Nothing comes on yet.");
      case OutageReason::in_order: return say_comes_on();
      case OutageReason::make_room:
        add(LineKind::detail, loads.empty() ? "There is not enough power for it." : "There is not enough power for " + joined(loads) + " beside what matters more. It comes back on when there is.");
        return say_keep_shut();
      case OutageReason::barred: return say_barred();
      case OutageReason::not_planned: return say_not_planned();
      case OutageReason::refuel:
        return add(LineKind::detail, "Nothing may draw power when " + source() + " stops for its fuel. When the tank is full, everything comes back step by step.");
      case OutageReason::try_again: return add(LineKind::detail, "Nothing came on with it. It is moved to OFF, and back in its turn.");
      case OutageReason::for_a_start: return add(LineKind::detail, "Only for a moment: something that needs more to start comes first.");
      case OutageReason::way_home: return say_way_home();
      default: return;
    }
  }

  [[nodiscard]] bool has_lock(std::uint32_t way) const {
    const auto& graph = view_.gear.graph;
    return std::ranges::any_of(graph.interlocks, [&](const InterlockedPair& pair) { return graph.handles[pair.first].group == way || graph.handles[pair.second].group == way; });
  }

  /// Backfed breakers that no interlock keeps apart from the main.
  [[nodiscard]] std::vector<std::string> not_locked() const {
    std::vector<std::string> names;
    for (const Move& way : view_.gear.ways) {
      const HandleRef& ref = view_.gear.graph.handles[way.handle].ref;
      if (ref.kind == HandleKind::breaker && !has_lock(way.handle)) names.push_back(name(ref));
    }
    return names;
  }

  /// At the main, where nothing but a person keeps it and the backfed breaker apart.
  void say_no_lock(bool off) {
    const auto ways = not_locked();
    if (ways.empty()) return;
    if (off)
      add(LineKind::danger, "No interlock holds it off. If it stands ON while " + joined(ways) + " is ON, " + source() + " feeds the street's lines and can kill whoever mends them. "
                            "See with your own eyes that it is OFF before you go on, and that nobody turns it back.");
    else
      add(LineKind::danger, "First go and look: " + joined(ways) + " must stand OFF. No interlock sees to it: with both ON, " + source() + " meets the power from the street, which can kill "
                            "line workers and start a fire. If it does not stand OFF, leave the main off and say so.");
  }

  /// A backfed breaker with nothing that keeps the main off: only eyes do.
  void say_main_first() {
    const auto& graph = view_.gear.graph;
    const std::uint32_t way = graph.handles[graph.handle_of(step_.handles.front())].group;
    if (has_lock(way) || graph.handles[way].ref.kind != HandleKind::breaker) return;
    std::vector<std::string> mains;
    for (const Move& main : view_.gear.off_first) mains.push_back(name(graph.handles[main.handle].ref));
    add(LineKind::danger, "First go and look: " + (mains.empty() ? "the main breaker" : joined(mains)) + " must stand OFF. If it does not, leave this breaker off and say so. "
                          "Nothing but your eyes keeps " + source() + " from the street's lines: an interlock is needed here, and a licensed electrician decides whether it may be used so.");
  }

  void say_not_planned() {
    add(LineKind::detail, "The plan does not carry what hangs there, and with it " + source() + " may give up. It stays off until the street's power is back.");
    say_stay_on(view_, names_, lines_);
  }

  void say_barred() {
    const OutageBar* bar = view_.gear.bar_of(view_.gear.graph.handles[view_.gear.graph.handle_of(step_.handles.front())].group);
    const bool shared = bar != nullptr && bar->kind == OutageBarKind::shared_neutral;
    add(LineKind::danger, shared ? "It shares a neutral with another circuit. With " + source() + " that neutral would carry the sum of both: it can start a fire."
                                 : "Proving found its wiring wrong: it stays off until a licensed electrician has looked.");
  }

  void say_comes_on() {
    const int unit = view_.gear.unit_of(view_.gear.graph.handle_of(step_.handles.front()));
    const auto items = comes_on_items(view_, unit);
    for (const Id<Load> id : step_.loads)
      if (const Load* load = find_row(view_.house, id); load != nullptr && load->importance == Importance::life_safety)
        add(LineKind::caution, "When " + load_text(view_.house, *load) + " runs, change back to it, and keep its battery or cylinder ready.");
    if (items.empty()) add(LineKind::detail, "What hangs on it is not written down.");
    else add(LineKind::detail, "This comes on:", items);
  }

  void say_keep_shut() {
    for (const Id<Load> id : step_.loads)
      if (const Load* load = find_row(view_.house, id); load != nullptr && longest_off_min(*load).value_or(0) > 0)
        add(LineKind::detail, "Keep the door of " + load_text(view_.house, *load) + " shut: without power it keeps for about " + minutes_text(*longest_off_min(*load)) + ".");
  }

  /// What keeps somebody alive gets its power back with this breaker.
  void say_change_back(const HandleRef& handle) {
    const int unit = view_.gear.unit_of(view_.gear.graph.handle_of(handle));
    if (unit < 0) return;
    for (const std::size_t load : view_.gear.units[static_cast<std::size_t>(unit)].loads)
      if (view_.gear.loads[load].worth >= kLifeWorth)
        add(LineKind::caution, "When " + load_text(view_.house, view_.house.loads[load]) + " runs, change back to it, and keep its battery or cylinder ready.");
  }

  void say_way_home() {
    const HandleRef& handle = step_.handles.front();
    if (step_.to == kOff && view_.gear.is_way(view_.gear.graph.handle_of(handle)))
      add(LineKind::detail, "It parts " + source() + " from the panel. It must be off before the main breaker goes on, which comes next.");
    if (step_.to == kOff) return;
    if (handle.kind == HandleKind::main) say_no_lock(false);
    if (handle.kind != HandleKind::position) {
      for (const HandleRef& one : step_.handles) say_change_back(one);
      return add(LineKind::detail, "If nothing comes on with it, say so: the power from the street is not good yet.");
    }
    if (step_.to != kUtilitySide) return;
    const int unit = view_.gear.unit_of(view_.gear.graph.handle_of(handle));
    if (unit < 0) return;
    for (const std::size_t load : view_.gear.units[static_cast<std::size_t>(unit)].loads)
      if (view_.gear.loads[load].worth >= kLifeWorth)
        add(LineKind::caution, load_text(view_.house, view_.house.loads[load]) + " is without power for a moment: have its battery or cylinder at hand.");
    if (const auto items = comes_on_items(view_, unit); !items.empty()) add(LineKind::detail, "On it: " + joined(items) + ".");
    if (view_.now.running) add(LineKind::detail, "If nothing on a handle comes on, move that handle back to BACKUP: the power from the street is not good yet.");
  }

  void say_switch_off() {
    std::vector<std::string> things = step_.reason == OutageReason::before_close ? load_names(view_.house, step_.loads) : loads_on_handles();
    for (const std::string& guest : step_.guests) things.push_back(terminal::printable(guest));
    add(LineKind::answer, "Switch off or unplug: " + joined(things) + ".");
    if (step_.reason == OutageReason::before_close && !step_.handles.empty())
      add(LineKind::detail, "It would start with " + name(step_.handles.front()) + ", which comes next.");
    else if (step_.reason == OutageReason::make_room) add(LineKind::detail, source() + " cannot carry it beside what matters more.");
    else if (step_.reason == OutageReason::for_a_start) add(LineKind::detail, "Something that needs more to start comes first.");
    else add(LineKind::detail, "It would start together with " + source() + ".");
    say_keep_shut();
  }

  [[nodiscard]] std::vector<std::string> step_handles() const {
    std::vector<std::string> names;
    for (const HandleRef& handle : step_.handles) names.push_back(name(handle));
    return names;
  }

  void say_look_over() {
    std::vector<std::string> dark = step_handles();
    for (const std::string& load : load_names(view_.house, step_.loads)) dark.push_back(load);
    add(LineKind::answer, "Nothing came on with " + joined(dark) + ". Look, in this order:",
        {"Is " + source() + " running, and is its own breaker on? It may have tripped: turn it fully off, then on.",
         "Does the cord sit fully in " + source() + " and in the inlet?", "Does its display or meter show an output? A lamp plugged straight into it tells too.",
         "Has the small breaker beside the handle, or a GFCI receptacle on the way, tripped?"});
    add(LineKind::detail, "It counts as without power until something on it comes on. Then try again: it is moved to OFF and back, one after another.");
  }

  /// A handle keeps part of the house, or all of it, from the street's power.
  void say_barred_home() {
    const bool way = std::ranges::any_of(step_.handles, [&](const HandleRef& handle) { return view_.gear.is_way(view_.gear.graph.handle_of(handle)); });
    const std::string which = capital(joined(step_handles())), verb = step_.handles.size() > 1 ? " stand" : " stands";
    if (way)
      add(LineKind::danger, which + verb + " where " + source() + " feeds the panel, and cannot be moved. The main breaker must stay OFF: otherwise " + source() +
                                " meets the power from the street. That can kill line workers and start a fire.");
    else add(LineKind::danger, which + verb + " at BACKUP: what hangs there has no power from the street.");
    add(LineKind::answer, "The outage is not over. Call a licensed electrician" + std::string(view_.now.running ? "; stay on " + source() + " until then." : "."));
    add(LineKind::detail, "When a handle was moved, say so (key h).");
  }

  void say_no_safe_way() {
    if (step_.reason == OutageReason::way_home && !step_.handles.empty()) return say_barred_home();
    if (view_.gear.reaches_panel) return add(LineKind::answer, "Leave every handle where it is and call a licensed electrician.");
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

}  // namespace ohmstead
