// The old directory of an invented house.

#include <algorithm>
#include <map>

#include "tests/trace/world_parts.h"

namespace ohmstead::test {

namespace {

/// What people write beside a breaker that feeds one thing.
const char* word_for(const std::string& kind) {
  static const std::map<std::string, const char*> words = {
      {"ac_condenser", "a/c"}, {"dishwasher", "dishwasher"}, {"dryer", "dryer"}, {"microwave_receptacle", "microwave"}, {"range", "range"},
      {"water_heater", "water heater"}, {"furnace", "furnace"}, {"fridge_receptacle", "fridge"}, {"freezer_receptacle", "freezer"},
      {"opener_receptacle", "opener"}, {"smoke_alarm", "smoke alarms"}, {"attic_fan", "attic fan"}, {"floor_heat", "bath floor heat"},
      {"air_handler", "air handler"}, {"range_hood", "range hood"}, {"well_pump", "well pump"}, {"disposal", "disposal"}, {"oven", "oven"},
      {"sump_pump", "sump pump"}, {"ev_charger", "car charger"}, {"hot_tub", "hot tub"}, {"baseboard", "heat"}, {"boiler", "boiler"}};
  const auto found = words.find(kind);
  return found == words.end() ? nullptr : found->second;
}

}  // namespace

std::vector<int> WorldBuilder::rooms_on(const Wiring& wiring) const {
  std::vector<int> rooms;
  for (const int p : wiring.points)
    if (std::ranges::find(rooms, point(p).room) == rooms.end()) rooms.push_back(point(p).room);
  const auto how_many = [&](int r) { return std::ranges::count_if(wiring.points, [&](int p) { return point(p).room == r; }); };
  std::ranges::stable_sort(rooms, [&](int a, int b) { return how_many(a) > how_many(b); });
  return rooms;
}

/// The thing itself, or up to three rooms, those with most points first.
std::string WorldBuilder::right_label(const Wiring& wiring) {
  if (wiring.feeds_panel > 0) return "subpanel";
  if (wiring.points.empty()) return "spare";
  const std::string& kind = point(wiring.points.front()).kind;
  const auto all = [&](auto what) { return std::ranges::all_of(wiring.points, [&](int p) { return what(point(p)); }); };
  if (word_for(kind) != nullptr && all([&](const WorldPoint& p) { return p.kind == kind; })) return word_for(kind);
  const auto rooms = rooms_on(wiring);
  const auto named = std::min(rooms.size(), rooms.size() == 2 ? 2U : static_cast<std::size_t>(chance_.between(2, 3)));
  std::string text;
  for (std::size_t i = 0; i < named; ++i) text += (i == 0 ? "" : " & ") + room(rooms[i]).name;
  if (!chance_.percent(65)) return text;
  if (all([](const WorldPoint& p) { return p.is == PointClass::light || p.is == PointClass::smoke_alarm; })) return text + " lights";
  if (all([](const WorldPoint& p) { return p.is == PointClass::receptacle; }))
    return text + (world_.system == VoltageSystem::single_230 ? " sockets" : " outlets");
  return text;
}

/// Says little, and not always what is so.
std::string WorldBuilder::vague_label() {
  static const char* const words[] = {"outlets", "misc", "main floor", "lights", "upstairs", "downstairs"};
  return words[chance_.pick({46, 24, 18, 10, 1, 1})];
}

bool WorldBuilder::have_nothing_in_common(const Wiring& a, const Wiring& b) const {
  return std::ranges::none_of(a.points, [&](int p) {
    return std::ranges::any_of(b.points, [&](int q) {
      return point(p).room == point(q).room || (word_for(point(p).kind) != nullptr && point(p).kind == point(q).kind);
    });
  });
}

/// What is right for another circuit, or for something long gone.
std::string WorldBuilder::stale_label(std::size_t circuit) {
  const Wiring& here = circuits_[circuit];
  const int gone = here.points.empty() ? 45 : 13;
  for (int tries = 0; tries < 100 && !chance_.percent(gone); ++tries) {
    const Wiring& other = chance_.any(circuits_);
    if (!other.points.empty() && &other != &here && have_nothing_in_common(here, other)) return right_label(other);
  }
  return "old shed";
}

void WorldBuilder::labels() {
  const int share = chance_.between(45, 75);
  for (std::size_t c = 0; c < circuits_.size(); ++c) {
    Wiring& circuit = circuits_[c];
    const bool spare = circuit.points.empty() && circuit.feeds_panel == 0;
    if (!chance_.percent(spare ? 27 : share)) continue;
    constexpr LabelStatus kinds[] = {LabelStatus::right, LabelStatus::stale, LabelStatus::vague};
    circuit.status = spare ? LabelStatus::stale : kinds[chance_.pick({78, 12, 10})];
    circuit.label = circuit.status == LabelStatus::right   ? right_label(circuit)
                    : circuit.status == LabelStatus::stale ? stale_label(c)
                                                           : vague_label();
  }
}

void WorldBuilder::wrong_labels() {
  const int share = chance_.between(45, 75);
  for (std::size_t c = 0; c < circuits_.size(); ++c)
    if (chance_.percent(share)) circuits_[c].status = LabelStatus::stale, circuits_[c].label = stale_label(c);
}

}  // namespace ohmstead::test
