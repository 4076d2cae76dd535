// Any words as something seen in daily life: a sound house or one refusal, nothing else, and never a
// reading of a clause that says 'not'.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "ask/saw.h"
#include "ask/saw_clauses.h"
#include "house/error.h"
#include "house/invariants.h"

namespace {

using namespace ohmstead;

/// Two rooms, one named with an 'and', three points, two breakers.
House small_house() {
  House house;
  house.dwelling = {Id<Dwelling>{1}, "Flat"};
  house.floors = {{{2}, "Ground", "", 0}};
  house.rooms = {{{3}, {2}, "Hall"}, {{4}, {2}, "Sewing and guest room"}};
  Panel panel;
  panel.id = {5}, panel.name = "Main", panel.room = {3}, panel.spaces = 12, panel.supply = Supply::utility, panel.main_amps = 100;
  house.panels = {panel};
  for (const int space : {1, 12}) {
    Breaker breaker;
    breaker.id = {static_cast<std::uint64_t>(10 + space)}, breaker.panel = {5}, breaker.space = space, breaker.amps = 15;
    house.breakers.push_back(breaker);
  }
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "smoke alarm", "", PointKind::alarm}, {{32}, {4}, {}, "receptacle 1"}};
  return house;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const House house = small_house();
  static const Names names(house);
  static const bool sound = problems_of(house).empty();
  if (!sound) std::abort();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const SawClause& clause : saw_clauses(text).understood) {
    if (clause.names.empty()) std::abort();
    for (const std::string& name : clause.names)
      if (name.empty() || (" " + name + " ").find(" not ") != std::string::npos) std::abort();
  }
  try {
    Sighting sighting;
    sighting.at = "2026-03-01T08:00:00Z";
    read_saw(house, names, text, sighting);
    if (!problems_of(with_sighting(house, sighting)).empty()) std::abort();
  } catch (const Error& error) {
    if (std::string_view(error.what()).find_first_of("\n\x1b") != std::string_view::npos) std::abort();
  }
  return 0;
}
