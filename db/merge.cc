#include "db/merge.h"

#include "db/merge_parts.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using namespace merge_detail;

template <class Row>
bool alike(const Row* a, const Row* b) {
  return a == nullptr || b == nullptr ? a == b : *a == *b;
}

class HouseMerge {
 public:
  HouseMerge(const House& base, const House& mine, const House& theirs, const Decisions& decisions)
      : copies_{base, mine, theirs}, decisions_(decisions) {}

  Merged run() {
    joined_ = join_same_things(copies_);
    std::vector<Dwelling> dwellings;
    merge_table<Dwelling>({copies_.base.dwelling}, {copies_.mine.dwelling}, {copies_.theirs.dwelling}, dwellings);
    merged_.house.dwelling = dwellings.at(0);
    std::vector<const void*> bases, theirs;
    for_each_table(copies_.base, [&](const auto& table) { bases.push_back(&table); });
    for_each_table(copies_.theirs, [&](const auto& table) { theirs.push_back(&table); });
    std::vector<void*> into;
    for_each_table(merged_.house, [&](auto& table) { into.push_back(&table); });
    std::size_t at = 0;
    for_each_table(copies_.mine, [&]<class Row>(const std::vector<Row>& table) {
      const auto& old = *static_cast<const std::vector<Row>*>(bases[at]);
      const auto& others = *static_cast<const std::vector<Row>*>(theirs[at]);
      auto& both = *static_cast<std::vector<Row>*>(into[at++]);
      if constexpr (std::is_same_v<Row, Planned>) merge_plan(old, table, others, both);
      else if constexpr (std::is_same_v<Row, Printed>) merge_table<Row>({}, table, others, both);
      else merge_table(old, table, others, both);
    });
    Reconciler(copies_, decisions_, std::move(settled_), merged_).run();
    merged_.mine = std::move(copies_.mine), merged_.theirs = std::move(copies_.theirs);
    return std::move(merged_);
  }

 private:
  /// Which side a conflict goes to; one that is not decided is listed, and goes to mine.
  Side decided(Conflict conflict) {
    if (const auto found = decisions_.find(conflict.key); found != decisions_.end()) return ++merged_.decided, found->second;
    merged_.open.push_back(std::move(conflict));
    return Side::mine;
  }

  template <class Row>
  void merge_table(const std::vector<Row>& base, const std::vector<Row>& mine, const std::vector<Row>& theirs, std::vector<Row>& both) {
    if (mine == theirs || base == theirs) return void(both = mine);
    if (base == mine) return void(both = theirs);
    const RowsById<Row> was = rows_by_id(base), here = rows_by_id(mine), there = rows_by_id(theirs);
    for (const std::uint64_t id : order_of_both(ordered_rows(base), ordered_rows(mine), ordered_rows(theirs)))
      if (auto row = merge_row(find(was, id), find(here, id), find(there, id))) both.push_back(std::move(*row));
  }

  template <class Row>
  std::optional<Row> merge_row(const Row* base, const Row* mine, const Row* theirs) {
    const auto copy = [](const Row* row) { return row == nullptr ? std::optional<Row>() : std::optional<Row>(*row); };
    if (alike(mine, theirs) || alike(base, theirs)) return copy(mine);
    if (alike(base, mine)) return copy(theirs);
    if (std::is_same_v<Row, Printed>) return copy(mine != nullptr ? mine : theirs);
    if (mine != nullptr && theirs != nullptr && (base != nullptr || !joined_.contains(mine->id.value))) return merge_fields(base, *mine, *theirs);
    const Row& there_is = mine != nullptr ? *mine : *theirs;
    Conflict conflict{std::string("row:") + Row::kTable + ":" + there_is.id.text(),
                      mine == nullptr     ? ConflictKind::removed_here
                      : theirs == nullptr ? ConflictKind::removed_there
                                          : ConflictKind::same_place,
                      Row::kTable, there_is.id.value, base != nullptr, differing(base, mine, theirs), "", 0};
    const Side side = decided(std::move(conflict));
    settled_[there_is.id.value] = side;
    return copy(side == Side::mine ? mine : theirs);
  }

  /// The fields that differ among those of the three that are there.
  template <class Row>
  static std::vector<ThreeCells> differing(const Row* base, const Row* mine, const Row* theirs) {
    std::vector<ThreeCells> fields;
    const auto cells = [](const Row* row) { return row == nullptr ? std::vector<Cell>() : cells_of(*row); };
    const std::vector<Cell> was = cells(base), here = cells(mine), there = cells(theirs);
    const auto at = [](const std::vector<Cell>& row, std::size_t i) { return i < row.size() ? row[i] : Cell(); };
    std::size_t i = 0;
    const Row& names = mine != nullptr ? *mine : *theirs;
    Row::fields(names, [&](const char* name, const auto&) {
      ThreeCells field{name, at(was, i), at(here, i), at(there, i)};
      const bool one_side = mine == nullptr || theirs == nullptr;
      const bool differs = one_side ? at(was, i) != at(mine == nullptr ? there : here, i) : field.mine != field.theirs;
      if (i++ != 0 && differs) fields.push_back(std::move(field));
    });
    return fields;
  }

  /// Did both sides write the row anew? Then who wrote it and when is nothing to ask about: it goes with what was written.
  template <class Row>
  static bool signed_twice(const Row* base, const Row& mine, const Row& theirs) {
    if constexpr (requires { mine.who, mine.at; })
      return mine.at != theirs.at && (base == nullptr || (base->at != mine.at && base->at != theirs.at));
    return false;
  }
  /// The side that wrote the row last.
  template <class Row>
  static Side later(const Row& mine, const Row& theirs) {
    if constexpr (requires { mine.at; }) return mine.at < theirs.at ? Side::theirs : Side::mine;
    return Side::mine;
  }

  template <class Row>
  Row merge_fields(const Row* base, const Row& mine, const Row& theirs) {
    Row both = mine;
    const std::vector<ThreeCells> fields = differing(base, &mine, &theirs);
    std::set<std::string> from_theirs;
    std::optional<Side> written;  // whose words it is, where that was in question
    const bool twice = signed_twice(base, mine, theirs);
    for (const ThreeCells& field : fields) {
      if (twice && (field.name == "who" || field.name == "at")) continue;
      if (base != nullptr && field.before == field.theirs) continue;
      if (base != nullptr && field.before == field.mine) {
        from_theirs.insert(field.name);
        continue;
      }
      Conflict conflict{std::string("field:") + Row::kTable + ":" + mine.id.text() + "." + field.name, ConflictKind::field,
                        Row::kTable, mine.id.value, base != nullptr, {field}, "", 0};
      const Side side = decided(std::move(conflict));
      if (side == Side::theirs) from_theirs.insert(field.name);
      if (!written) written = side;
    }
    if (twice && written.value_or(later(mine, theirs)) == Side::theirs) from_theirs.insert({"who", "at"});
    take_fields(both, theirs, from_theirs);
    return both;
  }

  template <class Row>
  static void take_fields(Row& into, const Row& from, const std::set<std::string>& names) {
    Row::fields(into, [&]<class T>(const char* name, T& field) {
      if (!names.contains(name)) return;
      Row::fields(from, [&]<class U>(const char* other, const U& value) {
        if constexpr (std::is_same_v<T, U>)
          if (std::string_view(other) == name) field = value;
      });
    });
  }

  /// A plan is kept as a whole: half of one and half of another carry nothing safely.
  void merge_plan(const std::vector<Planned>& base, const std::vector<Planned>& mine, const std::vector<Planned>& theirs, std::vector<Planned>& both) {
    const auto same = [](std::vector<Planned> a, std::vector<Planned> b) {
      std::ranges::sort(a, {}, &Planned::id);
      std::ranges::sort(b, {}, &Planned::id);
      return a == b;
    };
    if (same(mine, theirs) || same(base, theirs) || same(base, mine)) return merge_table(base, mine, theirs, both);
    Conflict conflict{"plan", ConflictKind::plan, Planned::kTable, 0, true, {}, "", 0};
    both = decided(std::move(conflict)) == Side::mine ? mine : theirs;
  }

  Copies copies_;
  const Decisions& decisions_;
  IdSet joined_;
  Settled settled_;
  Merged merged_;
};

}  // namespace

Merged merge_houses(const House& base, const House& mine, const House& theirs, const Decisions& decisions) {
  if (mine.dwelling.id != theirs.dwelling.id)
    throw Error(ErrorKind::invalid_input, "These are two different houses ('" + mine.dwelling.name + "' and '" + theirs.dwelling.name +
                                              "'), not two copies of one, so they are not merged; nothing was changed.");
  return HouseMerge(base, mine, theirs, decisions).run();
}

}  // namespace ohmstead
