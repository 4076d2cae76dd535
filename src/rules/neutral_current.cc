#include "rules/neutral_current.h"

#include <cmath>

#include "house/error.h"

namespace ohmstead {

NeutralAnswer neutral_current(const NeutralCase& given) {
  if (given.loads.empty()) throw Error(ErrorKind::invalid_input, "Give at least one load, such as --load 1:15 for 15 A on leg 1.");
  NeutralAnswer answer;
  answer.amps = neutral_amps(given.system, given.loads);  // refuses what makes no sense
  std::vector<LegCurrent> one_leg = given.loads;
  for (LegCurrent& load : one_leg) load.leg = 1;
  answer.same_leg_amps = neutral_amps(given.system, one_leg);
  answer.calculation.title = "Current of a shared neutral";
  std::vector<WorkedStep>& steps = answer.calculation.steps;
  constexpr double kDegrees = 180 / 3.14159265358979323846;
  double along = 0, across = 0;
  for (const LegCurrent& load : given.loads) {
    const double angle = leg_angles_deg(given.system)[static_cast<std::size_t>(load.leg - 1)] - std::acos(load.power_factor) * kDegrees;
    along += load.amps * std::cos(angle / kDegrees), across += load.amps * std::sin(angle / kDegrees);
    steps.push_back({"Load on leg " + std::to_string(load.leg), "power factor " + plain_number(load.power_factor) + ": at " + number_text(angle, 1) + " degrees", load.amps, "A", 2, ""});
  }
  steps.push_back({"Sum along leg 1", "each current x cos of its angle", along, "A", 2, "phasor sum, textbook"});
  steps.push_back({"Sum across it", "each current x sin of its angle", across, "A", 2, "phasor sum, textbook"});
  steps.push_back({"Neutral", "root of the sum of both squares", answer.amps, "A", 2, "phasor sum, textbook"});
  answer.calculation.notes = {"Loads between two legs draw nothing through the neutral. Currents with harmonics, as of dimmers and power supplies, can add up in it; they are not in this sum.", kLocalCodeDecides};
  return answer;
}

}  // namespace ohmstead
