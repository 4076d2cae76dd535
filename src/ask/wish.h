#pragma once
// What a family wants in an outage, in its own words: 'freezer 100/400 W nameplate, off at most 8 h', 'microwave on demand',
// 'kitchen lights', 'hair dryer at upper hall receptacle, 1500 W, on demand', 'not the range'. It becomes figures of loads.

#include <string>
#include <string_view>
#include <vector>

#include "ask/answer_words.h"
#include "ask/names.h"

namespace ohmstead {

/// Longest text of wishes that is read, in bytes.
inline constexpr std::size_t kLongestWish = 2000;

/// The house with these wishes in it, and the loads they are about.
struct Wished {
  House house;
  std::vector<Id<Load>> loads;  ///< each once, in the order in which they were named
};

/// Reads wishes, parted by semicolons or line ends. A wish begins with a thing: a load, a point or several ('kitchen lights'), or
/// 'THING at POINT' for something that is plugged in there and not yet in the record. Behind it, in any order, parted by spaces or commas:
///   100 W, 100/400 W (running/starting), 1.2 kW; 6.5 A (full-load amperes); 1/2 hp; code L; pf 0.8; nameplate, measured, guess;
///   together (the usual), on demand, not wanted; life safety (!!), high (!), normal, low; duty 33 %; off at most 8 h (or min);
///   continuous (three hours or more); starts itself; hurt (by a power loss).
/// 'not THING' says that it is not wanted. Throws Error{invalid_input} naming the word that is not understood; Error{not_found}, {ambiguous} for things.
[[nodiscard]] Wished with_wishes(const House& house, const Names& names, std::string_view text);

/// Who depended on what is wished for less, or not any more: it was for life safety before. Empty where nothing was.
[[nodiscard]] Lines words_of_life_safety_given_up(const House& before, const Wished& wished);

/// The wish list: what must run together, what is on demand, most important first, with watts as a range, where they are from, and what is doubtful.
/// Only these loads, if any are given.
[[nodiscard]] Lines words_of_wishes(const House& house, const Names& names, const std::vector<Id<Load>>& only = {});

}  // namespace ohmstead
