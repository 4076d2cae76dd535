#include "backup/proof_looks.h"

#include <algorithm>

#include "backup/proof_verdict.h"
#include "house/tour.h"

namespace ohmstead::backup_detail {

int looks_in(const ProofBoard& board, std::size_t line, const ProofState& state) {
  return static_cast<int>(std::ranges::count_if(board.readings, [&](const ProofReading& r) { return r.line == line && board.states[r.state] == state; }));
}

bool last_was_dead(const ProofBoard& board, std::size_t line) {
  for (std::size_t i = board.readings.size(); i-- > 0;)
    if (board.readings[i].line == line) return board.states[board.readings[i].state] == board.now && board.readings[i].dead;
  return false;
}

void add_due(const ProofBoard& board, std::vector<DueLook>& due, const ProofState& state, const WantedLook& wanted) {
  const long point = board.point_of(wanted.line, wanted.another);
  if (point < 0 || looks_in(board, wanted.line, state) >= kMostLooksInOneState) return;
  if (std::ranges::find(due, wanted.line, &DueLook::line) == due.end()) due.push_back({wanted.line, static_cast<std::size_t>(point), wanted.reason});
}

/// The nearest of them, on the shortest walk through all.
ProofStep look_at(const ProofBoard& board, const std::vector<DueLook>& due) {
  std::vector<std::size_t> rooms;
  for (const DueLook& look : due)
    if (const std::size_t room = room_of_point(board.house, look.point); std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
  const std::size_t room = walking_order(board.wiring.walk, board.here, board.wiring.device_room, rooms).front();
  const DueLook* best = nullptr;
  for (const DueLook& look : due)
    if (room_of_point(board.house, look.point) == room &&
        (best == nullptr || look_seconds(board.house, look.point) < look_seconds(board.house, best->point)))
      best = &look;
  return {ProofStepKind::look, best->reason, {}, board.house.points[best->point].id, {}, false, board.now, ""};
}

}  // namespace ohmstead::backup_detail
