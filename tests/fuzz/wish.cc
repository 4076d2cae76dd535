// Any words as wishes for an outage: a sound house or one refusal, nothing else.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "ask/wish.h"
#include "house/error.h"
#include "house/invariants.h"
#include "tests/fuzz/small_house.h"

namespace {

using namespace ohmstead;

House flat() {
  House house = fuzz::small_house("Sewing and guest room", {1, 12});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "receptacle 1"}, {{32}, {4}, {}, "freezer", "", PointKind::appliance}};
  house.loads = {{.id = {40}, .point = {32}, .name = "freezer", .running_watts = 100, .starting_watts = 400}};
  return house;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const House house = flat();
  static const Names names(house);
  static const bool sound = problems_of(house).empty();
  if (!sound) std::abort();
  try {
    const Wished wished = with_wishes(house, names, {reinterpret_cast<const char*>(data), size});
    if (wished.loads.empty() || !problems_of(wished.house).empty()) std::abort();
    if (words_of_wishes(wished.house, names, wished.loads).empty()) std::abort();
  } catch (const Error& error) {
    if (std::string_view(error.what()).find_first_of("\n\x1b") != std::string_view::npos) std::abort();
  }
  return 0;
}
