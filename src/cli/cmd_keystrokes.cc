#include <cstdio>
#include <ostream>

#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "survey/entry.h"
#include "survey/keystrokes.h"

namespace ohmstead {

int run_keystrokes(Session& session, const Arguments& arguments) {
  const std::string text = read_all(session, arguments.text("FILE"), 1'000'000);
  House empty;
  empty.dwelling = {Id<Dwelling>::fresh(), "House", VoltageSystem::split_phase_120_240};
  const House house = enter_text(empty, text).house;
  const Keystrokes spent = keystrokes_of(text);
  const std::size_t strokes = spent.total();
  char ratio[32];
  std::snprintf(ratio, sizeof ratio, "%.1f", house.points.empty() ? 0.0 : static_cast<double>(strokes) / static_cast<double>(house.points.size()));
  session.out << strokes << " keystrokes for " << house.points.size() << " points: " << ratio << " a point, everything included.\n"
              << "Rooms and points " << spent.rooms << ", plan " << spent.plan << ", panels " << spent.panels << ", backup "
              << spent.backup << ", what is known already " << spent.record << ".\n";
  return kDone;
}

}  // namespace ohmstead
