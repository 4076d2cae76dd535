#include <algorithm>

#include "backup/plan_problem.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// Most watts that inlet and cord let through on one leg; 0: neither is known.
int leg_watts_of_cord(const Source& source, int volts) {
  int amps = 0;
  for (const int rating : {source.inlet_amps, source.cord_amps})
    if (rating > 0 && (amps == 0 || rating < amps)) amps = rating;
  return amps * volts;
}

int at_most(int watts, int limit) { return limit > 0 ? std::min(watts, limit) : watts; }

}  // namespace

PlanSource plan_source(const House& house, const Source& source) {
  const int legs = source.output == SourceOutput::one_leg ? 1 : leg_count(house.dwelling.system);
  const bool in_phase = source.output == SourceOutput::one_120_both_legs && legs > 1;
  const bool shares = legs > 1 && !in_phase;
  const int starting = std::max(source.starting_watts, source.running_watts);
  int running_leg = shares ? (source.leg_watts > 0 ? source.leg_watts : source.running_watts / legs) : source.running_watts;
  const int starting_leg = shares ? std::max(running_leg, static_cast<int>(std::int64_t{starting} * running_leg / std::max(source.running_watts, 1)))
                                  : starting;
  const int cord = leg_watts_of_cord(source, volts_to_neutral(house.dwelling.system));
  running_leg = at_most(running_leg, cord);
  PlanSource plan{.legs = legs, .in_phase = in_phase, .running = at_most(source.running_watts, (shares ? legs : 1) * cord), .starting = starting};
  for (int leg = 0; leg < legs; ++leg) {
    plan.leg_running[static_cast<std::size_t>(leg)] = running_leg;
    plan.leg_starting[static_cast<std::size_t>(leg)] = std::max(running_leg, starting_leg);
  }
  plan.starting = std::max(plan.starting, plan.running);
  return plan;
}

std::size_t the_only_source(const House& house) {
  if (house.sources.empty())
    throw Error(ErrorKind::not_found, "No generator or battery is written down; enter one, such as "
                                      "`ohmstead enter --line 'Generator G 3600/4500 W 120/240'`. To find out how large one to buy should be, enter any, and ask `ohmstead plan --smallest`.");
  if (house.sources.size() == 1) return 0;
  std::string names;
  for (const Source& source : house.sources) names += (names.empty() ? "" : ", ") + source.name;
  throw Error(ErrorKind::ambiguous, "There are several sources (" + names + "); say which one with --source NAME.");
}

}  // namespace ohmstead
