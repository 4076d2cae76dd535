#pragma once
// Text that runs from right to left, alone and within English: which way a line runs as a whole, and names kept together. For text.cc only.

#include <string>

namespace ohmstead {

/// The text with marks of direction (U+200E, U+200F) that no reader sees, so that it is set right in one paragraph:
/// - a line of Hebrew or Arabic runs from right to left as a whole: its period stands at its left, and names in Latin
///   letters within it keep their place;
/// - in English each stretch of Hebrew or Arabic words runs by itself: a comma, number or period after it stays where English has it,
///   and two names with a comma between them stay in their order.
/// A line that begins from right to left is English if it has more Latin letters than others. Text without letters that run from right to left stays
/// as it is.
[[nodiscard]] std::string with_directions(const std::string& words);

}  // namespace ohmstead
