#include "house/moment.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <utility>

namespace ohmstead {

long seconds_since_1970(const std::string& moment) {
  if (moment.size() != 20 || moment[10] != 'T' || moment[19] != 'Z') return -1;
  std::array<int, 6> parts{};
  constexpr std::array<std::pair<int, int>, 6> kPlaces{{{0, 4}, {5, 2}, {8, 2}, {11, 2}, {14, 2}, {17, 2}}};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const char* from = moment.data() + kPlaces[i].first;
    const auto [end, fault] = std::from_chars(from, from + kPlaces[i].second, parts[i]);
    if (fault != std::errc{} || end != from + kPlaces[i].second) return -1;
  }
  using namespace std::chrono;
  const year_month_day date{year{parts[0]}, month{static_cast<unsigned>(parts[1])}, day{static_cast<unsigned>(parts[2])}};
  if (!date.ok()) return -1;
  return static_cast<long>(sys_days{date}.time_since_epoch().count()) * 86'400L + parts[3] * 3600L + parts[4] * 60L + parts[5];
}

std::string moment_at(long seconds) {
  using namespace std::chrono;
  const long day_number = seconds / 86'400L, in_day = seconds % 86'400L;
  const year_month_day date{sys_days{days{day_number}}};
  const auto digits = [](long number, int width) {
    std::string text = std::to_string(number);
    return std::string(static_cast<std::size_t>(std::max(0, width - static_cast<int>(text.size()))), '0') + text;
  };
  return digits(int{date.year()}, 4) + "-" + digits(unsigned{date.month()}, 2) + "-" + digits(unsigned{date.day()}, 2) + "T" + digits(in_day / 3600, 2) + ":" +
         digits(in_day / 60 % 60, 2) + ":" + digits(in_day % 60, 2) + "Z";
}

long seconds_between(const std::string& from, const std::string& to) {
  const long a = seconds_since_1970(from), b = seconds_since_1970(to);
  return a < 0 || b < 0 ? 0 : b - a;
}

}  // namespace ohmstead
