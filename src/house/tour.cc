#include "house/tour.h"

#include <algorithm>

namespace ohmstead {

namespace {

constexpr std::size_t kMostRoomsToOptimise = 60;

/// Reverses stretches of the walk as long as that makes it shorter.
void two_opt(const std::vector<std::vector<int>>& seconds, std::size_t from, std::size_t home,
             std::vector<std::size_t>& order) {
  const std::size_t n = order.size();
  const auto room = [&](std::size_t i) { return i == 0 ? from : i > n ? home : order[i - 1]; };
  for (bool shorter = true; shorter;) {
    shorter = false;
    for (std::size_t i = 1; i <= n; ++i)
      for (std::size_t j = i + 1; j <= n; ++j) {
        const int before = seconds[room(i - 1)][room(i)] + seconds[room(j)][room(j + 1)];
        const int after = seconds[room(i - 1)][room(j)] + seconds[room(i)][room(j + 1)];
        if (after >= before) continue;
        std::reverse(order.begin() + static_cast<long>(i) - 1, order.begin() + static_cast<long>(j));
        shorter = true;
      }
  }
}

}  // namespace

int walk_seconds(const std::vector<std::vector<int>>& seconds, std::size_t from, std::size_t home,
                 std::span<const std::size_t> order) {
  int sum = 0;
  for (const std::size_t room : order) {
    sum += seconds[from][room];
    from = room;
  }
  return sum + seconds[from][home];
}

std::vector<std::size_t> walking_order(const std::vector<std::vector<int>>& seconds, std::size_t from,
                                       std::size_t home, std::span<const std::size_t> rooms) {
  std::vector<std::size_t> order;
  for (const std::size_t room : rooms) {
    std::size_t best = 0;
    int best_extra = 0;
    for (std::size_t at = 0; at <= order.size(); ++at) {
      const std::size_t before = at == 0 ? from : order[at - 1], after = at == order.size() ? home : order[at];
      const int extra = seconds[before][room] + seconds[room][after] - seconds[before][after];
      if (at == 0 || extra < best_extra) best = at, best_extra = extra;
    }
    order.insert(order.begin() + static_cast<long>(best), room);
  }
  if (order.size() <= kMostRoomsToOptimise) two_opt(seconds, from, home, order);
  return order;
}

}  // namespace ohmstead
