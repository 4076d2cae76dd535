#include "rules/calculation.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "house/error.h"

namespace ohmstead {

std::string thousands(long long number) {
  std::string digits = std::to_string(number < 0 ? -number : number);
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
  return (number < 0 ? "-" : "") + digits;
}

std::string number_text(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  // What binary fractions lose below a half (2.675 x 100 = 267.49999...) is given back before rounding.
  const long long scaled = static_cast<long long>(std::floor(std::abs(value) * scale + 0.5 + 1e-7));
  const long long whole = scaled / static_cast<long long>(scale), rest = scaled % static_cast<long long>(scale);
  std::string text = (value < 0 && scaled != 0 ? "-" : "") + thousands(whole);
  if (decimals == 0) return text;
  std::string fraction = std::to_string(rest);
  fraction.insert(0, static_cast<std::size_t>(decimals) - fraction.size(), '0');
  return text + "." + fraction;
}

std::string plain_number(double value) {
  std::string text = number_text(value, 4);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string value_text(const WorkedStep& step) {
  return number_text(step.value, step.decimals) + (step.unit.empty() ? "" : " " + step.unit);
}

long whole_amps(double amps) { return static_cast<long>(std::floor(amps + 0.5 + 1e-9)); }

int checked_edition(int year) {
  if (std::ranges::find(kEditions, year) != std::end(kEditions)) return year;
  std::string list;
  for (const int edition : kEditions) list += (list.empty() ? "" : ", ") + std::to_string(edition);
  if (year == 2026)
    throw Error(ErrorKind::invalid_input, "The numbers of the 2026 edition are not confirmed here and are not computed with; give one of " + list + ".");
  throw Error(ErrorKind::invalid_input, "There is no edition of NFPA 70 of the year " + std::to_string(year) + " here; give one of " + list + ".");
}

}  // namespace ohmstead
