#include "house/walking.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"

namespace ohmstead {

namespace {

constexpr double kWalkingCmPerSecond = 120;
constexpr int kStairsSeconds = 12;
constexpr int kOtherBuildingSeconds = 45;
constexpr int kUnknownSeconds = 10;
constexpr int kTouchingCm = 30;  ///< a wall's thickness between two rectangles
constexpr int kFar = 1'000'000;
constexpr std::size_t kMostRoomsJoined = 500;  ///< beyond, a default time may be longer than a way through other rooms

bool has_plan(const Room& room) { return room.width_cm > 0 && room.depth_cm > 0; }

/// Gap between two ranges; negative when they overlap.
int gap(int a, int a_size, int b, int b_size) { return std::max(a, b) - std::min(a + a_size, b + b_size); }

bool touch(const Room& a, const Room& b) {
  const int across = gap(a.left_cm, a.width_cm, b.left_cm, b.width_cm);
  const int down = gap(a.top_cm, a.depth_cm, b.top_cm, b.depth_cm);
  return std::max(across, down) <= kTouchingCm && std::min(across, down) < 0;
}

int centre_seconds(const Room& a, const Room& b) {
  const double dx = a.left_cm + a.width_cm / 2.0 - b.left_cm - b.width_cm / 2.0;
  const double dy = a.top_cm + a.depth_cm / 2.0 - b.top_cm - b.depth_cm / 2.0;
  return std::max(1, static_cast<int>(std::lround(std::hypot(dx, dy) / kWalkingCmPerSecond)));
}

/// Seconds between neighbours on one floor's plan; kFar for rooms that are not.
int neighbour_seconds(const Room& a, const Room& b) {
  const bool neighbours = a.floor == b.floor && has_plan(a) && has_plan(b) && touch(a, b);
  return neighbours ? centre_seconds(a, b) : kFar;
}

/// Seconds that any two rooms are apart at most, when no chain of neighbours joins them.
int default_seconds(const House& house, const Room& a, const Room& b) {
  const Floor* fa = find_row(house, a.floor);
  const Floor* fb = find_row(house, b.floor);
  if (fa == nullptr || fb == nullptr || fa == fb)
    return has_plan(a) && has_plan(b) ? centre_seconds(a, b) : kUnknownSeconds;
  const int flat = kUnknownSeconds + kStairsSeconds * std::abs(fa->level - fb->level);
  return fa->building == fb->building ? flat : flat + kOtherBuildingSeconds;
}

void close_over_paths(std::vector<std::vector<int>>& seconds) {
  const std::size_t n = seconds.size();
  for (std::size_t k = 0; k < n; ++k)
    for (std::size_t i = 0; i < n; ++i) {
      const int way_there = seconds[i][k];
      if (way_there >= kFar || i == k) continue;
      int* row = seconds[i].data();
      const int* on = seconds[k].data();
      for (std::size_t j = 0; j < n; ++j) row[j] = std::min(row[j], way_there + on[j]);
    }
}

}  // namespace

std::vector<std::vector<int>> walking_seconds(const House& house) {
  const std::size_t n = house.rooms.size();
  std::vector<std::vector<int>> seconds(n, std::vector<int>(n, kFar));
  const Index<Room> room_at(house.rooms);
  for (std::size_t i = 0; i < n; ++i) {
    seconds[i][i] = 0;
    for (std::size_t j = 0; j < i; ++j)
      seconds[i][j] = seconds[j][i] = neighbour_seconds(house.rooms[i], house.rooms[j]);
  }
  for (const Walk& walk : house.walks) {
    const long from = room_at.at(walk.from), to = room_at.at(walk.to);
    if (from < 0 || to < 0 || from == to) continue;
    const auto a = static_cast<std::size_t>(from), b = static_cast<std::size_t>(to);
    seconds[a][b] = seconds[b][a] = walk.seconds;
  }
  close_over_paths(seconds);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      if (seconds[i][j] >= kFar) seconds[i][j] = default_seconds(house, house.rooms[i], house.rooms[j]);
  if (n <= kMostRoomsJoined) close_over_paths(seconds);
  return seconds;
}

}  // namespace ohmstead
