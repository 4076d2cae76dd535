// The steps of the worksheet before and after the wiring, and the worksheet as a whole. Those of single positions are in
// worksheet_step_words.cc.

#include "ask/worksheet_words.h"

#include <algorithm>

#include "ask/sentence.h"
#include "ask/worksheet_step_words.h"

namespace ohmstead {

using sentence::capital, sentence::counted, sentence::say;

namespace {

std::string source_name(const Record& record, const Worksheet& sheet) {
  const Source* source = sheet.source ? find_row(record.house, sheet.source) : nullptr;
  return source == nullptr ? "the source" : source->name;
}

WorkStepWords neutral_words(const Record& record, const Worksheet& sheet) {
  const Source* source = sheet.source ? find_row(record.house, sheet.source) : nullptr;
  const NeutralBond bond = source == nullptr ? NeutralBond::not_known : source->neutral;
  const std::string name = source_name(record, sheet);
  WorkStepWords words;
  if (bond == NeutralBond::bonded) words.text = name + " has its neutral joined to its frame (bonded).";
  else if (bond == NeutralBond::floating) words.text = name + " has a floating neutral.";
  else words.text = "Find out from its directions whether the neutral of " + name + " is joined to its frame (bonded) or floating.";
  words.text += " Make sure that the transfer gear is made for that.";
  words.details.push_back("Gear that does not switch the neutral wants a floating one; with gear that does, the source is a separately derived system.");
  words.cautions.push_back("Neutral joined to ground at the source and again at the service: current then flows where it must not, and a GFCI on the source may trip.");
  return words;
}

WorkStepWords people_words(const Names& names, const WorkStep& step) {
  WorkStepWords words{"Give these another supply for as long as the work takes, and tell everybody that the power goes off:", {}, {}};
  for (const Id<Load> load : step.loads) words.details.push_back(names.name_of(ThingRef{ThingKind::load, load.value}));
  return words;
}

WorkStepWords stopped_words(const Record& record, const Worksheet& sheet) {
  WorkStepWords words{"Stop " + source_name(record, sheet) + " and take its cord out of the inlet.", {}, {}};
  std::vector<std::string> others;
  for (const Source& source : record.house.sources)
    if (source.id != sheet.source) others.push_back(source.name);
  if (!others.empty()) words.text += " Turn off and lock off " + joined(others) + " too.";
  words.cautions.push_back("Solar panels, a battery or a second generator that is not written down can still feed the panel: look for them.");
  return words;
}

WorkStepWords before_words(const Record& record, const Names& names, const Worksheet& sheet, const WorkStep& step) {
  switch (step.kind) {
    case WorkKind::permit:
      return {"Ask the building department what it wants: a permit, an inspection, a licensed electrician.",
              {}, {"Local code and a licensed electrician decide. This sheet says what goes where; it makes nobody qualified to do it."}};
    case WorkKind::neutral_fits: return neutral_words(record, sheet);
    case WorkKind::readings:
      return {"Have the directions of the transfer device and of the panel at hand: which of a position's wires goes to the breaker and which to the circuit, wire sizes, torques.", {}, {}};
    case WorkKind::people: return people_words(names, step);
    case WorkKind::sources_stopped: return stopped_words(record, sheet);
    case WorkKind::main_off:
      return {"Turn the main off, and see that nobody can turn it on while you work.",
              {}, {"The line side of the main, its lugs and the wires from the meter stay live with the main off. Keep away from them."}};
    case WorkKind::test_dead:
      return {"Take the cover off and test: the tester on something live, every breaker you will touch and the bus, the tester again on something live.",
              {}, {"Only what was tested so, just now, is dead. A pen that needs no contact is no proof."}};
    default: return {};
  }
}

WorkStepWords after_words(const Record& record, const Worksheet& sheet, const WorkStep& step) {
  switch (step.kind) {
    case WorkKind::bars:
      return {"Look at the neutral and the ground bars: in a subpanel or a transfer device they are separate, and there is no bonding screw or strap between them.",
              {"They are joined at the service disconnect only (NFPA 70 250.24(A)(5) and 408.40, from memory)."}, {}};
    case WorkKind::torque:
      return {"Tighten every terminal that you touched to the torque that the maker of the panel or device gives, with a torque tool, and pull at each wire.", {}, {}};
    case WorkKind::labels:
      return {sheet.wires_move || sheet.connected ? "Label every position with what it carries, and put a new directory on the panel door: `ohmstead directory`."
                               : "Label the handles and put the list beside the panel: which breakers are on in an outage, and in which order they move.", {}, {}};
    case WorkKind::signs:
      return {"Put up the signs: at the service disconnect what kind of source there is and where; at the inlet whether it is for a bonded or for a floating neutral only.",
              {"NFPA 70 702.7(A); at the inlet 702.7(C), from memory."}, {}};
    case WorkKind::checked:
      return {"Have it checked, by the inspector or by a second licensed electrician, as local code wants.", {}, {}};
    case WorkKind::power_up:
      return {"Covers on. Every position to utility, " + source_name(record, sheet) + " stopped, then the main on. See that everything works as before.", {}, {}};
    case WorkKind::prove:
      return {"Prove it: `ohmstead prove` finds with a few moves and looks whether every position carries what the plan says.", {}, {}};
    case WorkKind::try_interlock:
      return {"Try the interlock, with " + source_name(record, sheet) + " stopped and its cord out: with the main ON the backfed breaker must not go ON; with the main OFF and the backfed breaker ON the main must not go ON. "
              "Then the backfed breaker OFF and the main ON.",
              {"The house is without power while the main is off: first tell everybody who depends on it."},
              {"If both can be on together the source would feed the street and kill whoever works there: do not use it, and have it put right."}};
    case WorkKind::first_run:
      return {"Run it once on a calm day as in an outage, with `ohmstead outage`: see that what stays on works and that everything else is without power, and look at something on each leg. "
              "Then go back the way it says.", {}, {}};
    default: return {};
  }
}

std::string mark_words(const WorkStep& step) {
  if (!step.done) return "[ ] ";
  return "[x] ";
}

std::string tick_words(const WorkStep& step) {
  if (!step.done) return "";
  const std::string day = step.at.substr(0, 10);
  return " (Done" + (day.empty() ? "" : " on " + day) + (step.who.empty() ? "" : " by " + step.who) + ".)";
}

void say_step(Lines& lines, const Record& record, const Names& names, const Worksheet& sheet, std::size_t i) {
  const WorkStepWords words = words_of_step(record, names, sheet, sheet.steps[i]);
  std::vector<std::string> items;
  for (const std::string& caution : words.cautions) items.push_back("Caution: " + caution);
  items.insert(items.end(), words.details.begin(), words.details.end());
  say(lines, LineKind::answer, mark_words(sheet.steps[i]) + std::to_string(i + 1) + ". " + words.text + tick_words(sheet.steps[i]), items);
}

void say_what_is_open(Lines& lines, const Worksheet& sheet) {
  const auto open = static_cast<std::size_t>(std::ranges::count(sheet.steps, false, &WorkStep::done));
  if (open == 0) say(lines, LineKind::detail, "All steps are ticked.");
  else say(lines, LineKind::detail, counted(open, "step is open.", "steps are open.") + " Tick one with `ohmstead worksheet --done NUMBER` or `--done next`.");
  if (sheet.wires_move) say(lines, LineKind::detail, "When all wires are where they belong: `ohmstead worksheet --connected`.");
}

/// A backfed breaker that nothing keeps from being on together with another handle.
void say_what_is_not_interlocked(Lines& lines, const Record& record, const Names& names) {
  for (const Breaker& breaker : record.house.breakers) {
    const HandleRef handle{HandleKind::breaker, breaker.id.value};
    const bool locked = std::ranges::any_of(record.house.interlocks, [&](const Interlock& lock) { return lock.first == handle || lock.second == handle; });
    if (breaker.backfed_from && !locked)
      say(lines, LineKind::danger, capital(names.name_of(handle)) + " lets a source into its panel, and no interlock is written down that keeps it and the main from being on "
                                   "together: the source would feed the street and kill whoever works there. The normal and the backup supply must never be tied together (NFPA 70 "
                                   "702.5). Do not use it until an electrician has fitted an interlock made for that panel.");
  }
}

}  // namespace

WorkStepWords words_of_step(const Record& record, const Names& names, const Worksheet& sheet, const WorkStep& step) {
  if (step.kind < WorkKind::disconnect) return before_words(record, names, sheet, step);
  if (step.kind > WorkKind::off_list) return after_words(record, sheet, step);
  return circuit_step_words(record, names, step);
}

std::string part_of_step(const WorkStep& step) {
  if (step.kind < WorkKind::disconnect) return "Before";
  if (step.kind > WorkKind::off_list) return "After";
  return step.position ? "Position by position" : "Breakers";
}

Lines words_of_worksheet(const Record& record, const Names& names, const Worksheet& sheet) {
  Lines lines;
  say_what_is_not_interlocked(lines, record, names);
  if (sheet.wires_move)
    say(lines, LineKind::caution, "This is for whoever is qualified to work inside a panel. Local code and a licensed electrician decide.");
  else if (sheet.connected)
    say(lines, LineKind::answer, "It is recorded as wired by this plan. What was done for that stays here, ticked.");
  else
    say(lines, LineKind::answer, "No wire has to be moved for this plan.");
  std::string part;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
    const WorkStep& step = sheet.steps[i];
    if (part_of_step(step) != part) say(lines, LineKind::detail, (part = part_of_step(step)) + ":");
    say_step(lines, record, names, sheet, i);
  }
  say_what_is_open(lines, sheet);
  return lines;
}

Lines words_of_tick(const Record& record, const Names& names, const Worksheet& sheet, const std::string& key) {
  Lines lines;
  const auto step = std::ranges::find(sheet.steps, key, &WorkStep::key);
  if (step != sheet.steps.end()) say_step(lines, record, names, sheet, static_cast<std::size_t>(step - sheet.steps.begin()));
  const auto open = std::ranges::find(sheet.steps, false, &WorkStep::done);
  if (open != sheet.steps.end() && open != step) {
    say(lines, LineKind::detail, "Next:");
    say_step(lines, record, names, sheet, static_cast<std::size_t>(open - sheet.steps.begin()));
  }
  say_what_is_open(lines, sheet);
  return lines;
}

Lines words_of_missing(const Record& record, const Names& names, const Worksheet& sheet) {
  Lines lines;
  std::vector<std::string> items;
  for (const std::size_t i : wiring_not_done(sheet))
    items.push_back(std::to_string(i + 1) + ". " + words_of_step(record, names, sheet, sheet.steps[i]).text);
  if (!items.empty())
    say(lines, LineKind::answer, "Not recorded as connected: " + counted(items.size(), "step of the wiring is", "steps of the wiring are") +
                                     " not ticked yet. Tick each when it is done: `ohmstead worksheet --done NUMBER`.", items);
  return lines;
}

}  // namespace ohmstead
