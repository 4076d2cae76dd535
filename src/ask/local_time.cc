#include "ask/local_time.h"

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

std::string two(long n) { return (n < 10 ? "0" : "") + std::to_string(n); }

struct Parts {
  std::chrono::sys_days day;
  long of_day = 0;  ///< seconds
};

Parts parts_of(long seconds) {
  const long days = seconds >= 0 ? seconds / kDay : (seconds - kDay + 1) / kDay;
  return {std::chrono::sys_days{std::chrono::days{days}}, seconds - days * kDay};
}

std::string date_of(const std::chrono::sys_days& days) {
  const std::chrono::year_month_day date{days};
  return std::to_string(static_cast<int>(date.year())) + "-" + two(static_cast<unsigned>(date.month())) + "-" + two(static_cast<unsigned>(date.day()));
}

std::string time_of(long of_day) { return two(of_day / 3600) + ":" + two(of_day / 60 % 60); }

}  // namespace

std::string clock_text(const std::string& moment, const LocalTime& local) {
  const long seconds = seconds_since_1970(moment);
  return seconds < 0 ? terminal::printable(moment) : time_of(parts_of(seconds + ahead_at(seconds, local)).of_day);
}

std::string day_text(const std::string& moment, const LocalTime& local) {
  const long seconds = seconds_since_1970(moment);
  if (seconds < 0) return terminal::printable(moment);
  const Parts parts = parts_of(seconds + ahead_at(seconds, local));
  return std::string(kWeekdays.at(std::chrono::weekday{parts.day}.c_encoding())) + " " + date_of(parts.day);
}

std::string zone_text(const std::string& moment, const LocalTime& local) {
  const long minutes = ahead_at(seconds_since_1970(moment), local) / 60, off = std::labs(minutes);
  if (off == 0) return "UTC";
  return std::string("UTC") + (minutes < 0 ? "-" : "+") + std::to_string(off / 60) + (off % 60 == 0 ? "" : ":" + two(off % 60));
}

std::string moment_later(const std::string& moment, long seconds) {
  const Parts parts = parts_of(seconds_since_1970(moment) + seconds);
  return date_of(parts.day) + "T" + time_of(parts.of_day) + ":" + two(parts.of_day % 60) + "Z";
}

}  // namespace ohmstead
