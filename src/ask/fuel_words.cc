#include "ask/fuel_words.h"

#include <cmath>

#include "ask/sentence.h"
#include "ask/watts.h"

namespace ohmstead {

using sentence::say;

namespace {

/// One decimal below ten, none above; no ".0".
std::string number_text(double number) {
  if (number >= 9.95) return thousands(std::lround(number));
  const long tenths = std::lround(number * 10);
  return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10));
}

std::string one_time(double hours) {
  if (hours < 24) return number_text(hours) + " h";
  const long whole = std::lround(hours), days = whole / 24, rest = whole % 24;
  return std::to_string(days) + (days == 1 ? " day" : " days") + (rest == 0 || days > 3 ? "" : " " + std::to_string(rest) + " h");
}

std::string ends_text(double low, double high) {
  const std::string from = number_text(low), to = number_text(high);
  return from == to ? to : from + " to " + to;
}

/// Said of figures that are not the set's own: whose they are.
std::string typical_text(const Source& source, int watts) {
  const auto use = fuel_use(source, watts);
  return use && use->typical ? " These are typical figures (" + use->source + "); enter the set's own fuel use to know better." : "";
}

void say_hours(const Source& source, int running, int average, Lines& lines) {
  const LoadTime all{running, 1}, on_and_off{average, 1};
  const auto shortest = hours_on_tank(source, {&all, 1}), usual = hours_on_tank(source, {&on_and_off, 1});
  if (!shortest || !usual) return;
  const std::string what = source.kind == SourceKind::battery_inverter ? "A full battery" : "A full tank";
  say(lines, LineKind::answer, what + " lasts about " + hours_text(*usual) + " as these loads go on and off (" + watts_text(average) + " on average), " + hours_text(*shortest) +
                               " if all of them ran all the time." + typical_text(source, average));
}

}  // namespace

std::string hours_text(const Range& hours) {
  const std::string low = one_time(hours.low), high = one_time(hours.high);
  return low == high ? high : low + " to " + high;
}

std::string fuel_text(Fuel fuel, const Range& liters) {
  if (fuel == Fuel::natural_gas)
    return ends_text(liters.low / 1000, liters.high / 1000) + " m3 (" + ends_text(liters.low / kLitersPerCubicFoot, liters.high / kLitersPerCubicFoot) + " ft3)";
  return ends_text(liters.low, liters.high) + " L (" + ends_text(liters.low / kLitersPerGallon, liters.high / kLitersPerGallon) + " gal)";
}

Lines words_of_fuel(const Source& source, int running, int average) {
  Lines lines;
  say_hours(source, running, average, lines);
  const LoadTime three_days{average, kOutageHours};
  if (const auto liters = fuel_for(source, {&three_days, 1}))
    say(lines, LineKind::answer, "Fuel for three days like this: about " + fuel_text(source.fuel, *liters) + ".");
  if (!doubtful_points(source).empty())
    say(lines, LineKind::detail, "The fuel use that is entered for " + source.name + " can hardly be right; check liters and gallons.");
  return lines;
}

}  // namespace ohmstead
