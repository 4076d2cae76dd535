#include "ask/local_time.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>

#include "ask/printable.h"
#include "house/moment.h"

namespace ohmstead {

namespace {

constexpr std::array kWeekdays{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
constexpr long kDay = 86'400;

long ahead_at(long seconds, const LocalTime& local) { return local.ahead ? local.ahead(seconds) : 0; }

/// What a clock here shows, as if it were UTC, in seconds since 1970.
long shown_at(long seconds, const LocalTime& local) { return std::max(0L, seconds + ahead_at(seconds, local)); }

}  // namespace

std::string clock_text(const std::string& moment, const LocalTime& local) {
  const long seconds = seconds_since_1970(moment);
  return seconds < 0 ? terminal::printable(moment) : moment_at(shown_at(seconds, local)).substr(11, 5);
}

std::string day_text(const std::string& moment, const LocalTime& local) {
  const long seconds = seconds_since_1970(moment);
  if (seconds < 0) return terminal::printable(moment);
  const long shown = shown_at(seconds, local);
  const std::chrono::weekday weekday{std::chrono::sys_days{std::chrono::days{shown / kDay}}};
  return std::string(kWeekdays.at(weekday.c_encoding())) + " " + moment_at(shown).substr(0, 10);
}

std::string zone_text(const std::string& moment, const LocalTime& local) {
  const long minutes = ahead_at(seconds_since_1970(moment), local) / 60, off = std::labs(minutes);
  if (off == 0) return "UTC";
  const std::string rest = std::to_string(off % 60);
  return std::string("UTC") + (minutes < 0 ? "-" : "+") + std::to_string(off / 60) + (off % 60 == 0 ? "" : (rest.size() < 2 ? ":0" : ":") + rest);
}

}  // namespace ohmstead
