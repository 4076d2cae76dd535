#include "house/voltage.h"

#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <string>

#include "house/error.h"

namespace ohmstead {

namespace {
constexpr std::array kSplit{0, 180};
constexpr std::array kWyeTwo{0, 240};
constexpr std::array kWyeThree{0, 240, 120};
constexpr std::array kSingle{0};
}  // namespace

int volts_to_neutral(VoltageSystem system) { return system == VoltageSystem::single_230 ? 230 : 120; }

std::span<const int> leg_angles_deg(VoltageSystem system) {
  switch (system) {
    case VoltageSystem::split_phase_120_240: return kSplit;
    case VoltageSystem::wye_120_208: return kWyeTwo;
    case VoltageSystem::wye_120_208_3: return kWyeThree;
    case VoltageSystem::single_230: break;
  }
  return kSingle;
}

int leg_count(VoltageSystem system) { return static_cast<int>(leg_angles_deg(system).size()); }

int volts_between_legs(VoltageSystem system) {
  switch (system) {
    case VoltageSystem::split_phase_120_240: return 240;
    case VoltageSystem::wye_120_208:
    case VoltageSystem::wye_120_208_3: return 208;
    case VoltageSystem::single_230: break;
  }
  return 0;
}

double neutral_amps(VoltageSystem system, std::span<const LegCurrent> loads) {
  const auto angles = leg_angles_deg(system);
  std::complex<double> sum;
  for (const LegCurrent& load : loads) {
    if (load.leg < 1 || load.leg > static_cast<int>(angles.size()))
      throw Error(ErrorKind::invalid_input, "Leg " + std::to_string(load.leg) + " does not exist in this voltage system.");
    if (!(load.amps >= 0) || !(load.power_factor > 0) || load.power_factor > 1)
      throw Error(ErrorKind::invalid_input, "A load needs a current of 0 A or more and a power factor above 0, at most 1.");
    const double leg_rad = angles[static_cast<std::size_t>(load.leg - 1)] * std::numbers::pi / 180;
    sum += std::polar(load.amps, leg_rad - std::acos(load.power_factor));
  }
  return std::abs(sum);
}

}  // namespace ohmstead
