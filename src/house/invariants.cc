#include "house/invariants.h"

#include <algorithm>
#include <concepts>
#include <map>
#include <set>

#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

constexpr int kMostSpaces = 200;
constexpr int kMostAmps = 2000;
constexpr int kMostWatts = 1'000'000;

template <class T>
struct IsId : std::false_type {};
template <class Row>
struct IsId<Id<Row>> : std::true_type {};

/// Collects problems; `at` is the path of the row being looked at.
class Report {
 public:
  explicit Report(const House& house) : house_(house) {
    for_each_table(house, [&](const auto& table) {
      for (const auto& row : table) ids_.insert({row.kTable, row.id.value});
    });
  }
  void at(const char* table, std::size_t index) { path_ = std::string(table) + "[" + std::to_string(index) + "]"; }
  void at_dwelling() { path_ = "dwelling"; }
  void add(const std::string& field, const std::string& message) {
    problems_.push_back({field.empty() ? path_ : path_ + "." + field, message});
  }
  [[nodiscard]] bool has(const char* table, std::uint64_t id) const { return ids_.contains({table, id}); }
  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] std::vector<Problem> take() { return std::move(problems_); }

 private:
  const House& house_;
  std::set<std::pair<std::string, std::uint64_t>> ids_;
  std::string path_;
  std::vector<Problem> problems_;
};

const char* table_of_handle(HandleKind kind) {
  switch (kind) {
    case HandleKind::main: return Panel::kTable;
    case HandleKind::breaker: return Breaker::kTable;
    case HandleKind::position:
    case HandleKind::position_breaker: return Position::kTable;
    case HandleKind::device: return Handle::kTable;
    case HandleKind::none: break;
  }
  return "";
}

/// Checks that hold of a field by its type alone: references lead somewhere, text is bounded.
struct FieldCheck {
  Report& report;
  std::size_t longest;
  bool own_id = true;

  template <class Row>
  void operator()(const char* name, const Id<Row>& id) {
    if (own_id) {
      own_id = false;
      if (!id) report.add(name, "A row has no id.");
      return;
    }
    if (id && !report.has(Row::kTable, id.value))
      report.add(name, std::string("It names a ") + Row::kTable + " that is not in the house: '" + id.text() + "'.");
  }
  void operator()(const char* name, const std::string& text) {
    if (text.size() > longest)
      report.add(name, "The text is " + std::to_string(text.size()) + " bytes long; at most " +
                           std::to_string(longest) + " are kept.");
    if (text.find('\0') != std::string::npos) report.add(name, "The text holds a zero byte.");
  }
  void operator()(const char* name, const HandleRef& ref) {
    if (!ref || !report.has(table_of_handle(ref.kind), ref.id))
      report.add(name, "It names a handle that is not in the house.");
  }
  void operator()(const char* name, const ThingRef& ref) {
    if (ref.kind != ThingKind::house && !report.has(std::string(text_of(ref.kind)).c_str(), ref.id))
      report.add(name, "It names a thing that is not in the house.");
  }
  template <class T>
  void operator()(const char*, const T&) {}
};

void check_range(Report& report, const char* field, int value, int low, int high) {
  if (value < low || value > high)
    report.add(field, std::string(field) + " is " + std::to_string(value) + "; it must be from " +
                          std::to_string(low) + " to " + std::to_string(high) + ".");
}

void check_name(Report& report, const std::string& name) {
  if (name.empty()) report.add("name", "A name is missing.");
}

void check_row(Report& report, const Floor& floor) {
  check_name(report, floor.name);
  check_range(report, "level", floor.level, -20, 200);
}

void check_row(Report& report, const Room& room) {
  check_name(report, room.name);
  if (!room.floor) report.add("floor", "Room '" + room.name + "' is on no floor.");
  check_range(report, "width_cm", room.width_cm, 0, 100'000);
  check_range(report, "depth_cm", room.depth_cm, 0, 100'000);
  check_range(report, "left_cm", room.left_cm, -100'000, 100'000);
  check_range(report, "top_cm", room.top_cm, -100'000, 100'000);
}

void check_row(Report& report, const Walk& walk) {
  if (!walk.from || !walk.to || walk.from == walk.to) report.add("", "A walking time needs two different rooms.");
  check_range(report, "seconds", walk.seconds, 0, 3600);
}

void check_row(Report& report, const Box& box) {
  if (!box.room) report.add("room", "Box '" + box.name + "' is in no room.");
}

void check_row(Report& report, const Passing& passing) {
  if (!passing.box || !passing.breaker) report.add("", "A conductor passing through needs a box and a breaker.");
  const Breaker* breaker = find_row(report.house(), passing.breaker);
  check_range(report, "pole", passing.pole, 1, breaker == nullptr ? 3 : breaker->poles);
}

void check_row(Report& report, const Source& source) {
  check_name(report, source.name);
  check_range(report, "running_watts", source.running_watts, 0, kMostWatts);
  check_range(report, "starting_watts", source.starting_watts, 0, kMostWatts);
  if (source.starting_watts != 0 && source.starting_watts < source.running_watts)
    report.add("starting_watts", "Source '" + source.name + "' gives fewer watts for starting than for running.");
}

/// Does the panel's supply lead back to itself through feeder breakers?
bool feeds_itself(const House& house, const Panel& panel) {
  const Panel* at = &panel;
  for (std::size_t steps = 0; at != nullptr && steps <= house.panels.size(); ++steps) {
    Id<Breaker> feeder = at->supply == Supply::breaker ? at->feeder : Id<Breaker>{};
    if (at->supply == Supply::position)
      if (const Position* position = find_row(house, at->position)) feeder = position->breaker;
    const Breaker* breaker = find_row(house, feeder);
    if (breaker == nullptr) return false;
    at = find_row(house, breaker->panel);
    if (at == &panel) return true;
  }
  return at != nullptr;
}

void check_row(Report& report, const Panel& panel) {
  check_name(report, panel.name);
  check_range(report, "spaces", panel.spaces, 1, kMostSpaces);
  check_range(report, "main_amps", panel.main_amps, 0, kMostAmps);
  if (panel.supply == Supply::breaker && !panel.feeder)
    report.add("feeder", "Panel '" + panel.name + "' is fed by a breaker, but by which one is missing.");
  if (panel.supply == Supply::position && !panel.position)
    report.add("position", "Panel '" + panel.name + "' is fed by a transfer position, but by which one is missing.");
  if (feeds_itself(report.house(), panel))
    report.add("supply", "Panel '" + panel.name + "' feeds itself: follow its feeder and you come back to it.");
}

void check_row(Report& report, const Breaker& breaker) {
  check_range(report, "poles", breaker.poles, 1, 3);
  check_range(report, "amps", breaker.amps, 0, kMostAmps);
  const Panel* panel = find_row(report.house(), breaker.panel);
  if (panel == nullptr) return report.add("panel", "A breaker is in no panel.");
  const std::string name = "Breaker " + breaker_number(*panel, breaker) + " of panel '" + panel->name + "'";
  if (!place_of(*panel, breaker.space))
    return report.add("space", name + ": the panel has spaces 1 to " + std::to_string(panel->spaces) + " only.");
  const auto places = pole_places(*panel, breaker);
  if (static_cast<int>(places.size()) < breaker.poles)
    return report.add("space", name + " runs out of the panel: there is no space below " +
                                   std::to_string(places.back().space) + ".");
  const int legs = panel_legs(report.house(), *panel);
  std::set<int> used;
  for (const PolePlace& place : places) used.insert(bus_leg(*panel, place.space, legs));
  if (static_cast<int>(used.size()) < std::min(breaker.poles, legs))
    report.add("poles", name + " has two poles on one leg.");
  if (breaker.poles > 1 && legs == 1 && leg_count(report.house().dwelling.system) > 1)
    report.add("poles", name + " has " + std::to_string(breaker.poles) + " poles on one leg: the panel is fed with one leg only.");
}

void check_row(Report& report, const Circuit& circuit) {
  if (!circuit.breaker) report.add("breaker", "A circuit has no breaker.");
  check_range(report, "length_m", circuit.length_m, 0, 10'000);
}

void check_row(Report& report, const TransferDevice& device) {
  check_name(report, device.name);
  if (!device.source) report.add("source", "Transfer device '" + device.name + "' has no source.");
}

void check_row(Report& report, const Position& position) {
  const House& house = report.house();
  const TransferDevice* device = find_row(house, position.device);
  if (device == nullptr) return report.add("device", "A position is in no transfer device.");
  check_range(report, "number", position.number, 1, 200);
  check_range(report, "amps", position.amps, 0, kMostAmps);
  check_range(report, "leg", position.leg, 1, leg_count(house.dwelling.system));
  const Breaker* breaker = find_row(house, position.breaker);
  const bool whole = device->kind == TransferKind::whole_house;
  if (whole && position.breaker)
    report.add("breaker", "Position " + std::to_string(position.number) + " of a whole-house device carries a leg of the utility, not a breaker.");
  const int most = whole ? leg_count(house.dwelling.system) : breaker == nullptr ? 3 : breaker->poles;
  check_range(report, "pole", position.pole, 1, most);
}

void check_row(Report& report, const Interlock& interlock) {
  for (const HandleRef& ref : {interlock.first, interlock.second})
    if (ref.kind != HandleKind::main && ref.kind != HandleKind::breaker)
      report.add("", "An interlock joins main or branch breakers only.");
  if (interlock.first == interlock.second) report.add("", "An interlock needs two different handles.");
}

bool stands_behind_itself(const House& house, const Device& device) {
  const Device* at = &device;
  for (std::size_t steps = 0; steps <= house.devices.size(); ++steps) {
    at = find_row(house, at->behind);
    if (at == nullptr) return false;
    if (at == &device) return true;
  }
  return true;
}

void check_row(Report& report, const Device& device) {
  check_name(report, device.name);
  check_range(report, "poles", device.poles, 1, 3);
  if (stands_behind_itself(report.house(), device))
    report.add("behind", "Device '" + device.name + "' stands behind itself.");
  const auto handles = std::ranges::count(report.house().handles, device.id, &Handle::device);
  if (handles == 0) report.add("", "Device '" + device.name + "' has no handle.");
  if (handles > 1 && device.kind != DeviceKind::wall_switch)
    report.add("", "Device '" + device.name + "' has more than one handle; only a group of wall switches may.");
  if (handles > 1 && device.poles > 1)
    report.add("poles", "A group of wall switches ('" + device.name + "') switches one hot conductor.");
  if (const Point* point = find_row(report.house(), device.at_point); point != nullptr && point->behind != device.id)
    report.add("at_point", "The receptacle that device '" + device.name + "' is in must stand behind it.");
}

void check_row(Report& report, const Handle& handle) {
  if (!handle.device) report.add("device", "A handle belongs to no device.");
}

void check_row(Report& report, const Point& point) {
  check_name(report, point.name);
  if (!point.room) report.add("room", "Point '" + point.name + "' is in no room.");
  check_range(report, "hots", point.hots, 1, 3);
  if (point.mate) {
    const Point* mate = find_row(report.house(), point.mate);
    if (mate != nullptr && (mate->mate != point.id || mate == &point))
      report.add("mate", "The halves of split receptacle '" + point.name + "' do not name each other.");
  }
}

void check_row(Report& report, const Load& load) {
  if (!load.point) report.add("point", "Load '" + load.name + "' is at no point.");
  const int running = load.running_watts.value_or(0);
  check_range(report, "running_watts", running, 0, kMostWatts);
  check_range(report, "starting_watts", load.starting_watts.value_or(0), 0, kMostWatts);
  check_range(report, "duty_percent", load.duty_percent.value_or(0), 0, 100);
  if (load.starting_watts && *load.starting_watts < running)
    report.add("starting_watts", "Load '" + load.name + "' needs fewer watts to start than to run.");
}

void check_row(Report& report, const DeclaredFeed& feed) {
  const House& house = report.house();
  if (bool(feed.point) == bool(feed.device)) report.add("", "A declared feed names one point or one device.");
  const Breaker* breaker = find_row(house, feed.breaker);
  if (breaker == nullptr) return report.add("breaker", "A declared feed names no breaker.");
  check_range(report, "pole", feed.pole, 1, breaker->poles);
  const Point* point = find_row(house, feed.point);
  const Device* device = find_row(house, feed.device);
  check_range(report, "hot", feed.hot, 1, point != nullptr ? point->hots : device != nullptr ? device->poles : 3);
  if (point != nullptr && point->behind)
    report.add("point", "Point '" + point->name + "' stands behind a device: declare the feed of the device.");
  if (device != nullptr && device->behind)
    report.add("device", "Device '" + device->name + "' stands behind another: declare the feed of that one.");
}

void check_row(Report& report, const Opened& opened) {
  if (!opened.round) report.add("round", "An opened handle belongs to no round.");
}

void check_row(Report& report, const Observation& observation) {
  if (!observation.round || !observation.point) report.add("", "An observation needs a round and a point.");
}

void check_row(Report& report, const Setting& setting) { check_name(report, setting.name); }
void check_row(Report&, const Round&) {}
void check_row(Report&, const Note&) {}

template <class Row>
void check_fields(Report& report, const Row& row) {
  constexpr bool is_note = std::is_same_v<Row, Note>;
  Row::fields(row, FieldCheck{report, is_note ? kLongestNote : kLongestName});
}

/// No two rows of a table may share `key`; `what` says what they share.
template <class Row, class Key>
void check_unique(Report& report, const std::vector<Row>& table, const Key& key, const char* field) {
  std::map<decltype(key(table[0])), std::size_t> seen;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto [first, fresh] = seen.emplace(key(table[i]), i);
    if (fresh) continue;
    report.at(Row::kTable, i);
    report.add(field, std::string("It has the same ") + field + " as " + Row::kTable + "[" +
                          std::to_string(first->second) + "].");
  }
}

void check_spaces_taken_once(Report& report) {
  const House& house = report.house();
  std::map<std::pair<Id<Panel>, PolePlace>, std::size_t> taken;
  const Index<Panel> panel_at(house.panels);
  for (std::size_t i = 0; i < house.breakers.size(); ++i) {
    const Breaker& breaker = house.breakers[i];
    const long at = panel_at.at(breaker.panel);
    if (at < 0) continue;
    const Panel& panel = house.panels[static_cast<std::size_t>(at)];
    report.at(Breaker::kTable, i);
    for (const PolePlace& place : pole_places(panel, breaker)) {
      const auto clash = [&](Half half) { return taken.contains({panel.id, {place.space, half}}); };
      const bool occupied = place.half == Half::whole ? clash(Half::whole) || clash(Half::a) || clash(Half::b)
                                                      : clash(Half::whole) || clash(place.half);
      if (occupied)
        report.add("space", "Two breakers are in space " + std::to_string(place.space) + " of panel '" + panel.name + "'.");
      taken.emplace(std::pair{panel.id, place}, i);
    }
  }
}

/// Are the places of all breakers of a tie one unbroken run down one column?
bool is_one_run(const Panel& panel, const std::vector<PolePlace>& places) {
  std::set<PanelPlace> rows;
  for (const PolePlace& place : places)
    if (const auto at = place_of(panel, place.space)) rows.insert(*at);
  if (rows.empty()) return false;
  return rows.begin()->column == rows.rbegin()->column &&
         rows.rbegin()->row - rows.begin()->row + 1 == static_cast<int>(rows.size());
}

void check_breaker_ties(Report& report) {
  const House& house = report.house();
  std::map<Id<Breaker>, std::vector<std::size_t>> ties;
  for (std::size_t i = 0; i < house.breakers.size(); ++i)
    if (house.breakers[i].tie) ties[house.breakers[i].tie].push_back(i);
  for (const auto& [tie, members] : ties) {
    report.at(Breaker::kTable, members.front());
    if (members.size() < 2) report.add("tie", "A handle tie joins at least two breakers.");
    if (std::ranges::none_of(members, [&](std::size_t i) { return house.breakers[i].id == tie; }))
      report.add("tie", "A handle tie carries the id of one of its own breakers.");
    const Panel* panel = find_row(house, house.breakers[members.front()].panel);
    if (panel == nullptr) continue;
    std::vector<PolePlace> places;
    bool one_panel = true;
    for (const std::size_t i : members) {
      one_panel = one_panel && house.breakers[i].panel == panel->id;
      std::ranges::copy(pole_places(*panel, house.breakers[i]), std::back_inserter(places));
    }
    if (!one_panel || !is_one_run(*panel, places))
      report.add("tie", "A handle tie joins breakers that are not neighbours in one column of one panel.");
  }
}

void check_position_ties(Report& report) {
  const House& house = report.house();
  std::map<std::pair<Id<Breaker>, int>, std::size_t> carried;
  for (std::size_t i = 0; i < house.positions.size(); ++i) {
    const Position& position = house.positions[i];
    report.at(Position::kTable, i);
    if (position.tie) {
      const Position* first = find_row(house, position.tie);
      if (first != nullptr && (first->device != position.device || first->tie != first->id))
        report.add("tie", "Tied positions are in one device, and the tie is named after one of them.");
    }
    if (position.breaker && !carried.emplace(std::pair{position.breaker, position.pole}, i).second)
      report.add("breaker", "Two positions carry the same pole of one breaker.");
  }
}

template <class Row>
void check_table(Report& report, const std::vector<Row>& table) {
  for (std::size_t i = 0; i < table.size(); ++i) {
    report.at(Row::kTable, i);
    check_fields(report, table[i]);
    check_row(report, table[i]);
  }
}

}  // namespace

std::vector<Problem> problems_of(const House& house) {
  Report report(house);
  report.at_dwelling();
  Dwelling::fields(house.dwelling, FieldCheck{report, kLongestName});
  for_each_table(house, [&](const auto& table) {
    check_unique(report, table, [](const auto& row) { return row.id; }, "id");
    check_table(report, table);
  });
  const auto both = [](auto first, auto second) { return std::pair{first, second}; };
  check_unique(report, house.rooms, [&](const Room& r) { return both(r.floor, r.name); }, "name");
  check_unique(report, house.points, [&](const Point& p) { return both(p.room, p.name); }, "name");
  check_unique(report, house.panels, [](const Panel& p) { return p.name; }, "name");
  check_unique(report, house.circuits, [](const Circuit& c) { return c.breaker; }, "breaker");
  check_unique(report, house.positions, [&](const Position& p) { return both(p.device, p.number); }, "number");
  check_unique(report, house.settings, [](const Setting& s) { return s.name; }, "name");
  check_spaces_taken_once(report);
  check_breaker_ties(report);
  check_position_ties(report);
  return report.take();
}

void require_sound(const House& house) {
  const auto problems = problems_of(house);
  if (!problems.empty())
    throw Error(ErrorKind::invalid_input, problems.front().path + ": " + problems.front().message);
}

}  // namespace ohmstead
