#include "ask/location.h"

#include <algorithm>
#include <string_view>

#include "ask/words.h"
#include "house/index.h"

namespace ohmstead {

namespace {

// Meanings of ask/synonyms.cc where there are several words: "deck" is a patio, a terrace and a balcony, too.
constexpr std::string_view kWet[] = {"outside", "deck", "yard", "driveway", "dock", "pool", "roof", "facade"};
constexpr std::string_view kDamp[] = {"basement", "crawlspace", "barn", "porch", "carport", "greenhouse", "wellhouse", "stable", "sauna"};

}  // namespace

Location location_of(const House& house, Id<Room> id) {
  const Room* room = find_row(house, id);
  if (room == nullptr) return Location::dry;
  const auto says = [words = words_of_text(room->name)](const auto& list) {
    return std::ranges::any_of(words, [&](const Word& word) { return std::ranges::find(list, word.meaning) != std::end(list) || std::ranges::find(list, word.text) != std::end(list); });
  };
  return says(kWet) ? Location::wet : says(kDamp) ? Location::damp : Location::dry;
}

}  // namespace ohmstead
