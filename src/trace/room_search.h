#pragma once
// Which rooms to walk through when each is worth something and every second has its price.

#include <vector>

#include "trace/board.h"

namespace ohmstead {

/// Finds a round trip from room `from` to room `home` that is worth much beyond its price: rooms are
/// taken in one by one, or left out one by one and by whole floors, whichever ends with more.
class RoomSearch {
 public:
  RoomSearch(const Board& board, std::size_t from, std::size_t home, double price);

  /// `seconds` are those spent in the room; the walk to it is counted here.
  void add(std::size_t room, double worth, double seconds);

  /// The rooms in walking order; none when no walk is worth its price.
  [[nodiscard]] std::vector<std::size_t> rooms() const;

 private:
  [[nodiscard]] double net(const std::vector<std::size_t>& some) const;
  [[nodiscard]] Id<Floor> floor_of(std::size_t room) const;
  [[nodiscard]] std::vector<std::size_t> left_out(std::vector<std::size_t> rooms) const;
  [[nodiscard]] std::vector<std::size_t> taken_in() const;

  const Board& board_;
  std::size_t from_, home_;
  double price_;
  std::vector<double> net_;       ///< of all rooms of the house: worth beyond the price of the time in it
  std::vector<std::size_t> all_;  ///< the rooms that were added
};

}  // namespace ohmstead
