#pragma once
// What one look tells, in bits. A look is a yes or no that comes out wrong now and then: a binary
// symmetric channel (Cover and Thomas, Elements of Information Theory, 2nd ed., 2.1 and 7.1.4; from memory).

#include <cmath>

#include "trace/belief.h"

namespace ohmstead {

/// Bits that are not known of a yes or no, when yes has the chance `p`; 0 for a `p` outside 0..1.
[[nodiscard]] inline double entropy(double p) {
  return p <= 0 || p >= 1 ? 0 : -p * std::log2(p) - (1 - p) * std::log2(1 - p);
}

/// Bits, 0..1, that one reading tells of whether a unit goes dead with what is open, when that is
/// believed by `belief` (0..1) and a reading is wrong with the chance `error` (0..0.5): how far the
/// reading is not known before, less how far it is not known by its error alone.
[[nodiscard]] inline double reading_bits(double belief, double error = kReadingError) {
  static const double usual = entropy(kReadingError);  // asked for many thousand times a step
  return entropy(belief * (1 - error) + (1 - belief) * error) - (error == kReadingError ? usual : entropy(error));
}

}  // namespace ohmstead
