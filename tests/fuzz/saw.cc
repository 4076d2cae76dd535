// Any words as something seen in daily life: a sound house or one refusal, nothing else, and never a
// reading of a clause that says 'not'.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "ask/saw.h"
#include "ask/saw_clauses.h"
#include "house/error.h"
#include "house/invariants.h"
#include "tests/fuzz/small_house.h"

namespace {

using namespace ohmstead;

/// Two rooms, one named with an 'and', three points, two breakers.
House flat_with_alarm() {
  House house = fuzz::small_house("Sewing and guest room", {1, 12});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "smoke alarm", "", PointKind::alarm}, {{32}, {4}, {}, "receptacle 1"}};
  return house;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const House house = flat_with_alarm();
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
