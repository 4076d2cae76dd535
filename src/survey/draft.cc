#include "survey/draft.h"

#include <algorithm>

#include "house/index.h"
#include "house/invariants.h"
#include "house/numbering.h"
#include "survey/entry.h"
#include "survey/space_words.h"

namespace ohmstead::entry_detail {

Draft::Draft(const House& before) : house(before) {
  if (!house.dwelling.id) house.dwelling.id = Id<Dwelling>::fresh();
  for (const Room& room : house.rooms) know_room(room);
  for (const Point& point : house.points) point_names_.emplace(point.room, lower(point.name));
  for (const Box& box : house.boxes) boxes_.emplace(std::pair{box.room, lower(box.name)}, box.id);
  const Index<Device> device_at(house.devices);
  for (const Handle& handle : house.handles) {
    const long device_place = device_at.at(handle.device);
    if (device_place < 0) continue;
    for (const std::string& name : {handle.name, house.devices[static_cast<std::size_t>(device_place)].name}) {
      auto& known = devices_[{handle.room, lower(name)}];
      if (std::ranges::find(known, handle.device) == known.end()) known.push_back(handle.device);
    }
  }
  line = 0;
  rows_belong_to_line();
}

void Draft::know_room(const Room& made) {
  rooms_[lower(made.name)].push_back(made.id);
  const Floor* its_floor = find_row(house, made.floor);
  if (its_floor != nullptr) rooms_[lower(its_floor->name + " " + made.name)].push_back(made.id);
  room_names_.emplace(made.id, made.name);
}

Id<Floor> Draft::add_floor(const std::string& name, int level) {
  for (const Floor& known : house.floors)
    if (lower(known.name) == lower(name) && lower(known.building) == lower(building)) return known.id;
  if (house.floors.size() >= kMostEntryRooms) fail("there are too many floors.");
  house.floors.push_back({Id<Floor>::fresh(), name, building, level});
  return house.floors.back().id;
}

Id<Room> Draft::room_for_line(const std::string& name) {
  if (!floor && building.empty()) {
    const auto known = rooms_named(name);
    if (known.size() == 1) return known.front();
    if (known.size() > 1) fail("there are several rooms called " + shown(name) + "; write its floor on a line above ('Floor NAME').");
    floor = house.floors.empty() ? add_floor("Ground", 0) : house.floors.front().id;
  }
  if (!floor) floor = add_floor(building, 0);
  for (const Id<Room> known : rooms_named(name))
    if (row(house, known).floor == floor) return known;
  if (house.rooms.size() >= kMostEntryRooms) fail("there are more than " + std::to_string(kMostEntryRooms) + " rooms.");
  house.rooms.push_back({.id = Id<Room>::fresh(), .floor = floor, .name = name});
  know_room(house.rooms.back());
  return house.rooms.back().id;
}

std::vector<Id<Room>> Draft::rooms_named(const std::string& name) const {
  const auto found = rooms_.find(lower(name));
  return found == rooms_.end() ? std::vector<Id<Room>>() : found->second;
}

bool Draft::has_room(const std::string& name) const { return !rooms_named(name).empty(); }

Id<Room> Draft::room(const std::string& name) const {
  const auto known = rooms_named(name);
  if (known.empty()) fail("there is no room " + shown(name) + "; write a line for it, such as '" + "Hall: 1 light'.");
  if (known.size() > 1) fail("there are several rooms " + shown(name) + "; put the floor in front of the name.");
  return known.front();
}

Id<Room> Draft::room_at(const std::vector<Word>& words, std::size_t& first) const {
  constexpr std::size_t kLongest = 8;  // words of a room's name
  for (std::size_t end = std::min(words.size(), first + kLongest); end > first; --end) {
    if (!has_room(joined(words, first, end))) continue;
    const Id<Room> found = room(joined(words, first, end));
    first = end;
    return found;
  }
  if (first >= words.size()) fail("the name of a room is missing at the end.");
  return room(joined(words, first, first + kLongest));
}

const std::string& Draft::name_of(Id<Room> of) const { return room_names_.at(of); }

bool Draft::point_name_taken(Id<Room> in, const std::string& name) const {
  return point_names_.contains({in, lower(name)});
}

Id<Point> Draft::add_point(Point point) {
  if (house.points.size() >= kMostEntryPoints) fail("there are more than " + std::to_string(kMostEntryPoints) + " points.");
  point.id = Id<Point>::fresh();
  point_names_.emplace(point.room, lower(point.name));
  house.points.push_back(point);
  return point.id;
}

Id<Box> Draft::add_box(Id<Room> in, const std::string& name) {
  house.boxes.push_back({Id<Box>::fresh(), in, name});
  boxes_.emplace(std::pair{in, lower(name)}, house.boxes.back().id);
  return house.boxes.back().id;
}

Id<Box> Draft::shared_box(Id<Room> in, const std::string& name) {
  const auto known = boxes_.find({in, lower(name)});
  return known == boxes_.end() ? add_box(in, name) : known->second;
}

std::string Draft::free_handle_name(Id<Room> in, const std::string& base) const {
  std::string name = base;
  for (int number = 2; devices_.contains({in, lower(name)}); ++number) name = base + " " + std::to_string(number);
  return name;
}

Id<Device> Draft::add_device(Device device, const std::vector<Handle>& handles) {
  device.id = Id<Device>::fresh();
  for (Handle handle : handles) {
    handle.id = Id<Handle>::fresh();
    handle.device = device.id;
    for (const std::string& name : {device.name, handle.name}) {
      auto& known = devices_[{handle.room, lower(name)}];
      if (std::ranges::find(known, device.id) == known.end()) known.push_back(device.id);
    }
    house.handles.push_back(handle);
  }
  house.devices.push_back(device);
  return device.id;
}

std::vector<Id<Device>> Draft::devices_named(Id<Room> in, const std::string& name) const {
  const auto found = devices_.find({in, lower(name)});
  return found == devices_.end() ? std::vector<Id<Device>>() : found->second;
}

Id<Device> Draft::device(Id<Room> here, const std::string& name) const {
  std::vector<Id<Device>> found = devices_named(here, name);
  for (std::size_t cut = name.find(' '); found.empty() && cut != std::string::npos; cut = name.find(' ', cut + 1)) {
    for (const Id<Room> in : rooms_named(name.substr(0, cut)))
      for (const Id<Device> one : devices_named(in, name.substr(cut + 1))) found.push_back(one);
  }
  if (found.empty())
    fail("there is no switch, GFCI or disconnect " + shown(name) + " yet; write it on a line above, or name its room ('Bath gfci').");
  if (found.size() > 1) fail("several devices are called " + shown(name) + "; name its room, or give it a name in quotes.");
  return found.front();
}

Panel* Draft::panel(const std::string& name) {
  for (Panel& known : house.panels)
    if (lower(known.name) == lower(name)) return &known;
  return nullptr;
}

const Panel& Draft::panel_before_last(const std::vector<Word>& words, const std::string& all) const {
  const std::string name = joined(words, 0, words.size() - 1);
  if (name.empty() && house.panels.size() == 1) return house.panels.front();
  if (name.empty()) fail("which panel is meant by " + shown(all) + "? Write its name in front, as in 'Main 9'.");
  for (const Panel& known : house.panels)
    if (lower(known.name) == lower(name)) return known;
  fail("there is no panel " + shown(name) + "; write a line for it, such as 'Panel Main 20 spaces'.");
}

BreakerAt Draft::breaker(const std::string& text) const {
  std::vector<Word> words = words_of(line, text, "");
  BreakerAt result;
  if (words.size() > 2 && words[words.size() - 2].is("pole")) {
    const auto pole = whole_number(words.back().text);
    if (!pole || *pole < 1 || *pole > 3) fail("after 'pole' a number from 1 to 3 is expected, not " + shown(words.back().text) + ".");
    result.pole = *pole;
    words.resize(words.size() - 2);
  }
  if (words.empty()) fail("a breaker is expected, such as 'Main 9'.");
  const Panel& in = panel_before_last(words, text);
  const auto places = parse_places(words.back().text);
  if (!places) fail(shown(words.back().text) + " is not the number of a breaker; expected is one like 9, 2+4 or 5a.");
  for (const Breaker& known : house.breakers) {
    if (known.panel != in.id) continue;
    const auto own = pole_places(in, known);
    const bool covers = std::ranges::all_of(*places, [&](const PolePlace& p) { return std::ranges::find(own, p) != own.end(); });
    if (!covers || (places->size() > 1 && places->size() != own.size())) continue;
    if (result.pole > known.poles) fail("breaker " + shown(text) + " has no pole " + std::to_string(result.pole) + ".");
    result.breaker = known.id;
    return result;
  }
  fail("panel " + shown(in.name) + " has no breaker " + shown(words.back().text) + "; write it on the panel's line.");
}

Id<Source> Draft::source_at(const std::vector<Word>& words, std::size_t& first) const {
  for (std::size_t end = std::min(words.size(), first + 8); end > first; --end) {
    std::string name = joined(words, first, end);
    if (name.ends_with(',')) name.pop_back();
    for (const Source& known : house.sources)
      if (lower(known.name) == lower(name)) {
        first = end;
        return known.id;
      }
  }
  fail("there is no source " + shown(joined(words, first, first + 3)) + "; write a line for it, such as 'Generator G 3500/4500 W'.");
}

HandleRef Draft::handle(const std::string& text) const {
  const std::vector<Word> words = words_of(line, text, "");
  if (words.empty()) fail("a breaker or a main is expected.");
  if (words.back().is("main")) return {HandleKind::main, panel_before_last(words, text).id.value};
  return {HandleKind::breaker, breaker(text).breaker.value};
}

void Draft::rows_belong_to_line() {
  for_each_table(house, [&](const auto& table) {
    using Row = std::decay_t<decltype(table)>::value_type;
    lines_of_rows_[Row::kTable].resize(table.size(), line);
  });
}

void Draft::require_sound_lines() const {
  const auto problems = problems_of(house);
  if (problems.empty()) return;
  const Problem& first = problems.front();
  const std::size_t open = first.path.find('['), close = first.path.find(']');
  if (open == std::string::npos || close == std::string::npos) throw Error(ErrorKind::invalid_input, first.message);
  const auto lines = lines_of_rows_.find(first.path.substr(0, open));
  const auto index = whole_number(std::string_view(first.path).substr(open + 1, close - open - 1));
  if (lines == lines_of_rows_.end() || !index || static_cast<std::size_t>(*index) >= lines->second.size() ||
      lines->second[static_cast<std::size_t>(*index)] == 0)
    throw Error(ErrorKind::invalid_input, first.path + ": " + first.message);
  throw refusal(lines->second[static_cast<std::size_t>(*index)], first.message);
}

}  // namespace ohmstead::entry_detail
