// Any bytes as what a program says to a diagnosis: the session goes on, what is kept is a sound house, and a session started from it asks
// the same thing.

#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <string>

#include "cli/diagnose_terminal.h"
#include "house/invariants.h"
#include "tests/fuzz/small_house.h"

namespace {

using namespace ohmstead;

House dark_flat() {
  House house = fuzz::small_house("Kitchen", {1, 3});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "receptacle 1"}, {{32}, {4}, {}, "receptacle 2"}};
  for (std::size_t p = 0; p < house.points.size(); ++p)
    house.declared_feeds.push_back({{40 + p}, house.points[p].id, {}, 1, house.breakers[p / 2].id, 1, "J.", ""});
  return begin_diagnosis(house, {.id = {50}, .at = "2026-03-01T08:00:00Z", .meter = true}, {.dead = {house.points[0].id}});
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > 20'000) return 0;
  static const House house = dark_flat();
  House kept = house;
  DiagnosisSession session(house, {50});
  std::istringstream in(std::string(reinterpret_cast<const char*>(data), size));
  std::ostringstream out;
  TraceOptions options;
  options.now = [] { return std::string("2026-03-01T08:00:00Z"); };
  run_diagnose_lines(session, in, out, [&](const std::string& what, const House& next) {
    if (what.empty() || !problems_of(next).empty()) std::abort();
    kept = next;
  }, options);
  const DiagnosisSession again(kept, {50});
  if (again.step() != session.step()) std::abort();
  return 0;
}
