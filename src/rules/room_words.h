#pragma once
// What each room and floor of a house is called on a label: permanent, short, and no two alike.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Longest room or floor name used within a description, in characters. Longer names lose whole
/// words from the end; one overlong word is replaced by the room's number in the record.
inline constexpr std::size_t kLongestRoomWords = 24;

/// Words for rooms and floors, in the order of house.rooms and house.floors. Rooms that would be
/// called the same are told apart by their floor, then by a number.
struct RoomWords {
  std::vector<std::string> rooms, floors;
};

[[nodiscard]] RoomWords room_words(const House& house);

}  // namespace ohmstead
