#pragma once
// A person's words matched to things of the house, forgivingly: capitals, plurals, accents, part of
// a name, synonyms of the trade and typing slips. It never guesses: what fits several things comes
// back as several.

#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// A set of kinds of thing.
class Kinds {
 public:
  constexpr Kinds(std::initializer_list<ThingKind> kinds) {
    for (const ThingKind kind : kinds) bits_ |= bit(kind);
  }
  [[nodiscard]] constexpr bool has(ThingKind kind) const { return (bits_ & bit(kind)) != 0; }
  bool operator==(const Kinds&) const = default;

 private:
  static constexpr unsigned bit(ThingKind kind) { return 1u << static_cast<unsigned>(kind); }
  unsigned bits_ = 0;
};

/// Everything but circuits: a circuit is called by the number of its breaker, so where `circuit` is
/// wanted the breaker is not.
inline constexpr Kinds kAnything{ThingKind::house,  ThingKind::floor,  ThingKind::room,   ThingKind::box,
                                 ThingKind::point,  ThingKind::load,   ThingKind::panel,  ThingKind::breaker,
                                 ThingKind::device, ThingKind::handle, ThingKind::source, ThingKind::transfer_device,
                                 ThingKind::position};
/// What a hand can move, as things: a panel stands for its main breaker.
inline constexpr Kinds kMovable{ThingKind::panel, ThingKind::breaker, ThingKind::position, ThingKind::device,
                                ThingKind::handle};

/// One candidate.
struct Match {
  ThingRef thing;
  std::string name;  ///< in full, made fit for a terminal: "Kitchen dishwasher", "Main panel breaker 12"
  int rank = 0;      ///< 0 is its full name to the letter; 20 and more is only a part of a word, 40 and more a slip
  bool operator==(const Match&) const = default;
};

/// Candidates of one rank, in the order of the house. Empty: nothing fits. More than one: show them
/// and ask.
struct MatchResult {
  std::vector<Match> best;
};

/// The names of one unchanging house. Keep the house alive as long as this.
class Names {
 public:
  explicit Names(const House& house);
  ~Names();
  Names(Names&&) noexcept;
  Names& operator=(Names&&) noexcept;

  /// Best candidates of the wanted kinds. Every word must fit. Numbers fit only themselves. A bare
  /// number is a breaker of that number, in every panel that has one; "Main 12", "workshop breaker
  /// 3", "9-11", "4a" say more; "T3" and "position 3" are positions of a transfer device.
  /// Text of more than 500 bytes fits nothing.
  [[nodiscard]] MatchResult find(std::string_view words, const Kinds& wanted = kAnything) const;

  /// The one thing of the wanted kinds. Throws Error{not_found} with the nearest names, or
  /// Error{ambiguous} listing what fits.
  [[nodiscard]] ThingRef one(std::string_view words, const Kinds& wanted = kAnything) const;
  [[nodiscard]] Id<Point> one_point(std::string_view words) const;
  [[nodiscard]] Id<Breaker> one_breaker(std::string_view words) const;
  [[nodiscard]] Id<Panel> one_panel(std::string_view words) const;
  [[nodiscard]] Id<Room> one_room(std::string_view words) const;
  [[nodiscard]] Id<Source> one_source(std::string_view words) const;
  /// A box by its name, or by a point in it. Throws as above, and Error{not_found} for a point
  /// whose box is not recorded.
  [[nodiscard]] Id<Box> one_box(std::string_view words) const;

  /// What a hand would move: a main ("main", "workshop main"), breaker, position ("T3"), position's
  /// own breaker ("T3 breaker"), wall switch, GFCI receptacle or disconnect. Breakers or positions
  /// tied together count as one, and the first comes back. Throws as above.
  [[nodiscard]] HandleRef one_handle(std::string_view words) const;

  /// Everything of the wanted kinds that all the words fit equally well, in the order of the house:
  /// "kitchen lights", "bedroom receptacles", "Kitchen", "Workshop breakers". Empty: nothing fits.
  [[nodiscard]] std::vector<ThingRef> group(std::string_view words, const Kinds& wanted = {ThingKind::point}) const;

  /// Names in full, as they may be printed on a terminal. `find` finds a thing by its own name.
  /// "nothing" for a thing that is not in the house.
  [[nodiscard]] std::string name_of(const ThingRef& thing) const;
  [[nodiscard]] std::string name_of(const HandleRef& handle) const;

 private:
  struct Table;
  [[nodiscard]] std::vector<HandleRef> handles_called(std::string_view words) const;
  void refuse_number(std::string_view words, const Kinds& wanted) const;
  [[noreturn]] void refuse_unknown(std::string_view words, const Kinds& wanted) const;
  const House* house_;
  std::unique_ptr<const Table> table_;
};

/// A ThingRef for a row: `thing_of(point)`.
template <class Row>
[[nodiscard]] ThingRef thing_of(const Row& row) {
  return {*parse_enum<ThingKind>(Row::kTable), row.id.value};
}

}  // namespace ohmstead
