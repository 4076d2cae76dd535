// Any bytes as what a program says to a tracing session: the session goes on, every line that is
// written is JSON, what is kept is a sound house, and a session started from it asks the same thing.

#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "json/json_line.h"
#include "cli/trace_lines.h"
#include "house/invariants.h"
#include "tests/fuzz/small_house.h"

namespace {

using namespace ohmstead;

/// Two rooms, five points (one behind nothing, one with a load that keeps somebody alive), three breakers.
House flat_with_freezer() {
  House house = fuzz::small_house("Kitchen", {1, 3, 12});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "receptacle 1"}, {{32}, {4}, {}, "receptacle 1"},
                  {{33}, {4}, {}, "receptacle 2"}, {{34}, {4}, {}, "freezer", "", PointKind::appliance}};
  Load load;
  load.id = {40}, load.point = {34}, load.name = "freezer", load.hurt_by_power_loss = true;
  house.loads = {load};
  return house;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > 20'000) return 0;
  static const House house = flat_with_freezer();
  static const bool sound = problems_of(house).empty();
  if (!sound) std::abort();
  TraceSession session(house);
  std::istringstream in(std::string(reinterpret_cast<const char*>(data), size));
  std::ostringstream out;
  House kept = house;
  const KeepFn keep = [&](const std::string& what, const House& next) {
    if (what.empty() || !problems_of(next).empty()) std::abort();
    kept = next;
  };
  TraceOptions options;
  options.now = [] { return std::string("2026-03-01T08:00:00Z"); };
  run_trace_lines(session, in, out, keep, options);
  if (session.house() != kept) std::abort();
  TraceSession again(kept);
  again.now_is(options.now());
  session.now_is(options.now());
  if (again.step() != session.step()) std::abort();
  std::istringstream written(out.str());
  for (std::string line; std::getline(written, line);)
    if (const auto json = nlohmann::json::parse(line, nullptr, false); !json.is_object() || !json.contains("type")) std::abort();
  return 0;
}
