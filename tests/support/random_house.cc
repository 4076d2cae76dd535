#include "random_house.h"

#include <array>

#include "house/invariants.h"
#include "house_maker.h"

namespace ohmstead {

namespace {
constexpr std::array<const char*, 14> kTexts = {
    "kitchen", "left of the sink", "Küche", "bureau d'été", "\"quoted\", with a comma", "風呂場", "=1+1", "tab\there",
    "two\nlines", "\xF0\x9F\x92\xA1 lamp", "O'Brien; DROP TABLE x", "RTL \xD7\xA9", "100% {braces} \\slash", "null"};
}

HouseMaker::HouseMaker(std::uint64_t seed, int size) : random_(seed * 1000003 + static_cast<std::uint64_t>(size)), random_apart_(seed), size_(size) {}

std::string HouseMaker::words() { return one_in(3) ? std::string() : std::string(kTexts[static_cast<std::size_t>(below(kTexts.size()))]); }

std::string HouseMaker::name(const char* what) {
  return words() + (one_in(2) ? " " : "") + what + " " + std::to_string(++names_);
}

std::string HouseMaker::moment() {
  const auto two = [&](int low, int high) {
    const int n = between(low, high);
    return std::string(n < 10 ? "0" : "") + std::to_string(n);
  };
  const std::string day = two(1, 12) + "-" + two(1, 28);
  return "2026-" + day + "T" + two(0, 23) + ":" + two(0, 59) + ":" + two(0, 59) + "Z";
}

void HouseMaker::places() {
  house_.dwelling = {fresh<Dwelling>(), words(), any_word<VoltageSystem>()};
  for (int i = between(1, 3); i > 0; --i)
    house_.floors.push_back({fresh<Floor>(), name("floor"), one_in(3) ? "Workshop" : "", between(-2, 5)});
  for (int i = 0; i < size_; ++i) {
    Room room{fresh<Room>(), any(house_.floors).id, name("room")};
    if (one_in(2)) room.left_cm = between(-500, 2000), room.top_cm = below(2000), room.width_cm = between(1, 900), room.depth_cm = between(1, 900);
    house_.rooms.push_back(room);
    for (int b = below(3); b > 0; --b) house_.boxes.push_back({fresh<Box>(), room.id, words()});
  }
  for (int i = below(size_); i > 0; --i) {
    const Walk walk{fresh<Walk>(), any(house_.rooms).id, any(house_.rooms).id, below(120)};
    if (walk.from != walk.to) house_.walks.push_back(walk);
  }
}

void HouseMaker::sources() {
  for (int i = below(3); i > 0; --i) {
    Source source{fresh<Source>(), name("source"), any_word<SourceKind>(), any_word<SourceOutput>()};
    if (!one_in(4)) source.running_watts = between(500, 12'000);
    if (!one_in(4)) source.starting_watts = source.running_watts + below(4000);
    const Apart apart(*this);
    if (one_in(3)) source.leg_watts = below(source.running_watts + 1), source.inlet_amps = 30, source.cord_amps = 20;
    source.neutral = any_word<NeutralBond>();
    source.fuel = any_word<Fuel>();
    if (one_in(2)) source.tank_ml = below(100'000), source.use_25_ml_h = below(1000), source.use_50_ml_h = source.use_25_ml_h + below(1000);
    if (one_in(2)) source.use_75_ml_h = source.use_50_ml_h + below(900), source.use_100_ml_h = source.use_75_ml_h + below(5000), source.capacity_wh = below(20'000);
    house_.sources.push_back(source);
  }
}

House HouseMaker::make() {
  places();
  sources();
  panels();
  circuits();
  points();
  loads();
  declared_feeds();
  observations();
  outage();
  passings();
  notes();
  return std::move(house_);
}

House random_house(std::uint64_t seed, int size) {
  House house = HouseMaker(seed, size < 1 ? 1 : size).make();
  require_sound(house);
  return house;
}

}  // namespace ohmstead
