// Random houses are sound, repeatable, and between them use every field and every word.

#include "random_house.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "house/invariants.h"
#include "house/numbering.h"

namespace ohmstead {
namespace {

/// Counts, for each `table.field`, the different values seen.
struct Values {
  std::map<std::string, std::set<std::string>> seen;
  std::map<std::string, std::size_t> words;  ///< how many words a field can take

  template <class Row>
  void add(const Row& row) {
    Row::fields(row, [&](const char* name, const auto& value) { note(std::string(Row::kTable) + "." + name, value); });
  }
  template <class T>
  void note(const std::string& key, const T& value) {
    if constexpr (std::is_enum_v<T>) {
      words[key] = words_of(T{}).size();
      seen[key].insert(std::string(text_of(value)));
    } else if constexpr (std::is_same_v<T, std::optional<int>>) {
      seen[key].insert(value ? std::to_string(*value) : "none");
    } else if constexpr (std::is_same_v<T, HandleRef> || std::is_same_v<T, ThingRef>) {
      words[key] = key == "interlock.first" || key == "interlock.second" ? 0 : words_of(value.kind).size() - 1;
      seen[key].insert(std::string(text_of(value.kind)));
    } else if constexpr (std::is_same_v<T, std::string>) {
      seen[key].insert(value);
    } else if constexpr (std::is_arithmetic_v<T>) {
      seen[key].insert(std::to_string(value));
    } else {
      seen[key].insert(value ? "some" : "none");
      if (key.ends_with(".id")) seen[key].insert(value.text());
    }
  }
};

TEST(RandomHouse, same_numbers_give_the_same_house) {
  EXPECT_EQ(random_house(7, 5), random_house(7, 5));
  EXPECT_NE(random_house(7, 5), random_house(8, 5));
}

TEST(RandomHouse, every_field_takes_several_values_and_every_word_occurs) {
  // References that every row must have.
  const std::set<std::string> always = {
      "room.floor", "walk.from_room", "walk.to_room", "box.room", "passing.box", "passing.breaker", "panel.room",
      "breaker.panel", "circuit.breaker", "transfer_device.room", "transfer_device.source", "position.device",
      "handle.device", "point.room", "load.point", "declared_feed.breaker", "opened.round", "observation.round",
      "observation.point", "pin.breaker", "planned.breaker", "diagnosis_look.diagnosis", "diagnosis_look.point"};
  Values values;
  for (std::uint64_t seed = 1; seed <= 600; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 12));
    ASSERT_TRUE(problems_of(house).empty()) << seed;
    values.add(house.dwelling);
    for_each_table(house, [&](const auto& table) {
      for (const auto& row : table) values.add(row);
    });
  }
  EXPECT_GT(values.seen.size(), 100U);
  for (const auto& [key, seen] : values.seen) EXPECT_GE(seen.size(), always.contains(key) ? 1U : 2U) << key;
  for (const auto& [key, count] : values.words) EXPECT_GE(values.seen[key].size(), count) << key;
}

TEST(RandomHouse, shapes_of_panels_that_are_easy_to_forget_occur) {
  int quads = 0, tandems = 0, three_pole = 0, ties = 0, on_position = 0, on_breaker = 0, chains = 0, groups = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const House house = random_house(seed, 6);
    for (const Breaker& b : house.breakers) {
      quads += b.half != Half::whole && b.poles == 2, tandems += b.half == Half::b && b.poles == 1;
      three_pole += b.poles == 3, ties += b.tie == b.id;
    }
    for (const Panel& p : house.panels) on_position += p.supply == Supply::position, on_breaker += p.supply == Supply::breaker;
    for (const Device& d : house.devices) chains += d.kind == DeviceKind::gfci_receptacle && bool(d.behind);
    groups += static_cast<int>(house.handles.size() > house.devices.size());
  }
  for (const int count : {quads, tandems, three_pole, ties, on_position, on_breaker, chains, groups}) EXPECT_GT(count, 10);
}

}  // namespace
}  // namespace ohmstead
