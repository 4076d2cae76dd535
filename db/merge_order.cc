#include "db/merge_parts.h"

namespace ohmstead::merge_detail {

namespace {

using Ids = std::vector<std::uint64_t>;

/// Ids of the rows of `side` that are in `wanted`, in its order.
Ids kept_in(const std::vector<OrderedRow>& side, const IdSet& wanted) {
  Ids ids;
  for (const OrderedRow& row : side)
    if (wanted.contains(row.id)) ids.push_back(row.id);
  return ids;
}

IdSet ids_of(const std::vector<OrderedRow>& rows) {
  IdSet ids;
  for (const OrderedRow& row : rows) ids.insert(row.id);
  return ids;
}

/// New rows of one side by the row that they stand behind (0: at the start).
std::unordered_map<std::uint64_t, std::vector<OrderedRow>> new_rows(const std::vector<OrderedRow>& side, const IdSet& old) {
  std::unordered_map<std::uint64_t, std::vector<OrderedRow>> behind;
  std::uint64_t last = 0;
  for (const OrderedRow& row : side) {
    if (old.contains(row.id)) last = row.id;
    else behind[last].push_back(row);
  }
  return behind;
}

/// The first row that is not among the others; 0: there is none.
std::uint64_t first_besides(const std::vector<OrderedRow>& rows, const IdSet& others) {
  const auto found = std::ranges::find_if(rows, [&](const OrderedRow& row) { return !others.contains(row.id); });
  return found == rows.end() ? 0 : found->id;
}

/// By time where they have one; else all of one side first, the one whose own rows begin with the smaller id.
void put_both(const std::vector<OrderedRow>& some, const std::vector<OrderedRow>& others, Ids& order, IdSet& placed) {
  const auto put = [&](const OrderedRow& row) {
    if (placed.insert(row.id).second) order.push_back(row.id);
  };
  const bool timed = std::ranges::any_of(some, [](const auto& row) { return !row.at.empty(); }) ||
                     std::ranges::any_of(others, [](const auto& row) { return !row.at.empty(); });
  if (!timed) {
    const auto rank = [](const auto& rows, const auto& besides) { return std::pair{first_besides(rows, ids_of(besides)), rows.empty() ? 0 : rows.front().id}; };
    const bool first = rank(some, others) <= rank(others, some);
    std::ranges::for_each(first ? some : others, put);
    std::ranges::for_each(first ? others : some, put);
    return;
  }
  const auto sooner = [](const OrderedRow& a, const OrderedRow& b) { return std::pair{a.at, a.id} < std::pair{b.at, b.id}; };
  for (auto one = some.begin(), other = others.begin();;) {
    while (one != some.end() && placed.contains(one->id)) ++one;
    while (other != others.end() && placed.contains(other->id)) ++other;
    if (one == some.end() && other == others.end()) return;
    put(other == others.end() || (one != some.end() && sooner(*one, *other)) ? *one : *other);
  }
}

/// The rows that all three have, as the side has them that moved some.
Ids old_order(const std::vector<OrderedRow>& base, const std::vector<OrderedRow>& mine, const std::vector<OrderedRow>& theirs) {
  const IdSet in_mine = ids_of(mine), in_theirs = ids_of(theirs);
  IdSet common;
  for (const OrderedRow& row : base)
    if (in_mine.contains(row.id) && in_theirs.contains(row.id)) common.insert(row.id);
  const Ids was = kept_in(base, common), here = kept_in(mine, common), there = kept_in(theirs, common);
  if (here == was) return there;
  if (there == was) return here;
  return std::min(here, there);
}

}  // namespace

std::vector<std::uint64_t> order_of_both(const std::vector<OrderedRow>& base, const std::vector<OrderedRow>& mine,
                                         const std::vector<OrderedRow>& theirs) {
  Ids old = old_order(base, mine, theirs);
  const IdSet common(old.begin(), old.end());
  const auto here = new_rows(mine, common), there = new_rows(theirs, common);
  static const std::vector<OrderedRow> kNone;
  const auto behind = [](const auto& rows, std::uint64_t id) -> const std::vector<OrderedRow>& {
    const auto found = rows.find(id);
    return found == rows.end() ? kNone : found->second;
  };
  old.insert(old.begin(), 0);
  Ids order;
  IdSet placed;
  for (const std::uint64_t id : old) {
    if (id != 0) order.push_back(id), placed.insert(id);
    put_both(behind(here, id), behind(there, id), order, placed);
  }
  return order;
}

}  // namespace ohmstead::merge_detail
