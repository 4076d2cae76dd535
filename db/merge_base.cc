#include "db/merge_base.h"

#include <algorithm>
#include <map>
#include <set>

#include "db/interchange.h"
#include "db/sha256.h"
#include "db/undo.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

/// Calls `f(table of a, table of b)` for the table of this name.
template <class A, class B, class F>
void with_tables(const std::string& name, A& a, B& b, const F& f) {
  for_each_table(a, [&]<class Row>(std::vector<Row>& table) {
    if (name == Row::kTable) f(table, table_of<Row>(b));
  });
}

/// Takes out of `theirs` what an older state of this file had just so: what is left is what they changed.
class OlderStates {
 public:
  OlderStates(const House& mine, House& theirs) : mine_(mine), theirs_(theirs) {}

  /// Rows that `changes` touched, as `older` has them.
  void look(const House& older, const std::vector<RowChange>& changes) {
    for (const RowChange& change : changes) {
      if (change.table == Dwelling::kTable) take_fields(theirs_.dwelling, older.dwelling, mine_.dwelling);
      with_tables(change.table, theirs_, older, [&]<class Row>(std::vector<Row>& table, const std::vector<Row>& old) {
        look_at(table, old, Id<Row>{change.id});
      });
    }
  }

 private:
  template <class Row>
  void look_at(std::vector<Row>& table, const std::vector<Row>& old, Id<Row> id) {
    const auto theirs = std::ranges::find(table, id, &Row::id);
    const auto was = std::ranges::find(old, id, &Row::id);
    if (theirs == table.end() || was == old.end()) return;
    const auto& here = table_of<Row>(mine_);
    const auto mine = std::ranges::find(here, id, &Row::id);
    if (mine != here.end()) take_fields(*theirs, *was, *mine);
    else if (*theirs == *was) table.erase(theirs);
  }

  /// A field of theirs that is as it was takes my value. Each row is looked at one by one, newest state first.
  template <class Row>
  static void take_fields(Row& theirs, const Row& was, const Row& mine) {
    std::vector<Cell> old;
    Row::fields(was, [&](const char*, const auto& field) { old.push_back(cell_of(field)); });
    std::vector<bool> stale;
    Row::fields(theirs, [&](const char*, const auto& field) { stale.push_back(cell_of(field) == old[stale.size()]); });
    std::vector<Cell> now;
    Row::fields(mine, [&](const char*, const auto& field) { now.push_back(cell_of(field)); });
    std::size_t at = 0;
    Row::fields(theirs, [&](const char*, auto& field) {
      if (stale[at]) (void)read_cell(view_of(now[at]), field);
      ++at;
    });
  }

  const House& mine_;
  House& theirs_;
};

/// Rows that two houses have just alike.
House alike_in(const House& mine, const House& theirs) {
  House both;
  both.dwelling.id = mine.dwelling.id;
  if (mine.dwelling == theirs.dwelling) both.dwelling = mine.dwelling;
  for_each_table(both, [&]<class Row>(std::vector<Row>& table) {
    std::unordered_map<Id<Row>, const Row*> there;
    for (const Row& row : table_of<Row>(theirs)) there.emplace(row.id, &row);
    for (const Row& row : table_of<Row>(mine))
      if (const auto found = there.find(row.id); found != there.end() && *found->second == row) table.push_back(row);
  });
  return both;
}

/// Goes back through the history as far as it is kept.
Parting without_common_past(const HouseFile& file, const House& mine, House theirs) {
  OlderStates older(mine, theirs);
  House house = mine;
  const std::vector<MergedIn> merged = file.merged();
  for (const RowsOfChange& change : file.rows_naming(0)) {
    if (std::ranges::find(merged, change.revision, &MergedIn::revision) != merged.end()) {
      const House brought = file.merged_house(change.revision);
      older.look(brought, row_changes(house, brought));
    }
    if (apply_changes(house, turned_round(change.rows)))
      throw Error(ErrorKind::storage, "The history in this house file is damaged at revision " + std::to_string(change.revision) + "; nothing was changed.");
    older.look(house, change.rows);
  }
  House base = alike_in(mine, theirs);
  return {std::move(base), std::move(theirs), 0, false};
}

}  // namespace

OtherCopy copy_of_document(House house) {
  std::string mark = "document " + sha256_text(house_to_json(house)).substr(0, 48);
  return {std::move(house), {std::move(mark)}};
}

Parting parting_of(const HouseFile& file, const House& mine, OtherCopy& other) {
  const std::set<std::string> theirs(other.marks.begin(), other.marks.end());
  const std::vector<FileChange> changes = file.changes();
  const std::set<std::int64_t> back = taken_back(changes);
  const std::int64_t oldest = file.oldest_kept();
  std::int64_t own = 0, brought = 0;
  bool known = false;
  const auto is_last = [&](const std::string& mark) { return !other.marks.empty() && mark == other.marks.front(); };
  for (const FileChange& change : changes) {
    known = known || is_last(change.mark);
    if (change.revision >= oldest && theirs.contains(change.mark)) own = change.revision;
  }
  for (const MergedIn& merged : file.merged()) {
    if (back.contains(merged.revision)) continue;
    known = known || std::ranges::any_of(merged.marks, is_last);
    if (merged.revision > oldest && theirs.contains(merged.marks.front())) brought = merged.revision;
  }
  if (known) return {mine, mine, own, true};
  if (own == 0 && brought == 0) return without_common_past(file, mine, other.house);
  return {brought > own ? file.merged_house(brought) : file.as_of(own), other.house, std::max(own, brought), false};
}

std::int64_t keep_merged(HouseFile& file, const House& mine, const Merged& merged, const OtherCopy& other, const std::string& what) {
  std::set<std::string> known;
  for (const FileChange& change : file.changes()) known.insert(change.mark);
  ChangeNote note{.what = what};
  note.theirs = &other.house;
  for (const std::string& mark : other.marks)
    if (note.merged.empty() || !known.contains(mark)) note.merged.push_back(mark);
  if (merged.decided == 0 && merged.house == mine) note.merged.clear();
  for (const Photo& photo : merged.house.photos)
    for (const std::string& sha256 : {photo.picture, photo.small})
      if (const auto found = other.pictures.find(sha256); found != other.pictures.end()) note.pictures.insert(*found);
  return file.change(note, [&](House& house) {
    House now = mine;
    now.printed = house.printed;
    if (house != now) throw Error(ErrorKind::conflict, "Another program changed this house meanwhile, so nothing was merged. Do it again.");
    House next = merged.house;
    for (const Printed& print : house.printed)  // one that was made while it was being decided
      if (find_row(next, print.id) == nullptr) next.printed.push_back(print);
    house = std::move(next);
  });
}

}  // namespace ohmstead
