#pragma once
// Internal to merging: rows of any kind by their id, the order of rows from two sides, and joining what both sides added.

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "db/merge.h"

namespace ohmstead::merge_detail {

using IdSet = std::unordered_set<std::uint64_t>;
using IdMap = std::unordered_map<std::uint64_t, std::uint64_t>;

template <class Row>
using RowsById = std::unordered_map<std::uint64_t, const Row*>;

template <class Row>
[[nodiscard]] RowsById<Row> rows_by_id(const std::vector<Row>& table) {
  RowsById<Row> rows;
  rows.reserve(table.size());
  for (const Row& row : table) rows.emplace(row.id.value, &row);
  return rows;
}

template <class Row>
[[nodiscard]] const Row* find(const RowsById<Row>& rows, std::uint64_t id) {
  const auto found = rows.find(id);
  return found == rows.end() ? nullptr : found->second;
}

template <class Row>
[[nodiscard]] std::vector<Cell> cells_of(const Row& row) {
  std::vector<Cell> cells;
  Row::fields(row, [&](const char*, const auto& field) { cells.push_back(cell_of(field)); });
  return cells;
}

/// Ids of rows in one table, and when each was made (empty: not said).
struct OrderedRow {
  std::uint64_t id = 0;
  std::string at;
};

/// The rows of both sides in one order that does not depend on which side is which: rows of the base as whoever moved them has
/// them, new ones behind the row that they stand behind, in the order of time where they have one.
[[nodiscard]] std::vector<std::uint64_t> order_of_both(const std::vector<OrderedRow>& base, const std::vector<OrderedRow>& mine,
                                                       const std::vector<OrderedRow>& theirs);

template <class Row>
[[nodiscard]] std::vector<OrderedRow> ordered_rows(const std::vector<Row>& table) {
  std::vector<OrderedRow> rows;
  rows.reserve(table.size());
  for (const Row& row : table) {
    rows.push_back({row.id.value, ""});
    if constexpr (requires { row.at; }) rows.back().at = row.at;
  }
  return rows;
}

/// Every id that a row names, its own first. Not those inside texts of ticks, settings and prints.
template <class Row, class F>
void for_each_id_named(const Row& row, const F& f) {
  Row::fields(row, [&]<class T>(const char*, const T& field) {
    if constexpr (kIsId<T>) {
      if (field) f(field.value);
    } else if constexpr (std::is_same_v<T, HandleRef> || std::is_same_v<T, ThingRef>) {
      if (field.id != 0) f(field.id);
    }
  });
}

/// Puts other ids in the place of some, in all rows of a house and whatever names them.
void rename_ids(House& house, const IdMap& renamed);

/// Three copies of one house.
struct Copies {
  House base, mine, theirs;
};

/// What both sides have under ids of their own, though only one such thing can be, is given one id, the smaller one, in all copies:
/// both added it, or one removed it and put it back. The ids of such rows.
[[nodiscard]] IdSet join_same_things(Copies& copies);

/// Ids about which it was decided, and for which side: what follows from that is not asked again.
using Settled = std::unordered_map<std::uint64_t, Side>;

/// Leads a house that both sides made what it is, and that cannot be so, to a sound one: where what they did is not possible
/// together, the changes of the side that loses are taken back, row by row, beginning with the row in question.
class Reconciler {
 public:
  Reconciler(const Copies& copies, const Decisions& decisions, Settled settled, Merged& merged);
  void run();

 private:
  struct Place {
    std::string table;
    std::uint64_t id = 0;
    auto operator<=>(const Place&) const = default;
  };
  /// A problem by where it is: the row and its field.
  struct Trouble {
    Place row;
    std::string field, message;
  };

  [[nodiscard]] static std::vector<Trouble> troubles_of(const House& house);
  [[nodiscard]] static bool has(const House& house, const Trouble& trouble);
  void resolve(const Trouble& trouble);
  [[noreturn]] static void refuse(const Trouble& trouble);
  [[nodiscard]] Side side_for(const Trouble& trouble, std::uint64_t other);
  [[nodiscard]] std::vector<Place> candidates(const Trouble& trouble, Side loser) const;
  [[nodiscard]] std::vector<Place> together_in_the_way(const Trouble& trouble, const std::vector<Place>& places, Side winner) const;
  [[nodiscard]] std::uint64_t partner(const Trouble& trouble, const Place& giving_way, Side winner) const;
  void give_way(const Place& row, std::uint64_t other, Side winner);
  [[nodiscard]] const House& of(Side side) const { return side == Side::mine ? mine_ : theirs_; }
  [[nodiscard]] const std::set<Place>& changed_by(Side side) const { return changed_[side == Side::mine ? 0 : 1]; }

  template <class F>
  static void with_row(const House& house, const Place& place, const F& f);
  static void set_row(House& into, const Place& place, const House& from);
  [[nodiscard]] static bool same_row(const House& a, const House& b, const Place& place);

  const House &base_, &mine_, &theirs_;
  const Decisions& decisions_;
  Settled settled_;
  Merged& merged_;
  std::set<Place> changed_[2];  ///< rows that each side changed
  std::set<std::string> asked_;
  bool going_round_ = false;
};

}  // namespace ohmstead::merge_detail
