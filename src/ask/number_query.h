#pragma once
// Internal to Names: breakers and transfer positions are called by number.

#include <vector>

#include "ask/name_table.h"
#include "house/numbering.h"

namespace ohmstead::ask_detail {

/// A breaker or position that a text with a number in it may mean.
struct NumberHit {
  ThingRef thing;            ///< a breaker or a position
  bool own_breaker = false;  ///< the position's own breaker is meant, not its throw
  int rank = 0;              ///< as Match::rank: how well its panel or device was named
};

/// One reading of a text: a number, and the words beside it.
struct NumberReading {
  std::vector<PolePlace> places;  ///< "9-11" is two; half `whole` where no letter was written
  std::vector<Word> beside;       ///< panel or device; "breaker", "number" and "position" taken out
  std::string initial;            ///< "t" of "T3"
  bool says_breaker = false, says_position = false;
};

/// Every way to read `text` as a number of a breaker or position. Numbers of more than 4 digits are none.
[[nodiscard]] std::vector<NumberReading> number_readings(std::string_view text);

/// The number of a reading as it is stamped: "9-11".
[[nodiscard]] std::string number_text(const NumberReading& reading);

/// All hits of all readings, in the order of the house.
[[nodiscard]] std::vector<NumberHit> number_hits(const House& house, const NameTable& table, std::string_view text);

}  // namespace ohmstead::ask_detail
