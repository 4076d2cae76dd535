#pragma once
// What one circuit feeds, said in rooms and uses: the long way first, then ever shorter.

#include <string>
#include <vector>

#include "feed/feeds.h"
#include "house/house.h"
#include "rules/room_words.h"

namespace ohmstead {

/// A kind of thing that can be counted over a floor whatever its exact name.
enum class Generic { receptacle, light, alarm, fan, named };

/// One point of a circuit in words.
struct FedItem {
  std::size_t point = 0, room = 0;  ///< places in house.points and house.rooms
  Generic generic = Generic::named;
  std::string use;     ///< singular: "counter receptacle", "dishwasher"
  std::string number;  ///< at the end of its name, or ""
  std::string place;   ///< as recorded, or ""
  bool sure = false;   ///< declared or proved
};

/// What the wording of every circuit of a house needs; made once.
struct WordingFacts {
  const House& house;
  const Feeds& feeds;
  RoomWords words;
  std::vector<std::size_t> room_of;         ///< of each point, place in house.rooms
  std::vector<std::size_t> points_in_room;  ///< how many
  std::vector<std::size_t> floor_of_room;   ///< place in house.floors; house.floors.size() when none
};
[[nodiscard]] WordingFacts wording_facts(const House& house, const Feeds& feeds);

/// Items of all points with a tap on `breaker`, in the order of rooms. The two halves of a split
/// receptacle that are both on it are one item.
[[nodiscard]] std::vector<FedItem> fed_items(const WordingFacts& facts, Id<Breaker> breaker);

/// What is added to tell two circuits with the same words apart.
enum class Detail { none, place, number };

/// Descriptions of the same circuit, longest and most exact first. Every one is true; uses that
/// are not established carry "?". Empty when there are no items.
[[nodiscard]] std::vector<std::string> phrasings(const WordingFacts& facts, const std::vector<FedItem>& items,
                                                 Detail detail);

}  // namespace ohmstead
