#pragma once
// The house that fuzz targets begin with: two rooms, one panel, breakers, no points yet.

#include <cstdint>
#include <initializer_list>
#include <string>

#include "house/house.h"

namespace ohmstead::fuzz {

/// Rooms 3 ("Hall", with panel 5) and 4; the breaker of a space has the id 10 + space.
inline House small_house(const std::string& second_room, std::initializer_list<int> spaces) {
  House house;
  house.dwelling = {Id<Dwelling>{1}, "Flat"};
  house.floors = {{{2}, "Ground", "", 0}};
  house.rooms = {{{3}, {2}, "Hall"}, {{4}, {2}, second_room}};
  Panel panel;
  panel.id = {5}, panel.name = "Main", panel.room = {3}, panel.spaces = 12, panel.supply = Supply::utility, panel.main_amps = 100;
  house.panels = {panel};
  for (const int space : spaces) {
    Breaker breaker;
    breaker.id = {static_cast<std::uint64_t>(10 + space)}, breaker.panel = {5}, breaker.space = space, breaker.amps = 15;
    house.breakers.push_back(breaker);
  }
  return house;
}

}  // namespace ohmstead::fuzz
