// The steps of a proving session in words. The results are in proof_report_words.cc.

#include "ask/proving_words.h"

#include <algorithm>
#include <cctype>

#include "ask/printable.h"
#include "ask/proving_panel_words.h"
#include "ask/sentence.h"
#include "trace/step_text.h"

namespace ohmstead {

using sentence::capital, sentence::counted;
using namespace proving_words;

namespace proving_words {

std::string source_name(const ProvingSession& session) {
  const Source* source = find_row(session.house(), session.wiring().source);
  return source == nullptr ? "the source" : terminal::printable(source->name);
}

bool is_battery(const ProvingSession& session) {
  const Source* source = find_row(session.house(), session.wiring().source);
  return source != nullptr && source->kind == SourceKind::battery_inverter;
}

}  // namespace proving_words

namespace {

const char* throw_words(const ProofMove& move) {
  if (move.handle.kind == HandleKind::position) return move.to == kOff ? "OFF" : move.to == kUtilitySide ? "UTILITY" : "BACKUP";
  return move.to == kOff ? "OFF" : "ON";
}

/// "- oxygen concentrator (Bedroom, receptacle 4)", or its room alone where the point is called so too; one line each.
std::string load_list(const House& house, const std::vector<Id<Load>>& loads) {
  std::string text;
  for (const Id<Load> id : loads) {
    const Load* load = find_row(house, id);
    const Point* point = load == nullptr ? nullptr : find_row(house, load->point);
    if (point == nullptr) continue;
    const Room* room = point->name == load->name ? find_row(house, point->room) : nullptr;
    text += "\n- " + terminal::printable(load->name) + " (" + (room == nullptr ? point_name(house, point->id) : terminal::printable(room->name)) + ")";
  }
  return text;
}

std::string start_text(const ProvingSession& session, const ProofStep& step) {
  const bool panel = session.wiring().panel.has_value();
  std::string text = panel ? panel_start_text(session) :
      "Before you start:\n"
      "- Only work the handles on the front; leave every cover on. The line side of the main stays live even when the main is off.\n"
      "- Before you trust 'dead': test the tester on something live, test the point, test the tester again.\n"
      "- Circuits go off for some minutes, and once everything does, while the main is off. Tell everybody. Switch every light on, and carry a flashlight.\n"
      "- This shows whether the positions do what the plan says. It makes nothing safe to work on. Local code and a licensed electrician decide.";
  for (const ProofUnit& unit : session.wiring().units)
    if (unit.never_backup)
      text += "\n- Position " + position_numbers(session.house(), unit.positions) + " never goes on backup with this source: it shares a neutral, and the source's output is on "
              "one leg or bridged to both, so that neutral would carry the sum of both currents. It is left out there.";
  if (!step.loads.empty() && panel) text += "\nThese are hurt by a loss of power; have another supply ready:" + load_list(session.house(), step.loads);
  else if (!step.loads.empty()) text += "\nOn these positions, and hurt by a loss of power; have another supply ready:" + load_list(session.house(), step.loads);
  return text;
}

std::string source_caution_text(const ProvingSession& session) {
  const std::string name = source_name(session);
  std::string text = "Before " + name + " is started:\n";
  if (!is_battery(session))
    text += "- Outdoors only, at least 20 ft (6 m) from the house, its doors, windows and vents, exhaust pointing away (CPSC). Never in a garage, basement or "
            "porch: its gas kills. A carbon monoxide alarm works where people sleep.\n";
  text += "- It is not joined to the house yet: " + std::string(is_battery(session) ? "leave its output off" : "its own breaker stays OFF") + ".\n";
  if (!is_battery(session)) text += "- A cord is put in and taken out only while " + name + " stands still.\n";
  text += "- It and the utility are never both on a circuit: the main goes off before it is joined, and it is parted before the main goes on.\n"
          "- Switch off what draws much: range, dryer, water heater, air conditioner.";
  return text;
}

std::string caution_text(const ProvingSession& session) {
  const ProofStep& step = session.step();
  if (step.reason == ProofReason::start) return start_text(session, step);
  if (step.reason == ProofReason::source) return source_caution_text(session);
  const std::string what = step.caution == "main" ? "Before the main goes off: everything goes off, and these with it"
                                                  : "Before the next position goes off: it carries these by the record";
  return what + ". Whoever depends on one must be ready: wait for them, or move it to a supply you know." + load_list(session.house(), step.loads) +
         (step.caution != "main" ? "" : std::string("\nWhat ") + (session.wiring().panel ? "the plan keeps" : "is on a position") + " comes back within a few minutes, from " + source_name(session) + ".");
}

/// Moves of one tie are one move.
std::vector<std::string> move_list(const House& house, const std::vector<ProofMove>& moves) {
  std::vector<std::string> list;
  std::vector<Id<Position>> ties;
  for (const ProofMove& move : moves) {
    if (move.handle.kind != HandleKind::position) {
      list.push_back(handle_name(house, move.handle) + " to " + throw_words(move));
      continue;
    }
    const Position& position = row(house, Id<Position>{move.handle.id});
    if (position.tie && std::ranges::find(ties, position.tie) != ties.end()) continue;
    std::vector<std::size_t> tied;
    for (std::size_t p = 0; p < house.positions.size(); ++p)
      if (house.positions[p].id == position.id || (position.tie && house.positions[p].tie == position.tie)) tied.push_back(p);
    if (position.tie) ties.push_back(position.tie);
    list.push_back("position " + position_numbers(house, tied) + " to " + throw_words(move));
  }
  return list;
}

std::string move_text(const ProvingSession& session) {
  const ProofStep& step = session.step();
  const auto list = move_list(session.house(), step.moves);
  std::string text;
  if (!step.loads.empty()) {
    text = "Have a battery, a cylinder or another supply at hand and ready: with this step these lose their power:" + load_list(session.house(), step.loads) + "\n";
    if (!step.after.utility) text += "They come back when the main is on again: go straight on, and do not stop before.\n";
  }
  text += step.reason == ProofReason::time_over ? "Time is up. " : step.reason == ProofReason::danger ? "Stop here. " : "";
  if (list.size() == 1) text += "Move " + list[0] + ".";
  else {
    text += step.after.on_backup() ? "Move these, one after the other, a few seconds apart:" : "Move these:";
    for (const std::string& one : list) text += "\n- " + one;
  }
  if (step.briefly) text += "\nFor " + std::to_string(kProofBriefSeconds / 60) + " minutes at most.";
  if (step.after.on_backup()) text += "\nIf " + source_name(session) + " labors or its breaker trips, switch more off and move them again.";
  if (step.reason == ProofReason::danger) text += "\n" + source_name(session) + " reaches what it must not.";
  return text;
}

std::string main_words(const ProvingSession& session, const char* how) {
  std::string text;
  for (const HandleRef& main : session.wiring().mains) text += (text.empty() ? "" : " and ") + handle_name(session.house(), main);
  return "turn " + (text.empty() ? std::string("the service disconnect") : text) + " " + how;
}

/// What makes something run that has no switch of its own to try (common practice, no source).
const char* how_to_run(const House& house, const Point& point) {
  std::string names = point.name;
  for (const Load& load : house.loads)
    if (load.point == point.id) names += " " + load.name;
  for (char& letter : names) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  const auto says = [&](const char* word) { return names.find(word) != std::string::npos; };
  if (says("sump")) return "Lift its float, and hear whether it runs.";
  if (says("well") || (says("pump") && !says("heat"))) return "Open a tap until it runs.";
  if (says("furnace") || says("boiler") || says("heat pump") || says("heating")) return "Turn the thermostat up until it runs.";
  if (says("air condition")) return "Turn the thermostat down until it runs.";
  return point.kind == PointKind::other ? "Try whether it works." : "Look at its display, or turn it on for a moment.";
}

const char* how_to_look(const House& house, const Point& point) {
  switch (point.kind) {
    case PointKind::receptacle: return "Test it, or plug in a lamp that works.";
    case PointKind::light: return "If it is dark, try its switch.";
    case PointKind::fan: return "Turn it on at its switch.";
    case PointKind::alarm: return "Look at the light that shows house power, not at the battery.";
    case PointKind::appliance:
    case PointKind::other: return how_to_run(house, point);
  }
  return "Try whether it works.";
}

std::string look_text(const ProvingSession& session) {
  const ProofStep& step = session.step();
  const Point& point = row(session.house(), step.point);
  std::string text = (step.reason == ProofReason::confirm ? "Once more: " : "Go to: ") + point_name(session.house(), step.point) + ".\n";
  text += point.hots > 1 ? "Is it live (both hot conductors, so that it works as it should)? " : "Is it live? ";
  text += how_to_look(session.house(), point);
  if (step.reason == ProofReason::confirm && point.kind == PointKind::receptacle) text += " Test the tester on something live first.";
  if (point.half != ReceptacleHalf::both) text += std::string("\nOnly the ") + (point.half == ReceptacleHalf::upper ? "upper" : "lower") + " half counts.";
  if (session.now().running) text += "\nSee that " + source_name(session) + " still runs; if its breaker has tripped, switch more off, reset it, and look then.";
  return text + "\n(" + proof_stands_text(session) + ")";
}

}  // namespace

std::string proof_step_text(const ProvingSession& session) {
  const ProofStepKind step = session.step().kind;
  if (session.wiring().panel && step != ProofStepKind::caution && step != ProofStepKind::look && step != ProofStepKind::stop_source) return panel_step_text(session);
  const std::string name = source_name(session);
  const bool battery = is_battery(session);
  switch (step) {
    case ProofStepKind::caution: return caution_text(session);
    case ProofStepKind::move: return move_text(session);
    case ProofStepKind::look: return look_text(session);
    case ProofStepKind::start_source:
      if (battery) return "Start " + name + ", its output off.\nEvery position is on utility now.";
      return "See that the breaker on " + name + " itself is OFF, put its cord into the inlet, then start it, outdoors.\nIn this order: a cord that is live is "
             "never plugged in. Leave its breaker OFF, and let it run warm. Every position is on utility now.";
    case ProofStepKind::to_source:
      return capital(main_words(session, "OFF")) + ". Then join " + name + ": " + (battery ? "turn its output on." : "turn its own breaker ON.") +
             "\nIn this order: never join it while the main is on.";
    case ProofStepKind::to_utility:
      return std::string(session.step().reason == ProofReason::danger ? "Stop here. " : "") + "Part " + name + " from the house: " +
             (battery ? "turn its output off." : "turn its own breaker OFF.") + " Then " + main_words(session, "ON") +
             ".\nIn this order: never turn the main on while it is joined.";
    case ProofStepKind::stop_source:
      return battery ? "Turn " + name + " off." : "Let " + name + " run for some minutes without load, then stop it, and take its cord out of the inlet.";
    case ProofStepKind::try_interlock:
    case ProofStepKind::done: break;
  }
  return "Nothing is left to ask.";
}

std::string proof_why_text(const ProvingSession& session) {
  switch (session.step().reason) {
    case ProofReason::start:
    case ProofReason::source: return "So that nobody is hurt.";
    case ProofReason::load_at_risk: return "A load there is hurt by a loss of power.";
    case ProofReason::carried: return "With this off, only the circuits on it may be dead: so it is seen which circuit each position carries.";
    case ProofReason::on_utility: return "With everything as on an ordinary day it must be live, or seeing it dead later would prove nothing.";
    case ProofReason::confirm: return "The last look does not fit the plan. One look can be wrong, so a fault is said only when three agree.";
    case ProofReason::find_cutter: return "This circuit does not hang on the position that it should. This finds the one it hangs on.";
    case ProofReason::find_other: return "The position that is off does not carry what it should. What is dead now is what it carries.";
    case ProofReason::nothing_live: return "With the main off and no position on backup nothing may be live. What is live is fed past the positions.";
    case ProofReason::on_backup: return "On backup, with the main off, it can only be live from the source.";
    case ProofReason::not_the_panel: return "It is on no position. If it is live now, the source reaches the panel.";
    case ProofReason::which_half: return "What needs both legs does not work; this shows whether one is dead, or both are the same.";
    case ProofReason::time_over: return "This circuit may be off for a short time only.";
    case ProofReason::put_back: return "All that this was needed for was seen.";
    case ProofReason::danger: return "The source reaches what it must not: it is parted before anything else.";
    case ProofReason::street: return "Parted from the street, and with the source standing still, nothing may be live. What is live is fed past what parts it.";
    case ProofReason::interlock: return "Both on at once would join the source to the street. The interlock is what keeps that from happening, whoever moves the handles.";
    case ProofReason::left_off: return "The plan leaves its breaker off. If it is live now, it hangs on a breaker that stays on.";
    case ProofReason::which_leg: return "A circuit is dead from the source. If this one on the same leg is dead too, the whole leg is.";
    case ProofReason::finished: break;
  }
  return "Everything that looks can tell was seen.";
}

std::string proof_stands_text(const ProvingSession& session) {
  const ProofState now = session.now();
  const House& house = session.house();
  std::vector<std::string> off, backup;
  for (std::size_t u = 0; u < now.units.size(); ++u)
    if (now.units[u] != kUtilitySide) (now.units[u] == kOff ? off : backup).push_back(position_numbers(house, session.wiring().units[u].positions));
  std::vector<std::string> parts = session.wiring().panel ? panel_stands(session) : std::vector<std::string>{};
  const bool by_position = !session.wiring().panel;
  if (by_position && !now.utility) parts.push_back("the main is off");
  if (by_position && now.running) parts.push_back(source_name(session) + (now.utility ? " runs, not joined" : " runs and is joined"));
  if (!off.empty()) parts.push_back((off.size() == 1 ? "position " : "positions ") + joined(off) + (off.size() == 1 ? " is off" : " are off"));
  if (!backup.empty()) parts.push_back((backup.size() == 1 ? "position " : "positions ") + joined(backup) + (backup.size() == 1 ? " is" : " are") + " on backup");
  for (const Id<Breaker> breaker : now.off)
    if (by_position) parts.push_back(handle_name(house, {HandleKind::breaker, breaker.value}) + " is off");
  if (parts.empty()) return "Everything is as on an ordinary day.";
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) text += (i == 0 ? "" : i + 1 == parts.size() ? ", and " : ", ") + parts[i];
  return capital(text) + ".";
}

std::string proof_progress_text(const ProofProgress& progress) {
  const std::string made = counted(static_cast<std::size_t>(progress.looks), "look made", "looks made");
  if (progress.looks_left + progress.moves_left == 0) return made + ".";
  return made + "; " + counted(static_cast<std::size_t>(progress.looks_left), "look", "looks") + " and " +
         counted(static_cast<std::size_t>(progress.moves_left), "move", "moves") + " left if all is right.";
}

std::string proof_history_text(const ProvingSession& session, const ProofAnswer& answer) {
  const ProofStep& step = session.step();
  if (step.kind == ProofStepKind::look) return point_name(session.house(), step.point) + ": " + std::string(text_of(answer.kind)) + ", proving";
  if (answer.kind == ProofAnswerKind::skip) return "Proving: a step was skipped";
  switch (step.kind) {
    case ProofStepKind::caution: return "Proving: a caution was read";
    case ProofStepKind::start_source: return "Proving: the source was started";
    case ProofStepKind::try_interlock: return "Proving: the interlock was tried: " + std::string(answer.kind == ProofAnswerKind::blocked ? "it blocks" : "it does not block");
    case ProofStepKind::to_source: return "Proving: the main was turned off and the source joined";
    case ProofStepKind::to_utility: return "Proving: the source was parted and the main turned on";
    case ProofStepKind::stop_source: return "Proving: the source was stopped";
    default: break;
  }
  const auto list = move_list(session.house(), step.moves);
  if (session.wiring().panel && list.size() > 3) return "Proving: " + std::to_string(list.size()) + " handles were moved";
  std::string text;
  for (const std::string& one : list) text += (text.empty() ? "" : ", ") + one;
  return "Proving: " + text;
}

Method proof_method(const ProvingSession& session) {
  const Point* point = session.step().point ? find_row(session.house(), session.step().point) : nullptr;
  const bool seen = point == nullptr || point->kind == PointKind::light || point->kind == PointKind::fan;
  return seen ? Method::look : Method::tester;
}

}  // namespace ohmstead
