#include "ask/names.h"

#include <algorithm>
#include <set>

#include "ask/name_table.h"
#include "ask/number_query.h"
#include "ask/printable.h"
#include "house/index.h"

namespace ohmstead {

using ask_detail::Called, ask_detail::NameTable, ask_detail::NumberHit, ask_detail::Query, ask_detail::Rank;

struct Names::Table {
  explicit Table(const House& house) : on_demand(house) {
    for (const Circuit& circuit : house.circuits) circuit_of.emplace(circuit.breaker.value, circuit.id.value);
  }
  ask_detail::TablesOnDemand on_demand;
  std::unordered_map<std::uint64_t, std::uint64_t> circuit_of;  ///< by breaker
};

namespace {

constexpr std::size_t kMostListed = 8;
constexpr std::size_t kMostSuggested = 3;

std::string shortened(std::string_view words) {
  constexpr std::size_t kMostShown = 60;
  const std::string text = terminal::printable(words.substr(0, kMostShown * 4));
  std::string out;
  std::size_t letters = 0;
  for (const char c : text) {
    const bool starts = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (starts && ++letters > kMostShown) return out + "...";
    out += c;
  }
  return out;
}

std::string listed(const std::vector<std::string>& names, std::string_view between, std::size_t most) {
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), most); ++i) text.append(i == 0 ? "" : between).append(names[i]);
  if (names.size() > most) text += " and " + std::to_string(names.size() - most) + " more";
  return text;
}

void throw_ambiguous(std::string_view words, const std::vector<std::string>& names) {
  throw Error(ErrorKind::ambiguous, "'" + shortened(words) + "' fits " + std::to_string(names.size()) +
                                        " things: " + listed(names, "; ", kMostListed) + ". Say which one, in more of its words.");
}

void check_length(std::string_view words) {
  if (words.size() > kLongestQuery)
    throw Error(ErrorKind::invalid_input, "A name of " + std::to_string(words.size()) + " bytes ('" + shortened(words) +
                                              "') is too long; at most " + std::to_string(kLongestQuery) + " are read.");
}

/// Things that are said with the same words because one is in the other: the outer one is dropped.
void drop_doubles(const House& house, std::vector<Match>& best) {
  std::set<ThingRef> have;
  for (const Match& match : best) have.insert(match.thing);
  const auto has = [&](ThingKind kind, std::uint64_t id) { return have.contains({kind, id}); };
  const auto is_double = [&](const Match& match) {
    const std::uint64_t id = match.thing.id;
    if (match.thing.kind == ThingKind::load) {
      const Load* load = find_row(house, Id<Load>{id});
      return load != nullptr && has(ThingKind::point, load->point.value);
    }
    if (match.thing.kind == ThingKind::handle) {
      const Handle* handle = find_row(house, Id<Handle>{id});
      return handle != nullptr && has(ThingKind::device, handle->device.value);
    }
    if (match.thing.kind == ThingKind::device) {
      const Device* device = find_row(house, Id<Device>{id});
      return device != nullptr && has(ThingKind::point, device->at_point.value);
    }
    if (match.thing.kind != ThingKind::box) return false;
    return std::ranges::any_of(house.points, [&](const Point& point) {
      return point.box.value == id && has(ThingKind::point, point.id.value);
    });
  };
  if (best.size() > 1) std::erase_if(best, is_double);
}

template <class Row>
Id<Row> id_of(const ThingRef& thing) {
  return Id<Row>{thing.id};
}

/// Words of a text but for those that only say "a main breaker".
std::vector<Word> without_main_words(std::string_view text, bool& says_main) {
  std::vector<Word> words = words_of_text(text);
  says_main = std::ranges::any_of(words, [](const Word& word) { return word.text == "main"; });
  const auto is_filler = [](const Word& word) {
    return word.meaning == "breaker" || word.meaning == "switch" || word.meaning == "disconnect" || word.meaning == "panel";
  };
  std::erase_if(words, is_filler);
  return words;
}

}  // namespace

Names::Names(const House& house) : house_(&house), table_(std::make_unique<const Table>(house)) {}
Names::~Names() = default;
Names::Names(Names&&) noexcept = default;
Names& Names::operator=(Names&&) noexcept = default;

MatchResult Names::find(std::string_view words, const Kinds& wanted) const {
  MatchResult result;
  if (words.size() > kLongestQuery) return result;
  int best_rank = Rank::kNone;
  const auto offer = [&](const ThingRef& thing, int rank) {
    const Called* called = table_->on_demand.everything().row_of(thing);
    if (called == nullptr || !wanted.has(thing.kind) || rank > best_rank || rank >= Rank::kNone) return;
    if (rank < best_rank) result.best.clear();
    best_rank = rank;
    const bool known = std::ranges::any_of(result.best, [&](const Match& match) { return match.thing == thing; });
    if (!known) result.best.push_back({thing, called->name, rank});
  };
  for (const NumberHit& hit : ask_detail::number_hits(*house_, table_->on_demand.everything(), words)) {
    if (hit.own_breaker) continue;
    offer(hit.thing, hit.rank);
    const auto circuit = table_->circuit_of.find(hit.thing.id);
    if (hit.thing.kind == ThingKind::breaker && circuit != table_->circuit_of.end())
      offer({ThingKind::circuit, circuit->second}, hit.rank);
  }
  const Query query = table_->on_demand.everything().query(words);
  for (const Called& thing : table_->on_demand.everything().things())
    if (wanted.has(thing.thing.kind)) offer(thing.thing, table_->on_demand.everything().rank(query, thing).value);
  drop_doubles(*house_, result.best);
  return result;
}

/// A number that no breaker or position has: which panels and devices were looked through.
void Names::refuse_number(std::string_view words, const Kinds& wanted) const {
  for (const ask_detail::NumberReading& reading : ask_detail::number_readings(words)) {
    const Query beside = table_->on_demand.everything().query_of(reading.beside, "");
    const bool position = reading.says_position || !reading.initial.empty();
    if (!wanted.has(position ? ThingKind::position : ThingKind::breaker)) continue;
    std::vector<std::string> looked;
    for (const Called& thing : table_->on_demand.everything().things()) {
      const bool holds = thing.thing.kind == (position ? ThingKind::transfer_device : ThingKind::panel);
      const bool said = beside.words.empty() || table_->on_demand.everything().rank(beside, thing).value < Rank::kNone;
      if (holds && said) looked.push_back(thing.name);
    }
    if (!looked.empty() && (reading.initial.empty() || reading.initial == "t"))
      throw Error(ErrorKind::not_found, "There is no " + std::string(position ? "position" : "breaker") + " '" +
                                            ask_detail::number_text(reading) + "' in " +
                                            listed(looked, " or ", kMostSuggested) + "; look at the number beside the handle.");
  }
}

void Names::refuse_unknown(std::string_view words, const Kinds& wanted) const {
  refuse_number(words, wanted);
  const Query query = table_->on_demand.everything().query(words);
  std::vector<std::pair<int, const Called*>> near;
  for (const Called& thing : table_->on_demand.everything().things()) {
    if (!wanted.has(thing.thing.kind)) continue;
    const int fitting = table_->on_demand.everything().words_fitting(query, thing);
    const int most = static_cast<int>(std::min<std::size_t>(query.folded_text.size() / 3, 8));
    const bool alike = thing.folded_name.size() < 80 && slips_between(query.folded_text, thing.folded_name, most) <= most;
    if (fitting > 0 || alike) near.emplace_back(alike ? -100 : -fitting, &thing);
  }
  std::ranges::stable_sort(near, {}, &std::pair<int, const Called*>::first);
  std::vector<std::string> names;
  for (const auto& [score, thing] : near)
    if (names.size() < kMostSuggested && std::ranges::find(names, thing->name) == names.end()) names.push_back(thing->name);
  std::string message = "Nothing in the record fits '" + shortened(words) + "'";
  message += names.empty() ? "; name a room and what is in it, such as 'kitchen light', or a breaker, such as 'Main 12'."
                           : ". The nearest: " + listed(names, "; ", kMostSuggested) + ".";
  throw Error(ErrorKind::not_found, message);
}

ThingRef Names::one(std::string_view words, const Kinds& wanted) const {
  check_length(words);
  const MatchResult found = find(words, wanted);
  if (found.best.empty()) refuse_unknown(words, wanted);
  std::vector<std::string> names;
  for (const Match& match : found.best) names.push_back(match.name);
  if (names.size() > 1) throw_ambiguous(words, names);
  return found.best[0].thing;
}

Id<Point> Names::one_point(std::string_view words) const { return id_of<Point>(one(words, {ThingKind::point})); }
Id<Breaker> Names::one_breaker(std::string_view words) const { return id_of<Breaker>(one(words, {ThingKind::breaker})); }
Id<Panel> Names::one_panel(std::string_view words) const { return id_of<Panel>(one(words, {ThingKind::panel})); }
Id<Room> Names::one_room(std::string_view words) const { return id_of<Room>(one(words, {ThingKind::room})); }
Id<Source> Names::one_source(std::string_view words) const { return id_of<Source>(one(words, {ThingKind::source})); }

Id<Box> Names::one_box(std::string_view words) const {
  check_length(words);
  const MatchResult boxes = find(words, {ThingKind::box});
  const bool whole = !boxes.best.empty() && boxes.best.size() == 1 && boxes.best[0].rank < 20;
  if (whole) return id_of<Box>(boxes.best[0].thing);
  const ThingRef thing = one(words, {ThingKind::box, ThingKind::point});
  if (thing.kind == ThingKind::box) return id_of<Box>(thing);
  const Point& point = row(*house_, id_of<Point>(thing));
  if (!point.box) throw Error(ErrorKind::not_found, "Which box '" + name_of(thing) + "' is in is not recorded.");
  return point.box;
}

std::vector<HandleRef> Names::handles_called(std::string_view words) const {
  std::vector<HandleRef> handles;
  int best_rank = Rank::kNone;
  const auto offer = [&](const HandleRef& handle, int rank) {
    if (rank > best_rank || rank >= Rank::kNone) return;
    if (rank < best_rank) handles.clear();
    best_rank = rank;
    if (std::ranges::find(handles, handle) == handles.end()) handles.push_back(handle);
  };
  const bool number = words.find_first_not_of("0123456789-+ab ") == std::string_view::npos;
  const NameTable& table = number ? table_->on_demand.numbered() : table_->on_demand.everything();
  for (const NumberHit& hit : ask_detail::number_hits(*house_, table, words)) {
    const bool breaker = hit.thing.kind == ThingKind::breaker;
    const HandleKind of_position = hit.own_breaker ? HandleKind::position_breaker : HandleKind::position;
    offer({breaker ? HandleKind::breaker : of_position, hit.thing.id}, hit.rank);
  }
  if (number && !handles.empty()) return handles;
  for (const Match& match : find(words, {ThingKind::handle}).best) offer({HandleKind::device, match.thing.id}, match.rank);
  bool says_main = false;
  std::vector<Word> beside = without_main_words(words, says_main);
  if (!says_main) return handles;
  for (const bool with_main : {true, false}) {
    if (!with_main) std::erase_if(beside, [](const Word& word) { return word.text == "main"; });
    if (beside.empty()) continue;
    const Query query = table_->on_demand.everything().query_of(beside, "");
    for (const Panel& panel : house_->panels)
      offer({HandleKind::main, panel.id.value}, table_->on_demand.everything().rank(query, *table_->on_demand.everything().row_of(thing_of(panel))).value);
  }
  return handles;
}

HandleRef Names::one_handle(std::string_view words) const {
  check_length(words);
  std::vector<HandleRef> handles = handles_called(words);
  if (handles.empty()) refuse_unknown(words, kMovable);
  const auto tie_of = [&](const HandleRef& handle) -> std::uint64_t {
    if (handle.kind == HandleKind::breaker) return row(*house_, Id<Breaker>{handle.id}).tie.value;
    return handle.kind == HandleKind::position ? row(*house_, Id<Position>{handle.id}).tie.value : 0;
  };
  const std::uint64_t tie = tie_of(handles[0]);
  const bool one_tie = tie != 0 && std::ranges::all_of(handles, [&](const HandleRef& h) { return tie_of(h) == tie; });
  std::vector<std::string> names;
  for (const HandleRef& handle : handles) names.push_back(name_of(handle));
  if (handles.size() > 1 && !one_tie) throw_ambiguous(words, names);
  if (handles[0].kind == HandleKind::main && row(*house_, Id<Panel>{handles[0].id}).main_amps == 0)
    throw Error(ErrorKind::not_found, "'" + name_of(ThingRef{ThingKind::panel, handles[0].id}) +
                                          "' has no main breaker of its own; name the breaker that feeds it.");
  return handles[0];
}

std::vector<ThingRef> Names::group(std::string_view words, const Kinds& wanted) const {
  std::vector<ThingRef> things;
  if (words.size() > kLongestQuery) return things;
  const Query query = table_->on_demand.everything().query(words);
  int best_tier = Rank::kNone;
  bool room_said = false;
  for (const Called& thing : table_->on_demand.everything().things()) {
    const Rank rank = table_->on_demand.everything().rank(query, thing);
    if (!wanted.has(thing.thing.kind) || rank.value >= Rank::kNone || rank.tier() > best_tier) continue;
    const bool whole_room = table_->on_demand.everything().whole_room_said(query, thing);
    const bool better = rank.tier() < best_tier || (whole_room && !room_said);
    if (better) things.clear(), room_said = whole_room;
    best_tier = rank.tier();
    if (whole_room == room_said) things.push_back(thing.thing);
  }
  if (things.empty())
    for (const Match& match : find(words, wanted).best) things.push_back(match.thing);
  if (!things.empty() || !wanted.has(ThingKind::breaker)) return things;
  bool says_main = false;
  const MatchResult panels = [&] {
    std::string text;
    for (const Word& word : without_main_words(words, says_main)) text += word.text + " ";
    return find(text, {ThingKind::panel});
  }();
  for (const Breaker& breaker : house_->breakers)
    if (panels.best.size() == 1 && breaker.panel.value == panels.best[0].thing.id) things.push_back(thing_of(breaker));
  return things;
}

std::string Names::name_of(const ThingRef& thing) const {
  const bool numbered = Kinds{ThingKind::panel, ThingKind::breaker, ThingKind::position}.has(thing.kind);
  const Called* called = (numbered ? table_->on_demand.numbered() : table_->on_demand.everything()).row_of(thing);
  return called == nullptr ? "nothing" : called->name;
}

std::string Names::name_of(const HandleRef& handle) const {
  switch (handle.kind) {
    case HandleKind::main: return name_of(ThingRef{ThingKind::panel, handle.id}) + " main breaker";
    case HandleKind::breaker: return name_of(ThingRef{ThingKind::breaker, handle.id});
    case HandleKind::position: return name_of(ThingRef{ThingKind::position, handle.id});
    case HandleKind::position_breaker: return name_of(ThingRef{ThingKind::position, handle.id}) + " breaker";
    case HandleKind::device: return name_of(ThingRef{ThingKind::handle, handle.id});
    case HandleKind::none: break;
  }
  return "nothing";
}

}  // namespace ohmstead
