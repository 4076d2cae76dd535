#include "ask/worksheet_step_words.h"

#include <algorithm>

#include "ask/position_words.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "feed/feeds.h"
#include "house/numbering.h"
#include "rules/wording.h"

namespace ohmstead {

using sentence::capital;

namespace {

std::string number_of(const House& house, const Breaker& breaker) {
  const Panel* panel = find_row(house, breaker.panel);
  return panel == nullptr ? "?" : breaker_number(*panel, breaker);
}

std::string position_words(const House& house, const WorkStep& step) {
  const Position& position = row(house, step.position);
  std::vector<int> numbers;
  for (const Position& other : house.positions)
    if (position.tie && other.tie == position.tie && other.id != position.id) numbers.push_back(other.number);
  std::string text = "position " + std::to_string(position.number) + device_words(house, position);
  if (position.amps > 0) text += " (" + std::to_string(position.amps) + " A, leg " + std::to_string(position.leg) + ")";
  else text += " (leg " + std::to_string(position.leg) + ")";
  for (const int number : numbers) text += ", tied to " + std::to_string(number);
  return text;
}

std::string hot_wire(const House& house, const WorkStep& step) {
  const std::string pole = pole_words(house, step.breaker, step.pole);
  return pole.empty() ? "the hot wire on it" : "the hot wire on its " + pole;
}

std::vector<std::string> partner_names(const Names& names, const WorkStep& step) {
  std::vector<std::string> partners;
  for (const Id<Breaker> breaker : step.partners) partners.push_back(names.name_of(HandleRef{HandleKind::breaker, breaker.value}));
  return partners;
}

std::string caution_words(const Record& record, const Names& names, const WorkStep& step, WorkCaution caution) {
  switch (caution) {
    case WorkCaution::multiwire: {
      const auto partners = partner_names(names, step);
      const std::string with = partners.empty() ? "both its poles" : "it and " + joined(partners);
      return "Multiwire: " + with + " share one neutral. Move them together, to positions on opposite legs with tied handles, and keep the "
             "neutral whole; on one leg the neutral carries the sum of both currents.";
    }
    case WorkCaution::multiwire_never: {
      const auto partners = partner_names(names, step);
      return "Never with this source: " + (partners.empty() ? std::string("both its poles") : "it and " + joined(partners)) +
             " share one neutral, and the source's output is on one leg or bridged to both: the neutral would carry the sum of both currents, and no breaker "
             "sees that. Do not connect it; make the plan without it.";
    }
    case WorkCaution::two_pole:
      return "A two-pole circuit: its poles go to tied positions on opposite legs, never to two positions that move by themselves.";
    case WorkCaution::receptacles_of_20: {
      const int amps = row(record.house, step.position).amps;
      return "The position's " + std::to_string(amps) + " A breaker then protects this " + std::to_string(row(record.house, step.breaker).amps) +
             " A circuit: 20 A receptacles may not stay on 15 A (NFPA 70 210.21(B)(3), from memory), and it may trip sooner.";
    }
    case WorkCaution::two_wires:
      return "Of a position's two wires one goes to the circuit and one to the breaker; the directions of the device say which. Exchanged, the source feeds the panel.";
    case WorkCaution::protection_bypassed: break;
  }
  return "Its breaker protects people (GFCI or AFCI). On backup that protection may be bypassed: ask what local code wants instead.";
}

std::string off_list_words(const Record& record, const WorkStep& step) {
  std::vector<std::string> off;
  for (const Breaker& breaker : record.house.breakers) {
    const bool kept = std::ranges::any_of(record.house.planned, [&](const Planned& planned) { return planned.breaker == breaker.id; });
    if (breaker.panel == step.panel && !kept && !breaker.backfed_from) off.push_back(number_of(record.house, breaker));
  }
  const Panel* panel = find_row(record.house, step.panel);
  const std::string name = panel == nullptr ? "the panel" : panel->name;
  if (off.empty()) return "No other breaker of " + name + " has to be off in an outage.";
  return "Mark the other breakers of " + name + " as OFF in an outage: " + joined(off) + ".";
}

/// What to know of the breaker, and what to check when the wires are where they belong.
std::vector<std::string> details_of(const Record& record, const WorkStep& step) {
  std::vector<std::string> details{breaker_details(record, step.breaker)};
  if (step.kind == WorkKind::unchanged) return details;
  const bool multiwire = std::ranges::find(step.cautions, WorkCaution::multiwire) != step.cautions.end();
  const std::string neutral = multiwire ? "the neutral that both share is in one piece and where it was" : "neutral and ground are where they were";
  details.push_back(step.kind == WorkKind::disconnect
                        ? "Check: the breaker's number; the position's wires are capped; " + neutral + "."
                        : "Check: the breaker's and the position's number; no other wire on that pole; " + neutral + " (or as the device's directions say).");
  return details;
}

}  // namespace

std::string pole_words(const House& house, Id<Breaker> breaker, int pole) {
  const Breaker* found = find_row(house, breaker);
  if (found == nullptr || found->poles < 2) return "";
  const Panel* panel = find_row(house, found->panel);
  const auto places = panel == nullptr ? std::vector<PolePlace>{} : pole_places(*panel, *found);
  const auto at = static_cast<std::size_t>(pole - 1);
  const std::string name = pole == 1 ? "upper pole" : found->poles == 2 ? "lower pole" : pole == 2 ? "middle pole" : "lowest pole";
  return at < places.size() ? name + " (space " + std::to_string(places[at].space) + ")" : name;
}

std::string breaker_details(const Record& record, Id<Breaker> breaker) {
  const Breaker* found = find_row(record.house, breaker);
  if (found == nullptr) return "";
  std::string text = "Breaker " + number_of(record.house, *found) + ": ";
  if (found->amps > 0) text += std::to_string(found->amps) + " A; ";
  if (found->old_label.find_first_not_of("? ") != std::string::npos) text += "old label \"" + found->old_label + "\"; ";
  return text + "it feeds: " + circuit_description(record.house, record.feeds, breaker) + ".";
}

WorkStepWords circuit_step_words(const Record& record, const Names& names, const WorkStep& step) {
  WorkStepWords words;
  const Breaker* found = step.breaker ? find_row(record.house, step.breaker) : nullptr;
  const Panel* panel = found == nullptr ? nullptr : find_row(record.house, found->panel);
  const std::string breaker = found == nullptr ? "" : "breaker " + number_of(record.house, *found) + (panel == nullptr ? "" : " in " + panel->name);
  const std::string position = step.position ? capital(position_words(record.house, step)) + ": " : "";
  const std::string wire = step.position ? hot_wire(record.house, step) : "";
  switch (step.kind) {
    case WorkKind::disconnect: words.text = position + "take off " + breaker + ". Put " + wire + " back on that breaker."; break;
    case WorkKind::connect:
      words.text = position + "connect " + breaker + ". Take " + wire + " off, join it with the position's wire to the circuit, and put the position's wire "
                   "to the breaker in its place.";
      break;
    case WorkKind::unchanged: words.text = position + breaker + " stays on it. Look that it is so."; break;
    case WorkKind::keep_on: words.text = "Mark " + breaker + " as ON in an outage."; break;
    case WorkKind::off_list: words.text = off_list_words(record, step); break;
    default: break;
  }
  if (step.position) words.details = details_of(record, step);
  if (step.kind == WorkKind::keep_on) words.details.push_back(breaker_details(record, step.breaker));
  for (const WorkCaution caution : step.cautions) words.cautions.push_back(caution_words(record, names, step, caution));
  return words;
}

}  // namespace ohmstead
