#pragma once
// The signs that the code asks for at the service and at the source, as far as this house needs them: words, place, the
// article that each comes from and how that article is known (docs/standards.md).

#include <cstddef>
#include <string>
#include <vector>

#include "ask/record.h"

namespace ohmstead {

/// Signal words of ANSI Z535.4, each with its meaning alone. `none`: a mark that warns of nothing.
enum class SignWord {
  danger,   ///< will cause death or serious injury
  warning,  ///< could cause death or serious injury
  caution,  ///< could cause minor or moderate injury
  notice,   ///< property or information, no injury
  none,
};
/// "DANGER"; empty for none.
[[nodiscard]] const char* signal_word(SignWord word);

struct Sign {
  SignWord word = SignWord::warning;
  std::string title;               ///< what it says first
  std::vector<std::string> lines;  ///< what else it says
  std::vector<std::string> to_fill;  ///< what the record does not know, with room to write: "Shut-down of Generator:"
  std::string where;               ///< where it goes, a sentence
  std::string rule;                ///< "NFPA 70 702.7(A), secondary"
  std::string why;                 ///< why this house needs it, a sentence
  double distance_mm = 1219;       ///< from which it must be read: 4 ft
  bool good_light = true;          ///< false: outdoors, or in an outage
};

/// Heights of capitals for a distance: message 1/300 of it in good light and 1/144 in bad, 4.06 mm (0.16 in) or more; signal
/// word 1/150 of it and at least half as large again as the message (ANSI Z535, restated by sign makers).
struct SignLetters {
  double message_mm = 0, word_mm = 0;
};
[[nodiscard]] SignLetters letters_for(double distance_mm, bool good_light);

/// For the code on it: what it says, and as of when ("2026-11-25 rev 12"); without lines where that would be more than kMostSignCodeBytes.
[[nodiscard]] std::string sign_code_text(const Sign& sign, const std::string& as_of);
inline constexpr std::size_t kMostSignCodeBytes = 330;

struct SignSet {
  std::vector<Sign> signs;
  std::vector<std::string> not_decided;  ///< what the record cannot decide, and what to do about it
};

[[nodiscard]] SignSet signs_for(const Record& record);

}  // namespace ohmstead
