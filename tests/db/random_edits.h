#pragma once
// Random edits of a house as people make them: each leaves it sound.

#include <random>

#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

/// Every second time one of the first three, so that two people often meet.
template <class Row>
Row& any_of(std::vector<Row>& table, std::mt19937_64& random) {
  const std::size_t among = random() % 2 == 0 ? table.size() : std::min<std::size_t>(table.size(), 3);
  return table[random() % among];
}

inline void add_answer(House& house, std::mt19937_64& random, int minute) {
  if (house.points.empty() || house.breakers.empty()) return;
  const std::string at = "2026-03-01T10:" + std::string(minute < 10 ? "0" : "") + std::to_string(minute) + ":00Z";
  house.rounds.push_back({.id = Id<Round>::fresh(), .at = at, .who = random() % 2 == 0 ? "Ana" : "Ben"});
  house.opened.push_back({Id<Opened>::fresh(), house.rounds.back().id, {HandleKind::breaker, any_of(house.breakers, random).id.value}});
  house.observations.push_back({Id<Observation>::fresh(), house.rounds.back().id, any_of(house.points, random).id, random() % 2 == 0 ? Seen::live : Seen::dead, Method::lamp, at});
}

inline void add_something(House& house, std::mt19937_64& random) {
  const std::string number = std::to_string(random() % 6);
  switch (random() % 7) {
    case 0: house.rooms.push_back({Id<Room>::fresh(), house.floors.empty() ? Id<Floor>{} : house.floors[0].id, "New room " + number}); return;
    case 1: if (!house.rooms.empty()) house.points.push_back({.id = Id<Point>::fresh(), .room = any_of(house.rooms, random).id, .name = "new light " + number}); return;
    case 2: if (!house.panels.empty()) house.breakers.push_back({.id = Id<Breaker>::fresh(), .panel = any_of(house.panels, random).id, .space = 1 + static_cast<int>(random() % 40), .poles = 1 + static_cast<int>(random() % 2), .amps = 15}); return;
    case 3: house.notes.push_back({Id<Note>::fresh(), {}, "note " + number}); return;
    case 4: house.settings.push_back({Id<Setting>::fresh(), "setting " + number, std::to_string(random() % 2)}); return;
    case 5: if (!house.points.empty()) house.loads.push_back({.id = Id<Load>::fresh(), .point = any_of(house.points, random).id, .name = "thing " + number, .running_watts = 100}); return;
    default: if (!house.breakers.empty()) house.circuits.push_back({.id = Id<Circuit>::fresh(), .breaker = any_of(house.breakers, random).id, .wire = "14"}); return;
  }
}

inline void change_something(House& house, std::mt19937_64& random) {
  const std::string number = std::to_string(random() % 6);
  switch (random() % 7) {
    case 0: if (!house.rooms.empty()) any_of(house.rooms, random).name = "Renamed room " + number; return;
    case 1: if (!house.points.empty()) any_of(house.points, random).name = "renamed " + number; return;
    case 2: if (!house.breakers.empty()) any_of(house.breakers, random).amps = 15 + 5 * static_cast<int>(random() % 3); return;
    case 3: if (!house.breakers.empty()) any_of(house.breakers, random).space = 1 + static_cast<int>(random() % 40); return;
    case 4: if (!house.points.empty() && !house.rooms.empty()) any_of(house.points, random).room = any_of(house.rooms, random).id; return;
    case 5: if (!house.loads.empty()) any_of(house.loads, random).running_watts = static_cast<int>(random() % 100); return;
    default: if (!house.observations.empty()) any_of(house.observations, random).withdrawn = true; return;
  }
}

template <class Row>
void drop_one(std::vector<Row>& table, std::mt19937_64& random) {
  if (!table.empty()) table.erase(table.begin() + (&any_of(table, random) - table.data()));
}

inline void remove_something(House& house, std::mt19937_64& random) {
  switch (random() % 6) {
    case 0: return drop_one(house.rooms, random);
    case 1: return drop_one(house.points, random);
    case 2: return drop_one(house.breakers, random);
    case 3: return drop_one(house.notes, random);
    case 4: return drop_one(house.loads, random);
    default: return drop_one(house.circuits, random);
  }
}

/// The house after so many edits that people could have made; one that would make it unsound is left out.
inline House edited(House house, std::mt19937_64& random, int edits) {
  for (int i = 0; i < edits; ++i) {
    House next = house;
    const auto what = random() % 6;
    if (what <= 1) add_answer(next, random, static_cast<int>(random() % 60));
    else if (what == 2) add_something(next, random);
    else if (what == 3) remove_something(next, random);
    else change_something(next, random);
    if (problems_of(next).empty()) house = std::move(next);
  }
  return house;
}

}  // namespace ohmstead
