// Lines that say where things are: house, floors, buildings, rooms with their rectangles, walks.

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "survey/line_kinds.h"

namespace ohmstead::entry_detail {

namespace {

bool is_system_word(const Word& word) { return word.is("120/240") || word.is("120/208") || word.is("230"); }

VoltageSystem system_of(const std::vector<Word>& words, std::size_t at) {
  if (words[at].is("230")) return VoltageSystem::single_230;
  if (words[at].is("120/240")) return VoltageSystem::split_phase_120_240;
  const bool three = at + 1 < words.size() && words[at + 1].is("3");
  return three ? VoltageSystem::wye_120_208_3 : VoltageSystem::wye_120_208;
}

/// Level of a floor whose name says it, or nothing.
std::optional<int> usual_level(const std::string& name) {
  struct Known { std::string_view word; int level; };
  constexpr Known kLevels[] = {{"basement", -1}, {"cellar", -1}, {"ground", 0}, {"main", 0}, {"first", 0},
                               {"upper", 1}, {"upstairs", 1}, {"second", 1}, {"attic", 2}, {"third", 2}};
  for (const Known& known : kLevels)
    if (lower(name) == known.word) return known.level;
  return std::nullopt;
}

std::optional<int> signed_number(std::string_view text) {
  const bool minus = text.starts_with('-');
  const auto number = whole_number(minus || text.starts_with('+') ? text.substr(1) : text);
  return number ? std::optional(minus ? -*number : *number) : std::nullopt;
}

/// "4x3.5" in centimeters, or nothing.
std::optional<std::pair<double, double>> pair_of(std::string_view text, char between) {
  const std::size_t mid = text.find(between);
  if (mid == std::string_view::npos) return std::nullopt;
  const auto signed_decimal = [](std::string_view part) -> std::optional<double> {
    const bool minus = part.starts_with('-');
    const auto value = decimal_number(minus ? part.substr(1) : part);
    return value ? std::optional(minus ? -*value : *value) : std::nullopt;
  };
  const auto first = signed_decimal(text.substr(0, mid)), second = signed_decimal(text.substr(mid + 1));
  if (!first || !second) return std::nullopt;
  return std::pair{*first, *second};
}

int centimeters(const Draft& draft, double value, double unit) {
  const double cm = value * unit;
  if (std::abs(cm) > 100'000) draft.fail("a length of " + std::to_string(std::lround(cm / 100)) + " m is too long for a plan.");
  return static_cast<int>(std::lround(cm));
}

/// Where the rectangle of a room lies: "at 0,0" or "east of Kitchen".
void place_rectangle(Draft& draft, Room& room, const std::vector<Word>& words, std::size_t at, double unit) {
  if (at >= words.size())
    draft.fail("the rectangle of " + shown(room.name) + " needs its place, as in 'at 0,0' or 'east of Hall'.");
  if (words[at].is("at")) {
    const auto corner = pair_of(joined(words, at + 1, words.size()), ',');
    if (!corner) draft.fail("behind 'at' the north-west corner is expected as EAST,SOUTH, such as 'at 4,0'.");
    room.left_cm = centimeters(draft, corner->first, unit);
    room.top_cm = centimeters(draft, corner->second, unit);
    return;
  }
  constexpr std::string_view kSides[] = {"east", "south", "west", "north"};
  const auto side = std::ranges::find_if(kSides, [&](std::string_view word) { return words[at].is(word); });
  if (side == std::end(kSides) || at + 1 >= words.size() || !words[at + 1].is("of"))
    draft.fail(shown(words[at].text) + " is not a place on the plan; expected is 'at 4,0' or 'east of Hall'.");
  std::string name = joined(words, at + 2, words.size());
  const Room* next = nullptr;
  for (const Room& known : draft.house.rooms)
    if (known.floor == room.floor && lower(known.name) == lower(name) && known.width_cm > 0) next = &known;
  if (next == nullptr) draft.fail("there is no room " + shown(name) + " with a rectangle on this floor on a line above.");
  room.left_cm = next->left_cm + (*side == "east" ? next->width_cm : *side == "west" ? -room.width_cm : 0);
  room.top_cm = next->top_cm + (*side == "south" ? next->depth_cm : *side == "north" ? -room.depth_cm : 0);
}

}  // namespace

RoomLine room_line(const Line& line) {
  const auto parts = split(line.text, ":");
  RoomLine result{parts.front(), line.text.substr(std::min(line.text.size(), line.text.find(':') + 1))};
  if (lower(result.head).starts_with("room ")) result.head = trimmed(std::string_view(result.head).substr(5));
  return result;
}

void enter_house(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, ",");
  std::size_t end = 1;
  while (end < words.size() && !is_system_word(words[end])) ++end;
  if (end > 1) draft.house.dwelling.name = joined(words, 1, words[end - 1].is(",") ? end - 1 : end);
  if (end < words.size()) draft.house.dwelling.system = system_of(words, end);
  const std::size_t rest = end + (end + 1 < words.size() && words[end + 1].is("3") ? 2 : 1);
  for (std::size_t i = rest; i < words.size(); ++i)
    if (!words[i].is("v") && !words[i].is("legs"))
      draft.fail(shown(words[i].text) + " is not expected behind the voltage; known are 120/240, 120/208, 120/208 3 legs and 230.");
  draft.said.push_back("House " + shown(draft.house.dwelling.name) + ", " + std::string(text_of(draft.house.dwelling.system)) + ".");
}

void enter_floor(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, "");
  if (words.size() < 2) draft.fail("behind 'Floor' its name is expected, as in 'Floor Upper 1'.");
  auto level = words.size() > 2 && !words.back().quoted ? signed_number(words.back().text) : std::nullopt;
  const std::string name = joined(words, 1, level ? words.size() - 1 : words.size());
  if (!level) level = usual_level(name);
  if (!level) draft.fail("the level of floor " + shown(name) + " is missing; the ground floor is 0, as in 'Floor Upper 1'.");
  draft.floor = draft.add_floor(name, *level);
}

void enter_building(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, "");
  draft.building = joined(words, 1, words.size());
  draft.floor = {};
  if (lower(draft.building) == "house") draft.building.clear();
}

namespace {

/// "Bath, Bedroom 1-3" as the names it stands for.
std::vector<std::string> names_in(const Draft& draft, const std::string& head) {
  std::vector<std::string> names;
  for (const std::string& part : split(head, ",\n")) {
    const std::string name = joined(words_of(draft.line, part, ""), 0, part.size());
    if (name.empty()) draft.fail("the name of the room is missing before ':'.");
    const std::size_t space = name.rfind(' ');
    const auto ends = split(space == std::string::npos ? "" : std::string_view(name).substr(space + 1), "-");
    const auto low = whole_number(ends.front()), high = whole_number(ends.back());
    if (ends.size() != 2 || !low || !high || *high <= *low) {
      names.push_back(name);
      continue;
    }
    if (*high - *low >= 100) draft.fail(shown(part) + " are too many rooms at once; at most 100.");
    for (int number = *low; number <= *high; ++number) names.push_back(name.substr(0, space + 1) + std::to_string(number));
  }
  return names;
}

}  // namespace

std::vector<Id<Room>> enter_room_head(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, room_line(line).head, "");
  std::size_t end = words.size();
  for (std::size_t i = 1; i < words.size(); ++i)
    if (!words[i].quoted && pair_of(words[i].lower(), 'x')) {
      end = i;
      break;
    }
  if (end == words.size()) {
    std::vector<Id<Room>> rooms;
    for (const std::string& name : names_in(draft, room_line(line).head)) rooms.push_back(draft.room_for_line(name));
    return rooms;
  }
  const Id<Room> id = draft.room_for_line(joined(words, 0, end));
  Room room = row(draft.house, id);
  std::size_t next = end + 1;
  double unit = 100;
  if (next < words.size() && (words[next].is("m") || words[next].is("ft"))) unit = words[next++].is("ft") ? 30.48 : 100;
  const auto size = pair_of(words[end].lower(), 'x');
  room.width_cm = centimeters(draft, size->first, unit);
  room.depth_cm = centimeters(draft, size->second, unit);
  if (room.width_cm <= 0 || room.depth_cm <= 0) draft.fail("the rectangle " + shown(words[end].text) + " has no size.");
  place_rectangle(draft, room, words, next, unit);
  row(draft.house, id) = room;
  return {id};
}

void enter_room_items(Draft& draft, const Line& line, Id<Room> room) {
  draft.room_name = draft.name_of(room);
  const std::vector<ItemSpec> items = parse_items(draft, room_line(line).items);
  draft.room_name.clear();
  const std::size_t before = draft.house.points.size();
  add_items(draft, room, items);
  auto& all = draft.written[draft.name_of(room)];
  all.insert(all.end(), items.begin(), items.end());
  std::string text = draft.name_of(room) + ": ";
  std::vector<std::pair<std::string, int>> counts;  // of each name, in order
  for (const ItemSpec& item : items) {
    const auto known = std::ranges::find(counts, item.name, &std::pair<std::string, int>::first);
    if (known == counts.end()) counts.emplace_back(item.name, item.count);
    else known->second += item.count;
  }
  for (const auto& [name, count] : counts) text += (count > 1 ? std::to_string(count) + " " + name + "s" : name) + ", ";
  const std::size_t made = draft.house.points.size() - before;
  draft.said.push_back(text + std::to_string(made) + (made == 1 ? " point." : " points."));
}

void enter_template(Draft& draft, const Line& line) {
  const RoomLine parts = room_line(line);
  const std::string name = trimmed(std::string_view(parts.head).substr(std::string_view("template").size()));
  if (name.empty() || parts.items.empty() || line.text.find(':') == std::string::npos)
    draft.fail("a template is written as 'Template NAME: items'.");
  draft.templates[lower(name)] = parse_items(draft, parts.items);
}

void enter_walk(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, "");
  std::size_t at = 1;
  const Id<Room> from = draft.room_at(words, at);
  if (at < words.size() && (words[at].is("-") || words[at].is("to"))) ++at;
  const Id<Room> to = draft.room_at(words, at);
  const std::string text = lower(joined(words, at, words.size()));
  const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
  const auto number = whole_number(text.substr(0, digits));
  const std::string unit = trimmed(std::string_view(text).substr(digits));
  const bool minutes = unit == "min" || unit == "minutes" || unit == "m";
  if (!number || *number > 3600 || !(minutes || unit.empty() || unit == "s" || unit == "seconds"))
    draft.fail("the time " + shown(text) + " is not understood; expected is one such as '60 s' or '2 min'.");
  draft.house.walks.push_back({Id<Walk>::fresh(), from, to, minutes ? *number * 60 : *number});
  draft.said.push_back("From " + draft.name_of(from) + " to " + draft.name_of(to) + ": " +
                       std::to_string(draft.house.walks.back().seconds) + " s.");
}

}  // namespace ohmstead::entry_detail
