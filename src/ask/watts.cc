#include "ask/watts.h"

#include <cmath>

#include "ask/printable.h"
#include "house/index.h"

namespace ohmstead {

std::string watts_text(long long watts) { return thousands(watts) + " W"; }

std::string range_text(const WattRange& range) {
  return range.low == range.high ? watts_text(range.high) : thousands(range.low) + " to " + watts_text(range.high);
}

std::string amps_text(double amps) { const long tenths = std::lround(amps * 10);
  return thousands(tenths / 10) + "." + std::to_string(std::abs(tenths % 10)) + " A"; }

namespace {

/// Does the point's own name say more: "meat freezer" of a freezer?
bool says_more(std::string point, std::string load) {
  for (std::string* words : {&point, &load})
    for (char& c : *words) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return !load.empty() && point.size() > load.size() + 1 && point.ends_with(" " + load);
}

}  // namespace

std::string load_text(const House& house, const Load& load) {
  const Point* point = find_row(house, load.point);
  const Room* room = point == nullptr ? nullptr : find_row(house, point->room);
  const std::string name = point != nullptr && (load.name.empty() || says_more(point->name, load.name)) ? point->name : load.name;
  if (room == nullptr) return terminal::printable(name);
  const bool of_point = point->name == name || load.name.empty();
  return terminal::printable(of_point && point->kind == PointKind::light ? room->name + " " + name : name + " (" + room->name + ")");
}

std::string basis_text(FigureBasis basis, const std::string& source) {
  switch (basis) {
    case FigureBasis::measured: return "measured";
    case FigureBasis::nameplate: return "nameplate";
    case FigureBasis::guess: return "a guess";
    case FigureBasis::table: break;
  }
  return source.empty() ? "typical" : "typical: " + source;
}

}  // namespace ohmstead
