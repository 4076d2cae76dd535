#include "trace/room_search.h"

#include <algorithm>
#include <cmath>

#include "house/tour.h"

namespace ohmstead {

RoomSearch::RoomSearch(const Board& board, std::size_t from, std::size_t home, double price)
    : board_(board), from_(from), home_(home), price_(price), net_(std::max<std::size_t>(1, board.house.rooms.size()), 0) {}

void RoomSearch::add(std::size_t room, double worth, double seconds) {
  all_.push_back(room);
  net_[room] = worth - price_ * seconds;
}

std::vector<std::size_t> RoomSearch::rooms() const {
  auto fewer = left_out(walking_order(board_.walk, from_, home_, all_)), grown = taken_in();
  auto& better = net(grown) > net(fewer) ? grown : fewer;
  return walking_order(board_.walk, from_, home_, better);
}

double RoomSearch::net(const std::vector<std::size_t>& some) const {
  double sum = -price_ * walk_seconds(board_.walk, from_, home_, some);
  for (const std::size_t room : some) sum += net_[room];
  return sum;
}

Id<Floor> RoomSearch::floor_of(std::size_t room) const {
  return room < board_.house.rooms.size() ? board_.house.rooms[room].floor : Id<Floor>{};
}

/// Leaves out rooms, and whole floors, as long as that pays.
std::vector<std::size_t> RoomSearch::left_out(std::vector<std::size_t> rooms) const {
  for (double best = net(rooms);;) {
    std::vector<std::size_t> best_rooms;
    bool better = false;
    const auto consider = [&](std::vector<std::size_t> fewer) {
      if (const double then = net(fewer); then > best + 1e-9) best = then, best_rooms = std::move(fewer), better = true;
    };
    for (std::size_t i = 0; i < rooms.size(); ++i) {
      auto fewer = rooms;
      fewer.erase(fewer.begin() + static_cast<long>(i));
      consider(std::move(fewer));
      if (i > 0 && floor_of(rooms[i]) == floor_of(rooms[i - 1])) continue;
      fewer = rooms;
      std::erase_if(fewer, [&](std::size_t room) { return floor_of(room) == floor_of(rooms[i]); });
      consider(std::move(fewer));
    }
    if (!better) return rooms;
    rooms = std::move(best_rooms);
  }
}

/// Takes in one room after another, each where it fits best.
std::vector<std::size_t> RoomSearch::taken_in() const {
  std::vector<std::size_t> rooms, left = all_;
  while (!left.empty()) {
    double best = rooms.empty() ? -HUGE_VAL : 1e-9;
    std::size_t best_at = 0, best_room = left.size();
    for (std::size_t i = 0; i < left.size(); ++i)
      for (std::size_t at = 0; at <= rooms.size(); ++at) {
        const std::size_t before = at == 0 ? from_ : rooms[at - 1], after = at == rooms.size() ? home_ : rooms[at];
        const int extra = board_.walk[before][left[i]] + board_.walk[left[i]][after] - board_.walk[before][after];
        if (const double gain = net_[left[i]] - price_ * extra; gain > best) best = gain, best_at = at, best_room = i;
      }
    if (best_room == left.size()) break;
    rooms.insert(rooms.begin() + static_cast<long>(best_at), left[best_room]);
    left.erase(left.begin() + static_cast<long>(best_room));
  }
  if (net(rooms) < net({})) rooms.clear();
  return rooms;
}

}  // namespace ohmstead
