#include <utility>

#include "db/merge_parts.h"
#include "house/error.h"
#include "house/invariants.h"

namespace ohmstead::merge_detail {

namespace {

constexpr std::size_t kMostTrials = 200;

/// Two things in one place, as the invariants word it.
bool is_collision(const std::string& message) { return message.starts_with("It has the same ") || message.starts_with("Two "); }

template <class Row>
std::set<std::uint64_t> ids_changed(const std::vector<Row>& base, const std::vector<Row>& side) {
  std::set<std::uint64_t> ids;
  const RowsById<Row> was = rows_by_id(base), is = rows_by_id(side);
  for (const Row& row : side)
    if (const Row* old = find(was, row.id.value); old == nullptr || !(*old == row)) ids.insert(row.id.value);
  for (const Row& row : base)
    if (find(is, row.id.value) == nullptr) ids.insert(row.id.value);
  return ids;
}

/// Calls `f(table of a, table of b)` for every table of two houses.
template <class A, class B, class F>
void for_both(A& a, B& b, const F& f) {
  std::vector<const void*> others;
  for_each_table(std::as_const(b), [&](const auto& table) { others.push_back(&table); });
  std::size_t at = 0;
  for_each_table(a, [&](auto& table) { f(table, *static_cast<const std::remove_cvref_t<decltype(table)>*>(others[at++])); });
}

}  // namespace

Reconciler::Reconciler(const Copies& copies, const Decisions& decisions, Settled settled, Merged& merged)
    : base_(copies.base), mine_(copies.mine), theirs_(copies.theirs), decisions_(decisions), settled_(std::move(settled)), merged_(merged) {}

template <class F>
void Reconciler::with_row(const House& house, const Place& place, const F& f) {
  if (place.table == Dwelling::kTable) return f(house.dwelling);
  for_each_table(house, [&]<class Row>(const std::vector<Row>& table) {
    if (place.table != Row::kTable) return;
    const auto found = std::ranges::find(table, Id<Row>{place.id}, &Row::id);
    if (found != table.end()) f(*found);
  });
}

bool Reconciler::same_row(const House& a, const House& b, const Place& place) {
  if (place.table == Dwelling::kTable) return a.dwelling == b.dwelling;
  bool same = false;
  for_both(a, b, [&]<class Row>(const std::vector<Row>& here, const std::vector<Row>& there) {
    if (place.table != Row::kTable) return;
    const auto one = std::ranges::find(here, Id<Row>{place.id}, &Row::id);
    const auto other = std::ranges::find(there, Id<Row>{place.id}, &Row::id);
    same = one == here.end() || other == there.end() ? (one == here.end()) == (other == there.end()) : *one == *other;
  });
  return same;
}

void Reconciler::set_row(House& into, const Place& place, const House& from) {
  if (place.table == Dwelling::kTable) return void(into.dwelling = from.dwelling);
  for_both(into, from, [&]<class Row>(std::vector<Row>& here, const std::vector<Row>& there) {
    if (place.table != Row::kTable) return;
    const auto one = std::ranges::find(here, Id<Row>{place.id}, &Row::id);
    const auto other = std::ranges::find(there, Id<Row>{place.id}, &Row::id);
    if (other == there.end() && one != here.end()) here.erase(one);
    else if (other != there.end() && one != here.end()) *one = *other;
    else if (other != there.end()) here.push_back(*other);
  });
}

std::vector<Reconciler::Trouble> Reconciler::troubles_of(const House& house) {
  std::vector<Trouble> troubles;
  for (const Problem& problem : problems_of(house)) {
    const auto bracket = problem.path.find('['), end = problem.path.find(']');
    Trouble trouble;
    trouble.row.table = problem.path.substr(0, std::min(bracket, problem.path.find('.')));
    trouble.message = problem.message;
    if (const auto dot = problem.path.find('.'); dot != std::string::npos) trouble.field = problem.path.substr(dot + 1);
    if (trouble.row.table == Dwelling::kTable) trouble.row.id = house.dwelling.id.value;
    const std::size_t at = end == std::string::npos ? 0 : std::stoul(problem.path.substr(bracket + 1, end - bracket - 1));
    for_each_table(house, [&]<class Row>(const std::vector<Row>& table) {
      if (trouble.row.table == Row::kTable && at < table.size()) trouble.row.id = table[at].id.value;
    });
    troubles.push_back(std::move(trouble));
  }
  return troubles;
}

bool Reconciler::has(const House& house, const Trouble& trouble) {
  return std::ranges::any_of(troubles_of(house), [&](const Trouble& other) { return other.row == trouble.row && other.field == trouble.field; });
}

/// Rows that the loser changed and that are not as the winner has them: the row in question, those that it names or that name it,
/// those of its table, all others.
std::vector<Reconciler::Place> Reconciler::candidates(const Trouble& trouble, Side loser) const {
  const House& house = merged_.house;
  const House& winner = of(loser == Side::mine ? Side::theirs : Side::mine);
  std::set<std::uint64_t> named;
  with_row(house, trouble.row, [&](const auto& row) { for_each_id_named(row, [&](std::uint64_t id) { named.insert(id); }); });
  for_each_table(house, [&](const auto& table) {
    for (const auto& row : table) for_each_id_named(row, [&](std::uint64_t id) { if (id == trouble.row.id) named.insert(row.id.value); });
  });
  std::vector<std::pair<int, Place>> found;
  for (const Place& place : changed_by(loser)) {
    if (same_row(house, winner, place)) continue;
    const int level = place == trouble.row ? 0 : named.contains(place.id) ? 1 : place.table == trouble.row.table ? 2 : 3;
    found.emplace_back(level, place);
  }
  std::ranges::stable_sort(found, {}, &std::pair<int, Place>::first);
  std::vector<Place> places;
  for (auto& [level, place] : found) places.push_back(std::move(place));
  return places;
}

/// Where no one of them is enough: as many, in this order, as it takes, without those that turn out not to stand in the way; all of them where
/// even that is not enough.
std::vector<Reconciler::Place> Reconciler::together_in_the_way(const Trouble& trouble, const std::vector<Place>& places, Side winner) const {
  House trial = merged_.house;
  std::vector<Place> chosen;
  for (const Place& place : places) {
    if (!has(trial, trouble)) break;
    set_row(trial, place, of(winner));
    chosen.push_back(place);
  }
  if (chosen.size() > kMostTrials || has(trial, trouble)) return chosen;
  for (std::size_t i = 0; i < chosen.size();) {
    House without = merged_.house;
    for (std::size_t other = 0; other < chosen.size(); ++other)
      if (other != i) set_row(without, chosen[other], of(winner));
    if (has(without, trouble)) ++i;
    else chosen.erase(chosen.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return chosen;
}

/// Of two things in one place, the winner's, where the other one gives way; 0: there is none.
std::uint64_t Reconciler::partner(const Trouble& trouble, const Place& giving_way, Side winner) const {
  if (!is_collision(trouble.message) || giving_way.table != trouble.row.table) return 0;
  if (giving_way != trouble.row) return trouble.row.id;
  for (const Place& place : changed_by(winner)) {
    if (place.table != trouble.row.table || place == trouble.row) continue;
    House without = merged_.house;
    set_row(without, place, House{});
    if (!same_row(without, merged_.house, place) && !has(without, trouble)) return place.id;
  }
  return 0;
}

Side Reconciler::side_for(const Trouble& trouble, std::uint64_t other) {
  if (going_round_) return Side::mine;
  std::optional<Side> side;
  const auto look = [&](std::uint64_t id) {
    if (const auto found = settled_.find(id); found != settled_.end() && !side) side = found->second;
  };
  with_row(merged_.house, trouble.row, [&](const auto& row) { for_each_id_named(row, look); });
  if (side) return *side;
  const std::string key = "together:" + trouble.row.table + ":" + id_text(trouble.row.id) + "." + trouble.field;
  const auto decided = decisions_.find(key);
  const bool fresh = asked_.insert(key).second;
  if (decided != decisions_.end()) return merged_.decided += fresh ? 1 : 0, decided->second;
  if (fresh) merged_.open.push_back({key, ConflictKind::together, trouble.row.table, trouble.row.id, false, {}, trouble.message, other});
  return Side::mine;
}

/// The row becomes what the winner has. If it was put where the winner has another, whatever names it names that one from now on.
void Reconciler::give_way(const Place& row, std::uint64_t other, Side winner) {
  settled_[row.id] = winner;
  House nothing;
  const bool is_new = same_row(base_, nothing, row) && same_row(of(winner), nothing, row);
  if (other != 0 && is_new && row.table != Dwelling::kTable) {
    set_row(merged_.house, row, nothing);
    rename_ids(merged_.house, {{row.id, other}});
    settled_[other] = winner;
  } else {
    set_row(merged_.house, row, of(winner));
  }
}

void Reconciler::refuse(const Trouble& trouble) {
  throw Error(ErrorKind::conflict, "What was decided cannot be brought together (" + trouble.message +
                                       "); nothing was changed. Decide otherwise, or take one side as a whole with --mine or --theirs.");
}

void Reconciler::resolve(const Trouble& trouble) {
  // Which row the question is about does not depend on who wins; the other one is only told of.
  std::uint64_t other = 0;
  for (const Side winner : {Side::mine, Side::theirs})
    if (other == 0) other = partner(trouble, trouble.row, winner);
  const Side winner = side_for(trouble, other), loser = winner == Side::mine ? Side::theirs : Side::mine;
  const std::vector<Place> places = candidates(trouble, loser);
  if (places.empty()) refuse(trouble);
  for (std::size_t i = 0; i < std::min(places.size(), kMostTrials); ++i) {
    House trial = merged_.house;
    set_row(trial, places[i], of(winner));
    if (!has(trial, trouble)) return give_way(places[i], partner(trouble, places[i], winner), winner);
  }
  for (const Place& place : together_in_the_way(trouble, places, winner)) give_way(place, partner(trouble, place, winner), winner);
}

void Reconciler::run() {
  std::vector<Trouble> troubles = troubles_of(merged_.house);
  if (troubles.empty()) return;
  for (const Side side : {Side::mine, Side::theirs}) {
    auto& changed = changed_[side == Side::mine ? 0 : 1];
    if (of(side).dwelling != base_.dwelling) changed.insert({Dwelling::kTable, base_.dwelling.id.value});
    for_both(base_, of(side), [&]<class Row>(const std::vector<Row>& was, const std::vector<Row>& is) {
      for (const std::uint64_t id : ids_changed(was, is)) changed.insert({Row::kTable, id});
    });
  }
  // Each step leads one row to the side that wins there. Steps that go in a circle are decisions against each other: while some
  // are still open mine holds for the time being, else there is nothing to be done with them.
  const std::size_t most = 3 * (changed_[0].size() + changed_[1].size()) + 100;
  for (std::size_t round = 0; !troubles.empty(); ++round) {
    going_round_ = round >= most;
    if (round >= 2 * most || (going_round_ && merged_.open.empty())) refuse(troubles.front());
    resolve(troubles.front());
    troubles = troubles_of(merged_.house);
  }
}

}  // namespace ohmstead::merge_detail
