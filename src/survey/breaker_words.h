#pragma once
// Internal to quick entry: the breakers on a panel's line.

#include "survey/draft.h"

namespace ohmstead::entry_detail {

/// A word that gives a rating: "20", "20A", "30x2", "15/20".
struct Rating {
  int amps = 0;
  int poles = 1;
  int lower_amps = -1;  ///< of the lower half of a tandem; -1: no tandem
};
[[nodiscard]] std::optional<Rating> parse_rating(const Draft& draft, const Word& word);

/// What is said of a breaker, or of several written at once, behind its number and rating.
struct BreakerMarks {
  bool tied = false, multiwire = false, empty = false, interlocked = false;
  Protection protection = Protection::plain;
  OpenRule open_rule = OpenRule::free;
  Circuit wire;  ///< size, material and length only
  Id<Source> backfed_from;
  std::string interlocked_with;  ///< words of a breaker; empty: the main
  std::string label;
};
[[nodiscard]] BreakerMarks parse_marks(const Draft& draft, const std::vector<Word>& words, std::size_t at);

/// Adds breakers that share the marks; labels separated by ` / ` go to one each. Ties and shared
/// neutrals join them.
void add_breakers(Draft& draft, std::vector<Breaker> breakers, const BreakerMarks& marks);

/// "1 20 kitchen", "2+4 30 dryer", "9,11 tied 20 mwbc": one item with its own numbers.
void enter_numbered(Draft& draft, const Panel& panel, const std::vector<Word>& words);
/// "left 20 kitchen 30x2 - 15/15 den / hall": ratings down one column.
void enter_column(Draft& draft, const Panel& panel, const std::vector<Word>& words);

}  // namespace ohmstead::entry_detail
