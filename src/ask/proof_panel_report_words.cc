// What was proved of a source that comes onto a panel as a whole, in words.

#include <algorithm>

#include "ask/proving_panel_words.h"
#include "ask/sentence.h"
#include "house/numbering.h"
#include "trace/step_text.h"

namespace ohmstead::proving_words {

using sentence::capital, sentence::say;

namespace {

constexpr const char* kStop = " Do not use the source until a licensed electrician has found why and put it right.";

class PanelWords {
 public:
  PanelWords(const House& house, const PanelProof& proof, Lines& lines) : house_(house), proof_(proof), lines_(lines) {}

  void say_all() {
    say_tries_wrong();
    say_panel_fault();
    for (const CircuitProof& one : proof_.circuits)
      if (one.result == ProofResult::wrong) say_circuit_fault(one);
    say_proved();
    say_missing();
  }

 private:
  [[nodiscard]] std::string name(const HandleRef& handle) const { return handle_name(house_, handle); }
  [[nodiscard]] std::string number(Id<Breaker> id) const {
    const Breaker* breaker = find_row(house_, id);
    const Panel* panel = breaker == nullptr ? nullptr : find_row(house_, breaker->panel);
    return panel == nullptr ? "?" : (house_.panels.size() > 1 ? panel->name + " " : "") + breaker_number(*panel, *breaker);
  }
  [[nodiscard]] std::string numbers(const std::vector<Id<Breaker>>& ids) const {
    std::vector<std::string> all;
    for (const Id<Breaker> id : ids) all.push_back(number(id));
    return (all.size() == 1 ? "breaker " : "breakers ") + joined(all);
  }
  [[nodiscard]] std::vector<Id<Breaker>> with(bool kept, ProofResult result) const {
    std::vector<Id<Breaker>> ids;
    for (const CircuitProof& one : proof_.circuits)
      if (one.kept == kept && one.result == result) ids.push_back(one.breaker);
    return ids;
  }

  void say_tries_wrong() {
    for (std::size_t t = 0; t < proof_.tries.size(); ++t)
      if (proof_.tried[t] == TryResult::not_blocked)
        say(lines_, LineKind::danger, "The interlock does not block: with " + name(proof_.tries[t].on) + " on, " + name(proof_.tries[t].tried) + " went on too. The source can meet the street, and that can "
                                      "kill line workers." + kStop);
  }

  void say_panel_fault() {
    const std::string which = numbers(proof_.which);
    switch (proof_.fault) {
      case PanelFault::none: break;
      case PanelFault::street_stays:
        return say(lines_, LineKind::danger, "The panel stays on the street's power: parted from it, and with the source standing still, the circuits of " + which + " were live while their breakers were on." + kStop);
      case PanelFault::one_leg_dead:
        return say(lines_, LineKind::danger, "120 V only reaches one leg: " + which + (proof_.which.size() == 1 ? " is" : " are") + " on and dead from the source. See first whether both halves of its own breaker, and of the breaker "
                                             "through which it comes in, are on; then a wire of the cord, the inlet or that breaker is open.");
      case PanelFault::nothing_live:
        return say(lines_, LineKind::danger, "The source gives nothing to the panel. See first whether its own breaker is on, and the one through which it comes in.");
      case PanelFault::legs_same:
        return say(lines_, LineKind::danger, "Both legs are one: each is live from the source, and nothing that needs both works. Its 120 V output is bridged to both legs; then two circuits that share a neutral "
                                             "must never be on with it: that neutral would carry the sum of both.");
    }
  }

  void say_circuit_fault(const CircuitProof& one) {
    const std::string me = "Breaker " + number(one.breaker);
    switch (one.fault) {
      case CircuitFault::none:
      case CircuitFault::leg_dead: return;  // said of the leg
      case CircuitFault::from_street:
        return say(lines_, LineKind::danger, "The circuit of " + numbers({one.breaker}) + " stays live from the street: it was live with the panel parted from the street, the source standing still and the breaker off." + kStop);
      case CircuitFault::dead_anyway: return say(lines_, LineKind::danger, me + " is dead on an ordinary day too. See first whether it is on, and what is behind it.");
      case CircuitFault::dead_on_source:
        return say(lines_, LineKind::danger, me + " is on and its circuit is dead from the source, though its leg is live: it hangs on another breaker (`ohmstead trace --again`), or something behind it has tripped.");
      case CircuitFault::needs_both:
        if (proof_.fault != PanelFault::legs_same) say(lines_, LineKind::danger, me + " needs both legs and does not work from the source, though other things do: one half of it may be open, or both legs are one.");
        return;
      case CircuitFault::live_though_off:
        return say(lines_, LineKind::danger, me + " is off, and its circuit is live from the source: it hangs on another breaker, which the plan keeps on. Trace it: `ohmstead trace --again`.");
      case CircuitFault::leg_or_circuit:
        return say(lines_, LineKind::danger, me + " is on and dead from the source. Its whole leg may be dead, so that 120 V only reaches the other: nothing else on this leg is known that could tell.");
    }
  }

  void say_proved() {
    if (proof_.all_blocked() && !proof_.tries.empty())
      say(lines_, LineKind::answer, "The interlock blocks: the main and the breaker through which the source comes in did not go on together, tried both ways.");
    if (const auto ids = with(true, ProofResult::proved); !ids.empty())
      say(lines_, LineKind::answer, capital(numbers(ids)) + (ids.size() == 1 ? " stays" : " stay") + " on, and proved: dead when parted from the street, live from the source.");
    if (const auto ids = with(false, ProofResult::proved); !ids.empty())
      say(lines_, LineKind::answer, capital(numbers(ids)) + (ids.size() == 1 ? " is" : " are") + " off by the plan, and what hangs there was dead while the source ran.");
    if (proof_.result == ProofResult::proved) say(lines_, LineKind::answer, "All is proved: each leg that is used comes from the street on an ordinary day and from the source in an outage, and from both at once never.");
  }

  void say_missing() {
    std::vector<std::string> parts;
    if (std::ranges::find(proof_.tried, TryResult::not_yet) != proof_.tried.end()) parts.push_back("the interlock was not tried both ways");
    if (!proof_.ordinary_seen) parts.push_back("not seen live with everything as on an ordinary day, on each leg");
    std::vector<Id<Breaker>> unknown, unseen, off;
    for (const CircuitProof& one : proof_.circuits)
      if (one.result == ProofResult::not_yet) (!one.kept ? off : one.no_point ? unknown : unseen).push_back(one.breaker);
    if (!unknown.empty()) parts.push_back("of " + numbers(unknown) + " no point is known by proof or declaration, or none could be looked at (trace it first: `ohmstead trace`)");
    if (!unseen.empty()) parts.push_back(numbers(unseen) + " not seen dead when parted and live from the source");
    if (!off.empty()) parts.push_back("not seen that what hangs on " + numbers(off) + " stays dead while the source runs");
    if (parts.empty()) return;
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
    say(lines_, LineKind::answer, "Not yet: " + text + ".");
    if (!proof_.danger()) say(lines_, LineKind::detail, "Go on with `ohmstead prove`.");
  }

  const House& house_;
  const PanelProof& proof_;
  Lines& lines_;
};

}  // namespace

void say_panel(const House& house, const PanelProof& proof, Lines& lines) { PanelWords(house, proof, lines).say_all(); }

}  // namespace ohmstead::proving_words
