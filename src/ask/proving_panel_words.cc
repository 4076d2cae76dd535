// The steps of a proving session in words, where the source comes onto a panel as a whole. The results are in
// proof_panel_report_words.cc.

#include "ask/proving_panel_words.h"

#include <algorithm>

#include "ask/printable.h"
#include "ask/sentence.h"
#include "house/numbering.h"
#include "trace/step_text.h"

namespace ohmstead::proving_words {

using sentence::capital;

namespace {

/// The handles of these moves in one list; positions of a whole-house switch are one handle.
std::string handles_of(const House& house, const std::vector<ProofMove>& moves) {
  std::vector<std::string> names;
  for (const ProofMove& move : moves) {
    std::string name = handle_name(house, move.handle);
    if (const Position* position = move.handle.kind == HandleKind::position ? find_row(house, Id<Position>{move.handle.id}) : nullptr) {
      const TransferDevice* device = find_row(house, position->device);
      name = "the transfer switch" + (device == nullptr || device->name.empty() ? "" : " " + terminal::printable(device->name));
    }
    if (std::ranges::find(names, name) == names.end()) names.push_back(name);
  }
  return joined(names);
}

bool by_switch(const ProvingSession& session) { return session.wiring().panel->ways.empty(); }

std::string part_text(const ProvingSession& session) {
  const auto& part = session.wiring().panel->part;
  return by_switch(session) ? "move " + handles_of(session.house(), part) + " to BACKUP" : "turn " + handles_of(session.house(), part) + " OFF";
}
std::string back_text(const ProvingSession& session) {
  const auto& part = session.wiring().panel->part;
  return by_switch(session) ? "move " + handles_of(session.house(), part) + " to UTILITY" : "turn " + handles_of(session.house(), part) + " ON";
}
std::string way_text(const ProvingSession& session) { return handles_of(session.house(), session.wiring().panel->ways); }

/// "every breaker in Main and Workshop OFF but breaker 30-32 in Main": a feeder of kept circuits stays on, and panels with nothing kept go off by theirs.
std::string every_breaker_off(const ProvingSession& session, std::vector<std::string> but) {
  const House& house = session.house();
  std::vector<std::string> panels;
  const auto add_once = [](std::vector<std::string>& list, const std::string& name) {
    if (std::ranges::find(list, name) == list.end()) list.push_back(name);
  };
  for (const Id<Breaker> id : session.wiring().panel->kept) {
    const Panel* panel = find_row(house, row(house, id).panel);
    for (std::size_t up = 0; panel != nullptr && up < house.panels.size(); ++up) {  // up to the one that the source comes onto
      add_once(panels, terminal::printable(panel->name));
      const Breaker* feeder = panel->supply == Supply::breaker ? find_row(house, panel->feeder) : nullptr;
      const HandleRef ref = feeder == nullptr ? HandleRef{} : HandleRef{HandleKind::breaker, feeder->id.value};
      if (feeder == nullptr || std::ranges::find(session.wiring().panel->part, ref, &ProofMove::handle) != session.wiring().panel->part.end()) break;
      add_once(but, handle_name(house, ref));
      panel = find_row(house, feeder->panel);
    }
  }
  return "every breaker in " + joined(panels) + " OFF" + (but.empty() ? "" : " but " + joined(but));
}

std::string own_breaker(const ProvingSession& session) { return is_battery(session) ? "the output of " + source_name(session) : source_name(session) + "'s own breaker"; }

std::string list_of(const ProvingSession& session, Throw to) {
  std::string text;
  for (const ProofMove& move : session.step().moves)
    if (move.handle.kind == HandleKind::breaker && move.to == to && std::ranges::find(session.wiring().panel->ways, move.handle, &ProofMove::handle) == session.wiring().panel->ways.end())
      text += "\n- " + handle_name(session.house(), move.handle);
  return text;
}

std::string try_text(const ProvingSession& session) {
  const HandleRef tried = session.step().moves.front().handle;
  const auto& tries = session.wiring().panel->tries;
  const auto one = std::ranges::find_if(tries, [&](const ProofTry& t) { return proof_try_name(t) == session.step().caution; });
  const std::string name = handle_name(session.house(), tried), on = one == tries.end() ? "the other" : handle_name(session.house(), one->on);
  return "Try the interlock: with " + on + " ON, try to turn " + name + " ON, with one finger and no force.\n" + source_name(session) +
         " stands still and its cord is out of the inlet. The interlock must keep it from going ON. If it does go ON, turn it OFF again at once.";
}

std::string all_off_text(const ProvingSession& session) {
  return std::string(session.now().utility ? capital(part_text(session)) + ". Then turn " : "Turn ") + every_breaker_off(session, {}) +
         (session.wiring().panel->ways.empty() ? "." : "; " + way_text(session) + " stays OFF too.");
}

std::string panel_move_text(const ProvingSession& session) {
  const ProofStep& step = session.step();
  const std::string off = every_breaker_off(session, {way_text(session)}) + ". Then turn " + way_text(session) + " ON";
  if (step.after.utility)
    return std::string(step.reason == ProofReason::danger ? "Stop here. " : "") + "Put everything back, in this order:" +
           (session.now().let_in && !by_switch(session) ? "\n- turn " + way_text(session) + " OFF" : "") + "\n- " + back_text(session) +
           (session.now().off.empty() ? "" : "\n- turn every breaker ON, one after the other");
  if (step.after.running) return "For one look turn " + std::string(list_of(session, kOn).empty() ? "OFF:" + list_of(session, kOff) : "ON:" + list_of(session, kOn));
  if (!step.after.off.empty() && (!step.after.let_in || by_switch(session))) return all_off_text(session);
  if (step.after.let_in)
    return "Turn " + off + ".\nIn this order. " + source_name(session) + " stands still, so nothing comes on.";
  return capital(part_text(session)) + ".\n" + source_name(session) + " stands still: everything behind it goes dark, and that is meant. Leave all other handles as they are.";
}

std::string join_text(const ProvingSession& session) {
  std::string text = by_switch(session) ? "Turn the service disconnect, ahead of the switch, OFF: then nothing from the street can reach it. Then turn " : "Turn ";
  text += own_breaker(session) + " ON. Then turn these ON, one after the other, a few seconds apart:" + list_of(session, kOn);
  return text + "\nAll other breakers stay OFF. If " + source_name(session) + " labors or its breaker trips, switch off what draws much and try again.";
}

std::string home_text(const ProvingSession& session) {
  std::string text = std::string(session.step().reason == ProofReason::danger ? "Stop here. " : "") + "Back to the street's power, in this order:\n- turn OFF all breakers that are on\n- turn " +
                     own_breaker(session) + " OFF: that parts it from the house";
  if (!by_switch(session)) text += "\n- turn " + way_text(session) + " OFF";
  text += "\n- " + back_text(session);
  if (by_switch(session)) text += "\n- turn the service disconnect ON";
  return text + "\n- turn every breaker ON, one after the other\nNever turn the main on while " + source_name(session) + " is joined.";
}

}  // namespace

std::string panel_start_text(const ProvingSession& session) {
  const std::string name = source_name(session);
  return "Before you start:\n"
         "- Only work the handles on the front; leave every cover on. The line side of the main stays live even when the main is off.\n"
         "- Before you trust 'dead': test the tester on something live, test the point, test the tester again.\n"
         "- Everything goes off for some minutes. Tell everybody. Switch every light on, and carry a flashlight.\n"
         "- " + name + " stands still and is not plugged in until a step says otherwise.\n"
         "- This shows whether the source comes in as the plan says, and never meets the street. It makes nothing safe to work on. Local code and a licensed electrician decide." +
         (session.wiring().panel->by_plan ? "" : "\n- No plan is kept, so the breakers with something wished for count as those that stay on.");
}

std::string panel_step_text(const ProvingSession& session) {
  const std::string name = source_name(session);
  switch (session.step().kind) {
    case ProofStepKind::try_interlock: return try_text(session);
    case ProofStepKind::move: return panel_move_text(session);
    case ProofStepKind::start_source:
      if (is_battery(session)) return "Start " + name + ", its output off.\nEvery breaker of the panel is off now.";
      return "See that the breaker on " + name + " itself is OFF, put its cord into the inlet, then start it, outdoors.\nIn this order: a cord that is live is never plugged in. "
             "Leave its breaker OFF, and let it run warm. Every breaker of the panel is off now.";
    case ProofStepKind::to_source: return join_text(session);
    case ProofStepKind::to_utility: return home_text(session);
    default: break;
  }
  return "Nothing is left to ask.";
}

std::vector<std::string> panel_stands(const ProvingSession& session) {
  const ProofState now = session.now();
  const ProofPanel& panel = *session.wiring().panel;
  std::vector<std::string> parts;
  if (!now.utility) parts.push_back(handles_of(session.house(), panel.part) + (by_switch(session) ? " is on backup" : " is off"));
  if (now.let_in && !by_switch(session)) parts.push_back(way_text(session) + " is on");
  if (now.running) parts.push_back(source_name(session) + " runs");
  std::vector<std::string> on;
  for (const Id<Breaker> id : panel.kept)
    if (std::ranges::find(now.off, id) == now.off.end()) on.push_back(handle_name(session.house(), {HandleKind::breaker, id.value}));
  for (const Id<Breaker> id : panel.rest)
    if (!now.off.empty() && std::ranges::find(now.off, id) == now.off.end()) on.push_back(handle_name(session.house(), {HandleKind::breaker, id.value}));
  if (!now.off.empty()) parts.push_back(on.empty() ? "every breaker of the panel is off" : "every breaker of the panel is off but " + joined(on));
  return parts;
}

}  // namespace ohmstead::proving_words
