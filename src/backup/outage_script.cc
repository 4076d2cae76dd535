#include "backup/outage_script.h"

#include "backup/worksheet.h"

namespace ohmstead {

namespace {

constexpr const char* kAnyTime = "2000-01-01T00:00:00Z";  ///< the steps do not depend on it
constexpr int kMostSteps = 1000;

/// Does every step until the board is settled or at the end. False: it did not come there.
bool play(OutageBoard& board, std::vector<ScriptStep>& steps) {
  for (int i = 0; i < kMostSteps; ++i) {
    const OutageStep step = board.step();
    if (is_settled(step.kind)) return step.kind == OutageStepKind::running || step.kind == OutageStepKind::no_outage;
    steps.push_back({step, board.now()});
    board.answer({.at = kAnyTime});
  }
  return false;
}

}  // namespace

House house_as_planned(House house) {
  for (const WorkStep& step : worksheet(house).steps)
    if (step.is_wiring()) tick_step(house, step.key, kAnyTime, "");
  plan_is_connected(house);
  house.outage_events.clear();
  return house;
}

OutageScript outage_script(House house, const Feeds& feeds, std::size_t source) {
  OutageBoard board(house, feeds, source);
  OutageScript script{.house = std::move(house), .gear = board.gear()};
  board.begin(kAnyTime);
  script.complete = play(board, script.away);
  board.tell({.kind = OutageEventKind::utility_back, .at = kAnyTime});
  script.complete = play(board, script.home) && script.complete;
  return script;
}

}  // namespace ohmstead
