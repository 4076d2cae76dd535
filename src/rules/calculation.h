#pragma once
// A calculation with every step shown, so that an inspector can follow it with a pencil: what was taken, how it was
// worked out, the result, and the rule it rests on. Terminal, JSON and paper render this value and compute nothing.

#include <string>
#include <vector>

namespace ohmstead {

/// One step: "General lighting and receptacles", "1,500 ft2 x 3 VA", 4500 VA, "NFPA 70 220.42, found".
struct WorkedStep {
  std::string what;
  std::string how;    ///< in words and numbers; empty: it was given
  double value = 0;   ///< in full precision; only the display is rounded
  std::string unit;   ///< "VA", "A", "V", "%", "ohm"; empty: a bare factor
  int decimals = 0;   ///< how many are shown
  std::string rule;   ///< citation, with how its number is known: "text", "secondary", "from memory"; empty: arithmetic
};

struct Calculation {
  std::string title;
  std::vector<WorkedStep> steps;
  std::vector<std::string> notes;  ///< what was assumed and what stands in doubt; never empty: the last one says who decides
};

/// The last note of every calculation and the last line of every list of findings.
inline constexpr const char* kLocalCodeDecides = "Local code and a licensed electrician decide.";

/// "3,600"
[[nodiscard]] std::string thousands(long long number);
/// "5,100", "2.48": rounded half up for display, with so many decimals.
[[nodiscard]] std::string number_text(double value, int decimals = 0);
/// "1,500.5", "0.058", "12": as many decimals as it has, at most four.
[[nodiscard]] std::string plain_number(double value);
/// "5,100 VA"
[[nodiscard]] std::string value_text(const WorkedStep& step);

/// Amperes as the examples of the code round them: to the nearest whole one, half up (NFPA 70 220.5(B) lets a fraction below
/// half be dropped).
[[nodiscard]] long whole_amps(double amps);

/// Editions of NFPA 70 that this program has the numbers of.
inline constexpr int kEditions[] = {2005, 2008, 2011, 2014, 2017, 2020, 2023};
inline constexpr int kNewestEdition = 2023;

/// The year itself. Throws Error{invalid_input}: there was no edition in that year, or its numbers are not confirmed here.
int checked_edition(int year);

}  // namespace ohmstead
