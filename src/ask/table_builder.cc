#include "ask/table_builder.h"

#include <set>

#include "ask/printable.h"
#include "house/numbering.h"

namespace ohmstead::ask_detail {

namespace {

template <class Row>
const Row* row_at(const std::vector<Row>& table, long at) {
  return at < 0 ? nullptr : &table[static_cast<std::size_t>(at)];
}

template <class Row>
ThingRef ref(ThingKind kind, const Row& row) {
  return {kind, row.id.value};
}

/// Does `text` say `word` already, capitals aside?
bool says(std::string_view text, std::string_view word) { return folded(text).find(word) != std::string::npos; }

std::string with_kind(const std::string& name, const std::string& kind) {
  return says(name, folded(kind)) ? name : name + " " + kind;
}

std::string_view kind_words(PointKind kind) {
  switch (kind) {
    case PointKind::receptacle: return "receptacle point";
    case PointKind::light: return "light point";
    case PointKind::alarm: return "alarm point";
    case PointKind::fan: return "fan point";
    case PointKind::appliance: return "appliance point";
    case PointKind::other: break;
  }
  return "point";
}

std::string_view kind_words(DeviceKind kind) {
  switch (kind) {
    case DeviceKind::wall_switch: return "switch";
    case DeviceKind::gfci_receptacle: return "gfci receptacle";
    case DeviceKind::disconnect: break;
  }
  return "disconnect switch";
}

std::string in_building(const Floor& floor) {
  const bool plain = floor.building.empty() || says(floor.name, folded(floor.building));
  return plain ? floor.name : floor.building + " " + floor.name;
}

std::string level_words(const Floor& floor) {
  if (floor.level > 0) return "upstairs upper floor";
  return floor.level < 0 ? "basement lower floor" : "ground downstairs floor";
}

}  // namespace

TableBuilder::TableBuilder(const House& house, NameTable& table)
    : house_(house), table_(table), room_at_(house.rooms), floor_at_(house.floors), panel_at_(house.panels),
      breaker_at_(house.breakers), point_at_(house.points), transfer_at_(house.transfer_devices) {}

void TableBuilder::build(bool numbered_only) {
  add({}, house_.dwelling.name.empty() ? "house" : house_.dwelling.name, "house home everything");
  add_places();
  add_panels();
  add_breakers();
  if (!numbered_only) {
    add_points();
    add_devices();
    add_boxes();
  }
  add_backup();
  tell_apart();
  for (std::size_t i = 0; i < table_.things_.size(); ++i) {
    Called& thing = table_.things_[i];
    thing.name = terminal::printable(thing.name);
    thing.folded_name = folded(thing.name);
    table_.at_[thing.thing.kind].emplace(thing.thing.id, i);
  }
}

std::vector<WordNo> TableBuilder::words_in(std::string_view text) {
  const auto [known, is_new] = read_.try_emplace(std::string(text));  // the same words come again and again
  std::vector<WordNo>& numbers = known->second;
  if (!is_new) return numbers;
  std::string before;
  for (const Word& word : words_of_text(text)) {
    const auto [at, fresh] = table_.word_no_.emplace(word.text, static_cast<WordNo>(table_.vocabulary_.size()));
    if (fresh) table_.vocabulary_.push_back(word);
    numbers.push_back(at->second);
    if (!before.empty() && !word.number) table_.compounds_.emplace(before + word.text, std::vector{before, word.text});
    before = word.number ? std::string() : word.text;
  }
  return numbers;
}

Called& TableBuilder::add(const ThingRef& thing, std::string_view own, std::string_view kind) {
  Called called;
  called.thing = thing;
  called.name = own;
  called.own.push_back(words_in(own));
  called.kind = words_in(kind);
  details_.emplace_back();
  table_.things_.push_back(std::move(called));
  return table_.things_.back();
}

void TableBuilder::put_in_room(Called& thing, Id<Room> room) {
  const Room* found = row_at(house_.rooms, room_at_.at(room));
  if (found == nullptr) return;
  thing.contexts.push_back(room_words_[room.value]);
  thing.contexts.push_back(words_in("room"));
  if (const Floor* floor = row_at(house_.floors, floor_at_.at(found->floor))) {
    details_[table_.things_.size() - 1] = in_building(*floor);
    thing.contexts.push_back(words_in(floor->name));
    thing.contexts.push_back(words_in(floor->building.empty() ? level_words(*floor) : floor->building + " building"));
  }
}

std::string TableBuilder::in_room(Id<Room> room, const std::string& name) const {
  const Room* found = row_at(house_.rooms, room_at_.at(room));
  if (found == nullptr || (folded(name) + " ").starts_with(folded(found->name) + " ")) return name;
  return found->name + " " + name;
}

Id<Room> TableBuilder::room_of_device(const Device& device) const {
  for (const Handle& handle : house_.handles)
    if (handle.device == device.id && handle.room) return handle.room;
  const Point* point = row_at(house_.points, point_at_.at(device.at_point));
  return point == nullptr ? Id<Room>{} : point->room;
}

void TableBuilder::add_places() {
  for (const Floor& floor : house_.floors) {
    const std::string name = in_building(floor);
    Called& called = add(ref(ThingKind::floor, floor), name, "floor level story");
    called.name = with_kind(name, "floor");
    also_called(called, floor.name);
    if (!floor.building.empty()) also_called(called, floor.building + " building");
    if (floor.building.empty()) also_called(called, floor.level > 0 ? "upstairs" : floor.level < 0 ? "basement" : "downstairs");
    called.contexts = {{}, words_in(level_words(floor))};
  }
  for (const Room& room : house_.rooms) {
    room_words_[room.id.value] = words_in(room.name);
    Called& called = add(ref(ThingKind::room, room), room.name, "room");
    if (const Floor* floor = row_at(house_.floors, floor_at_.at(room.floor))) {
      details_.back() = in_building(*floor);
      called.contexts = {{}, words_in(floor->name), words_in(floor->building.empty() ? level_words(*floor) : floor->building)};
    }
  }
}

void TableBuilder::add_panels() {
  for (const Panel& panel : house_.panels) {
    const bool first = panel.supply == Supply::utility;
    Called& called = add(ref(ThingKind::panel, panel), panel.name, first ? "panel main" : "panel subpanel");
    called.name = with_kind(panel.name, "panel");
    put_in_room(called, panel.room);
    if (called.contexts.empty()) called.contexts.emplace_back();
  }
}

void TableBuilder::add_breakers() {
  for (const Breaker& breaker : house_.breakers) {
    const Panel* panel = row_at(house_.panels, panel_at_.at(breaker.panel));
    if (panel == nullptr) continue;
    Called& called = add(ref(ThingKind::breaker, breaker), "", "");
    called.own.clear();  // found by number only
    called.name = with_kind(panel->name, "panel") + " breaker " + breaker_number(*panel, breaker);
  }
  for (const Circuit& circuit : house_.circuits) {
    const Breaker* breaker = row_at(house_.breakers, breaker_at_.at(circuit.breaker));
    const Panel* panel = breaker == nullptr ? nullptr : row_at(house_.panels, panel_at_.at(breaker->panel));
    if (panel == nullptr) continue;
    Called& called = add(ref(ThingKind::circuit, circuit), "", "");
    called.own.clear();
    called.name = with_kind(panel->name, "panel") + " circuit " + breaker_number(*panel, *breaker);
  }
}

void TableBuilder::add_points() {
  std::unordered_map<std::uint64_t, std::vector<const Load*>> loads;
  for (const Load& load : house_.loads) loads[load.point.value].push_back(&load);
  for (const Point& point : house_.points) {
    Called& called = add(ref(ThingKind::point, point), point.name, kind_words(point.kind));
    called.name = in_room(point.room, point.name);
    for (const Load* load : loads[point.id.value]) also_called(called, load->name);
    put_in_room(called, point.room);
    called.contexts.push_back(words_in(point.place));
    if (point.half != ReceptacleHalf::both) called.contexts.push_back(words_in(std::string(text_of(point.half)) + " half"));
    if (point.hots > 1) called.contexts.push_back(words_in("240 volt"));
  }
  for (const Load& load : house_.loads) {
    const Point* point = row_at(house_.points, point_at_.at(load.point));
    if (point == nullptr) continue;
    Called& called = add(ref(ThingKind::load, load), load.name, "load");
    called.name = in_room(point->room, load.name);
    put_in_room(called, point->room);
  }
}

/// A device is also called after the points behind it: "disposal switch".
void TableBuilder::serves(Called& called, const Device& device, const std::vector<std::string>& points) {
  for (const std::string& point : points)
    also_called(called, point + (device.kind == DeviceKind::gfci_receptacle ? " gfci" : " switch"));
  if (!points.empty()) details_.back() = "for " + points.front();
}

void TableBuilder::add_devices() {
  std::unordered_map<std::uint64_t, std::vector<std::string>> served;
  for (const Point& point : house_.points)
    if (point.behind) served[point.behind.value].push_back(in_room(point.room, point.name));
  std::unordered_map<std::uint64_t, const Device*> device_of;
  for (const Device& device : house_.devices) {
    device_of[device.id.value] = &device;
    const Id<Room> room = room_of_device(device);
    Called& called = add(ref(ThingKind::device, device), device.name, kind_words(device.kind));
    called.name = in_room(room, device.name);
    put_in_room(called, room);
    serves(called, device, served[device.id.value]);
  }
  for (const Handle& handle : house_.handles) {
    const auto device = device_of.find(handle.device.value);
    if (device == device_of.end()) continue;
    const std::string name = handle.name.empty() ? device->second->name : handle.name;
    Called& called = add(ref(ThingKind::handle, handle), name, kind_words(device->second->kind));
    const Id<Room> room = handle.room ? handle.room : room_of_device(*device->second);
    called.name = in_room(room, name);
    also_called(called, device->second->name);
    put_in_room(called, room);
    serves(called, *device->second, served[device->second->id.value]);
  }
}

void TableBuilder::add_boxes() {
  std::unordered_map<std::uint64_t, std::vector<const Point*>> points;
  for (const Point& point : house_.points)
    if (point.box) points[point.box.value].push_back(&point);
  for (const Box& box : house_.boxes) {
    const auto& inside = points[box.id.value];
    const std::string name = !box.name.empty() ? box.name : inside.empty() ? "box" : "box of " + inside[0]->name;
    Called& called = add(ref(ThingKind::box, box), name, "box");
    called.name = in_room(box.room, with_kind(name, "box"));
    for (const Point* point : inside) also_called(called, point->name + " box");
    put_in_room(called, box.room);
  }
}

void TableBuilder::add_backup() {
  for (const Source& source : house_.sources) {
    const bool engine = source.kind == SourceKind::generator;
    Called& called = add(ref(ThingKind::source, source), source.name, engine ? "generator source backup" : "battery inverter source backup");
    called.name = with_kind(source.name, engine ? "generator" : "battery");
  }
  for (const TransferDevice& device : house_.transfer_devices) {
    Called& called = add(ref(ThingKind::transfer_device, device), device.name, "transfer device switch");
    called.name = says(device.name, "transfer") ? device.name : device.name + " transfer device";
    put_in_room(called, device.room);
  }
  for (const Position& position : house_.positions) {
    const TransferDevice* device = row_at(house_.transfer_devices, transfer_at_.at(position.device));
    if (device == nullptr) continue;
    Called& called = add(ref(ThingKind::position, position), "", "");
    called.own.clear();
    called.name = device->name + " position " + std::to_string(position.number);
  }
}

/// Names that several things of one kind would share get what tells them apart (their floor, what
/// they switch), or else a number.
void TableBuilder::tell_apart() {
  std::map<std::pair<ThingKind, std::string>, std::vector<std::size_t>> shared;
  for (std::size_t i = 0; i < table_.things_.size(); ++i)
    shared[{table_.things_[i].thing.kind, folded(table_.things_[i].name)}].push_back(i);
  for (const auto& [key, things] : shared) {
    if (things.size() < 2) continue;
    std::set<std::string> details;
    for (const std::size_t at : things) details.insert(folded(details_[at]));
    const bool enough = details.size() == things.size() && !details.contains("");
    for (std::size_t i = 0; i < things.size(); ++i)
      table_.things_[things[i]].name += " (" + (enough ? details_[things[i]] : std::to_string(i + 1)) + ")";
  }
}

}  // namespace ohmstead::ask_detail
