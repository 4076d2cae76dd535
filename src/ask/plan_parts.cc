#include "ask/plan_parts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/leg_sums.h"
#include "backup/plan_picture.h"
#include "house/index.h"

namespace ohmstead::plan_words {

using sentence::capital, sentence::say;

namespace {

using Kind = PlanDoubt::Kind;

/// Loads with this doubt, in a person's words.
std::vector<std::string> loads_with(const House& house, const PlanAnswer& answer, Kind kind) {
  std::vector<std::string> loads;
  for (const PlanDoubt& doubt : answer.backup.doubts)
    if (doubt.kind == kind)
      if (const Load* load = find_row(house, doubt.load)) loads.push_back(load_text(house, *load));
  return loads;
}

/// For life safety, and not in the plan because its feed is not known or not sound.
std::vector<std::string> life_safety_not_known(const House& house, const PlanAnswer& answer) {
  std::vector<std::string> loads;
  for (const PlanDoubt& doubt : answer.backup.doubts) {
    const Load* load = find_row(house, doubt.load);
    const bool left_out = doubt.kind == Kind::feed_not_known || doubt.kind == Kind::fed_twice || doubt.kind == Kind::out_of_reach;
    if (left_out && load != nullptr && load->importance == Importance::life_safety) loads.push_back(load_text(house, *load));
  }
  return loads;
}

bool has(const PlanAnswer& answer, Kind kind) {
  return std::ranges::find(answer.backup.doubts, kind, &PlanDoubt::kind) != answer.backup.doubts.end();
}

void say_doubts_of_source(const Record& record, const PlanAnswer& answer, Lines& lines) {
  const Source& source = record.house.sources[answer.backup.source];
  if (has(answer, Kind::starting_not_known))
    say(lines, LineKind::detail, "The starting watts of " + source.name + " are not recorded; its running watts are taken for both.");
  if (has(answer, Kind::leg_share_assumed))
    say(lines, LineKind::detail, "How much " + source.name + " gives on one leg is not recorded; half of its watts are taken (common practice, no source).");
}

void say_unread_breakers(const Names& names, const PlanAnswer& answer, Lines& lines) {
  std::vector<std::string> breakers;
  for (const PlanDoubt& doubt : answer.backup.doubts)
    if (doubt.kind == Kind::breaker_not_read) breakers.push_back(names.name_of(HandleRef{HandleKind::breaker, doubt.breaker.value}));
  if (!breakers.empty()) say(lines, LineKind::detail, "The rating is not recorded of " + joined(breakers) + "; whether its position suits it must be checked.");
}

}  // namespace

std::vector<std::string> leg_items(const House& house, const PlanAnswer& answer) {
  std::vector<std::string> items;
  const PlanSource& source = answer.backup.problem.source;
  const std::vector<LegLoad> loads = leg_loads(answer.backup, answer.plan);
  const LegSums sums = leg_sums(house.dwelling.system, source, loads);
  for (int leg = 1; leg <= sums.legs && sums.legs > 1; ++leg) {
    const auto at = static_cast<std::size_t>(leg - 1);
    items.push_back("Leg " + std::to_string(leg) + ": " + thousands(sums.leg[at].running) + " of " + watts_text(source.leg_running[at]) + ", " + amps_text(sums.amps[at].running) +
                    "; with the largest start " + thousands(sums.leg[at].starting) + " of " + watts_text(source.leg_starting[at]) + ", " + amps_text(sums.amps[at].starting));
  }
  std::string neutral = "Neutral: " + amps_text(sums.neutral_amps);
  if (sums.legs > 1 && !source.in_phase) neutral += "; imbalance of the legs " + std::to_string(std::lround(sums.imbalance_percent)) + " % (" + kImbalanceDefinition + ")";
  items.push_back(neutral);
  return items;
}

void say_doubts(const Record& record, const Names& names, const PlanAnswer& answer, Lines& lines) {
  const House& house = record.house;
  const auto list = [&](Kind kind) { return loads_with(house, answer, kind); };
  if (const auto likely = list(Kind::feed_only_likely); !likely.empty())
    say(lines, LineKind::danger, "This plan rests on what is only likely: which breaker feeds " + joined(likely) + " is not proved. Trace it before anything is connected.");
  if (const auto unknown = list(Kind::feed_not_known); !unknown.empty())
    say(lines, LineKind::danger, "Not in this plan, because it is not known which breaker feeds it: " + joined(unknown) + ". Trace it: `ohmstead trace`.");
  if (const auto life = life_safety_not_known(house, answer); !life.empty())
    say(lines, LineKind::danger, "Somebody depends on " + joined(life) +
                                     ": until it is in a plan and the wiring is proved, it needs a battery or cylinders of its own.");
  if (const auto twice = list(Kind::fed_twice); !twice.empty())
    say(lines, LineKind::danger, "Not in this plan, because two breakers feed one wire of it: " + joined(twice) + ". Have an electrician mend that first.");
  if (const auto far = list(Kind::out_of_reach); !far.empty())
    say(lines, LineKind::answer, "Not in this plan: " + joined(far) + "; its panel is neither near the transfer device nor behind the source.");
  if (const auto nothing = list(Kind::no_figures); !nothing.empty())
    say(lines, LineKind::answer, "Watts are missing, and count as nothing: " + joined(nothing) + ". Give them: `ohmstead wish 'THING 100/400 W nameplate'`.");
  if (const auto guessed = list(Kind::figures_guessed); !guessed.empty())
    say(lines, LineKind::detail, "Watts that are only a guess: " + joined(guessed) + ". Read the nameplates.");
  say_doubts_of_source(record, answer, lines);
  say_unread_breakers(names, answer, lines);
}

void say_life_safety_first(const Record& record, const PlanAnswer& answer, Lines& lines) {
  std::vector<std::string> without;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const auto placed = std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit);
    for (std::size_t l = 0; l < answer.backup.circuits[c].loads.size(); ++l) {
      const CarriedLoad& carried = answer.backup.circuits[c].loads[l];
      const bool served = placed != answer.plan.placed.end() && placed->served[l];
      if (!served && record.house.loads[carried.load].importance == Importance::life_safety) without.push_back(load_words(record.house, carried));
    }
  }
  if (!without.empty())
    say(lines, LineKind::danger, "Somebody depends on what this plan does not carry: " + joined(without) + ". It needs a battery or cylinders of its own, or a larger source; `ohmstead plan --why-not` says what is in the way.");
}

void say_free_positions(const Record& record, const PlanAnswer& answer, Lines& lines) {
  std::vector<std::string> free;
  for (std::size_t p = 0; p < answer.backup.positions.size(); ++p) {
    const bool used = std::ranges::any_of(answer.plan.placed, [&](const Placed& placed) {
      return std::ranges::find(placed.position, static_cast<int>(p)) != placed.position.end();
    });
    if (!used) free.push_back(std::to_string(row(record.house, answer.backup.positions[p]).number));
  }
  if (!free.empty()) say(lines, LineKind::detail, (free.size() == 1 ? "Position " : "Positions ") + joined(free) + (free.size() == 1 ? " stays free." : " stay free."));
}

namespace {

/// More circuits of two poles than tied positions for them: no source, however large, serves them all.
void say_short_of_pairs(const PlanAnswer& answer, Lines& lines) {
  if (answer.backup.hookup != Hookup::positions) return;
  std::set<int> ties;
  for (const PlanPosition& position : answer.backup.problem.positions)
    if (position.tie >= 0) ties.insert(position.tie);
  std::size_t wanted = 0;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c)
    if (answer.backup.problem.circuits[c].poles == 2 && !answer.backup.circuits[c].loads.empty()) ++wanted;
  if (wanted <= ties.size()) return;
  const std::string pairs = ties.empty() ? "no pair" : std::to_string(ties.size()) + (ties.size() == 1 ? " pair" : " pairs");
  say(lines, LineKind::answer, std::to_string(wanted) + (wanted == 1 ? " circuit of two poles is" : " circuits of two poles are") +
                                   " wished for, and the transfer device has " + pairs + " of tied positions for " + (wanted == 1 ? "it." : "them."));
}

/// What runs together is more than the source gives, so taking turns may serve more of it.
void say_turns(const Record& record, const PlanAnswer& answer, Lines& lines) {
  if (answer.kept) return;
  const PlanPicture picture = plan_picture(answer.backup, answer.plan);
  int running = picture.running, extra = picture.start_extra;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    if (std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit) != answer.plan.placed.end()) continue;
    for (const CarriedLoad& carried : answer.backup.circuits[c].loads) {
      if (carried.use == LoadUse::on_demand || record.house.loads[carried.load].importance == Importance::life_safety) continue;
      running += planned_running(carried.figures);
      extra = std::max(extra, planned_starting(carried.figures) - planned_running(carried.figures));
    }
  }
  if (running > picture.running && (running > picture.limit || running + extra > picture.starting_limit))
    say(lines, LineKind::answer, "All of it at once is more than the source gives. What may be off for some hours can take turns: `ohmstead plan --in-turn` makes a timetable.");
}

}  // namespace

void say_not_served(const Record& record, const PlanAnswer& answer, Lines& lines) {
  std::vector<std::string> left, not_on_top;
  for (std::size_t c = 0; c < answer.backup.circuits.size(); ++c) {
    const auto placed = std::ranges::find(answer.plan.placed, static_cast<int>(c), &Placed::circuit);
    const CarriedCircuit& circuit = answer.backup.circuits[c];
    for (std::size_t l = 0; l < circuit.loads.size(); ++l) {
      if (placed != answer.plan.placed.end() && placed->served[l]) continue;
      (placed == answer.plan.placed.end() ? left : not_on_top).push_back(load_words(record.house, circuit.loads[l]));
    }
  }
  say_short_of_pairs(answer, lines);
  if (!left.empty()) say(lines, LineKind::answer, "Wished for, and without a place (`ohmstead plan --why-not THING`):", left);
  if (!left.empty()) say_turns(record, answer, lines);
  if (!not_on_top.empty()) say(lines, LineKind::answer, "On a circuit that is carried, but too much on top of the others; leave it off:", not_on_top);
}

}  // namespace ohmstead::plan_words
