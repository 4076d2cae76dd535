#include "survey/tap_entry.h"

#include <algorithm>
#include <functional>

#include "house/index.h"
#include "house/invariants.h"
#include "survey/text_lines.h"

namespace ohmstead {

namespace {

std::string one_line(std::string_view words) {
  if (words.find_first_of("\n\r") != std::string_view::npos) throw Error(ErrorKind::invalid_input, "This is more than one line; give one thing at a time.");
  return entry_detail::trimmed(words);
}

/// A house in which these names can be written in a line, whatever they hold (quotes, colons, '1-3'); what was entered has the true ones.
class PlainNames {
 public:
  explicit PlainNames(const House& house) : house_(house) {}

  template <class Row>
  void make_plain(Id<Row> id, std::string Row::*name) {
    Row& named = row(house_, id);
    if ((named.*name).empty()) return;
    const std::string true_name = named.*name, plain = "x" + id.text();
    named.*name = plain;
    give_back_.push_back([id, name, true_name, plain](EntryResult& result) {
      row(result.house, id).*name = true_name;
      for (std::string& said : result.said)
        if (const std::size_t at = said.find(plain); at != std::string::npos) said.replace(at, plain.size(), true_name);
    });
  }
  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] EntryResult enter(const std::string& text) const {
    EntryResult result = enter_answer(house_, text);
    for (const auto& give_back : give_back_) give_back(result);
    return result;
  }

 private:
  House house_;
  std::vector<std::function<void(EntryResult&)>> give_back_;
};

std::string lines_of_floor(PlainNames& names, Id<Floor> id) {
  names.make_plain(id, &Floor::name);
  names.make_plain(id, &Floor::building);
  const Floor& floor = row(names.house(), id);
  return (floor.building.empty() ? "" : "Building " + floor.building + "\n") + "Floor \"" + floor.name + "\" " + std::to_string(floor.level) + "\n";
}

/// Where a room goes when no floor is said.
const Floor* usual_floor(const House& house) {
  const Floor* best = nullptr;
  for (const Floor& floor : house.floors)
    if (floor.building.empty() && (best == nullptr || std::abs(floor.level) < std::abs(best->level))) best = &floor;
  return best;
}

Error used_since() {
  return {ErrorKind::conflict, "This cannot be taken back any more: what was written down then has been changed or used since. Nothing was changed."};
}

/// Takes back what happened to one table.
template <class Row>
void take_back_rows(std::vector<Row>& now, const std::vector<Row>& before, const std::vector<Row>& after) {
  for (const Row& made : after) {
    const auto old = std::ranges::find(before, made.id, &Row::id);
    if (old != before.end() && *old == made) continue;
    const auto here = std::ranges::find(now, made.id, &Row::id);
    if (here == now.end() || *here != made) throw used_since();
    if (old == before.end()) now.erase(here);
    else *here = *old;
  }
}

}  // namespace

EntryResult with_room(const House& house, Id<Floor> floor, std::string_view name) {
  const Floor* on = floor ? &row(house, floor) : usual_floor(house);
  const std::string words = one_line(name);
  if (words.empty() || words.find(':') != std::string::npos) throw Error(ErrorKind::invalid_input, "Give the name of a room, such as 'Kitchen'.");
  PlainNames names(house);
  EntryResult result = names.enter((on == nullptr ? "" : lines_of_floor(names, on->id)) + "Room " + words + ":\n");
  if (result.house.rooms.size() == house.rooms.size()) throw Error(ErrorKind::invalid_input, "There is a room '" + words + "' on this floor already.");
  return result;
}

EntryResult with_items(const House& house, Id<Room> room, std::string_view items) {
  const std::string words = one_line(items);
  if (words.empty()) throw Error(ErrorKind::invalid_input, "Say what is in the room, such as '2 receptacles'.");
  PlainNames names(house);
  names.make_plain(room, &Room::name);
  const std::string where = lines_of_floor(names, row(house, room).floor);
  return names.enter(where + "Room " + row(names.house(), room).name + ": + " + words + "\n");
}

EntryResult with_panel(const House& house, std::string_view words) {
  EntryResult result = enter_answer(house, "Panel " + one_line(words));
  if (result.house.panels.size() == house.panels.size()) throw Error(ErrorKind::invalid_input, "There is a panel of this name already; choose another name.");
  return result;
}

EntryResult with_breakers(const House& house, Id<Panel> panel, std::string_view items) {
  PlainNames names(house);
  names.make_plain(panel, &Panel::name);
  return names.enter("Panel \"" + row(names.house(), panel).name + "\": " + one_line(items));
}

EntryResult with_name(const House& house, Id<Point> point, const std::string& name, const std::string& place) {
  EntryResult result{house, {}};
  Point& renamed = row(result.house, point);
  renamed.name = one_line(name), renamed.place = one_line(place);
  if (renamed.name.empty()) throw Error(ErrorKind::invalid_input, "A point needs a name; give one, such as 'receptacle 2'.");
  const auto problems = problems_of(result.house);
  if (!problems.empty()) throw Error(ErrorKind::invalid_input, "It cannot be called '" + renamed.name + "': " + problems.front().message);
  result.said = {"It is called " + renamed.name + (renamed.place.empty() ? "" : " (" + renamed.place + ")") + " now."};
  return result;
}

House taken_back(const House& now, const House& before, const House& after) {
  House next = now;
  const auto take = [&](auto House::*table) { take_back_rows(next.*table, before.*table, after.*table); };
  take(&House::floors), take(&House::rooms), take(&House::walks), take(&House::boxes), take(&House::sources), take(&House::panels);
  take(&House::breakers), take(&House::circuits), take(&House::transfer_devices), take(&House::positions), take(&House::interlocks);
  take(&House::devices), take(&House::handles), take(&House::points), take(&House::loads), take(&House::passings);
  take(&House::declared_feeds), take(&House::notes), take(&House::settings);
  if (!problems_of(next).empty()) throw used_since();
  return next;
}

}  // namespace ohmstead
