#include "print/code_class.h"

#include <algorithm>

#include "print/directory_text.h"

namespace ohmstead {

namespace {

constexpr double kFiveDotsMm = 0.42333, kSixDotsMm = 0.508, kSevenDotsMm = 0.59267, kEightDotsMm = 0.67733;  ///< at 300 dpi

}  // namespace

const CodeClass& code_class(Location location) {
  static const CodeClass kDry{{Correction::quartile, Correction::medium}, 0.40, kFiveDotsMm, kEightDotsMm + 0.001, kMostCodeBytes, {0.50, 0.40}};
  static const CodeClass kDamp{{Correction::quartile}, 0.40, kFiveDotsMm, kSevenDotsMm + 0.001, kMostCodeBytes, {0.50, 0.40}};
  static const CodeClass kWet{{Correction::quartile}, 0.50, kSixDotsMm, kSevenDotsMm + 0.001, kMostCodeBytes, {0.50}};
  return location == Location::wet ? kWet : location == Location::damp ? kDamp : kDry;
}

const CodeClass& code_class_for_the_dark() {
  constexpr std::size_t kBytes = 439;  // version 18 with correction Q, UTF-8 announced: three of them stand in a row
  static const CodeClass kDark{{Correction::quartile, Correction::medium}, 0.50, kSevenDotsMm, kEightDotsMm, kBytes, {}};
  return kDark;
}

std::optional<SizedCode> sized_code(const std::string& text, const CodeClass& allowed, double room_mm) {
  for (const Correction correction : allowed.corrections) {
    const int modules = code_modules(text, correction) + 2 * kQuietModules;
    const bool last = correction == allowed.corrections.back();
    if (!last && modules * allowed.usual_module_mm > room_mm) continue;
    const double module = std::max(std::min(allowed.usual_module_mm, room_mm / modules), std::max(allowed.least_module_mm, kSmallestCodeMm / modules));
    if (modules * module > room_mm + 1e-6) return std::nullopt;
    return SizedCode{make_code(text, correction), module, modules * module};
  }
  return std::nullopt;
}

}  // namespace ohmstead
