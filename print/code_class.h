#pragma once
// How strong and how large a code must be for where it lives. The figures, and what is read with them in tests, are in
// docs/printing.md.

#include <optional>
#include <string>
#include <vector>

#include "ask/location.h"
#include "print/code.h"

namespace ohmstead {

struct CodeClass {
  std::vector<Correction> corrections;  ///< that are strong enough, the strongest first
  double least_module_mm = 0;  ///< smaller ones are not printed
  double usual_module_mm = 0;  ///< on pages: whole dots at 300 dpi
  double most_module_mm = 0;   ///< on labels: where there is room
  std::size_t most_bytes = 450;  ///< of the text of one code
  std::vector<double> steps_mm = {};  ///< on labels: modules of the first step come before a longer text, and so on
};

[[nodiscard]] const CodeClass& code_class(Location location);
/// Of a page that is read by flashlight and stays indoors: fewer and larger modules.
[[nodiscard]] const CodeClass& code_class_for_the_dark();

/// A code that is read by a phone in the hand is at least this large with its quiet zone, on pages.
inline constexpr double kSmallestCodeMm = 25;

struct SizedCode {
  QrCode code;
  double module_mm = 0, side_mm = 0;  ///< quiet zone included
};
/// The code of a text on a page, in a square of at most `room_mm`: the strongest correction that fits with the usual module, else the
/// last one with smaller modules. Nothing where not even the least module fits.
[[nodiscard]] std::optional<SizedCode> sized_code(const std::string& text, const CodeClass& allowed, double room_mm);

}  // namespace ohmstead
