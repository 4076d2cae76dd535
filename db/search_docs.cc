// What the index of a house holds.

#include <algorithm>

#include "db/search.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

constexpr int kKindShift = 60;  // ids have 60 bits

template <class Row>
std::int64_t number_of(FoundKind kind, Id<Row> id) {
  return static_cast<std::int64_t>(static_cast<std::uint64_t>(kind) << kKindShift | id.value);
}

/// Rows by id, for names of things that others belong to.
struct Lookup {
  explicit Lookup(const House& of) : house(of), rooms(of.rooms), points(of.points), panels(of.panels), floors(of.floors), breakers(of.breakers) {}
  const House& house;
  Index<Room> rooms;
  Index<Point> points;
  Index<Panel> panels;
  Index<Floor> floors;
  Index<Breaker> breakers;

  [[nodiscard]] std::string room(Id<Room> id) const {
    const long at = rooms.at(id);
    return at < 0 ? "" : house.rooms[static_cast<std::size_t>(at)].name;
  }
  [[nodiscard]] std::string point(Id<Point> id) const {
    const long at = points.at(id);
    return at < 0 ? "" : point(house.points[static_cast<std::size_t>(at)]);
  }
  [[nodiscard]] std::string point(const Point& row) const { return room(row.room) + " " + row.name; }
  [[nodiscard]] std::string breaker(const Breaker& row) const {
    const long at = panels.at(row.panel);
    if (at < 0) return "breaker";
    const Panel& panel = house.panels[static_cast<std::size_t>(at)];
    return panel.name + " breaker " + breaker_number(panel, row);
  }
  /// What a note is about, as far as it has a name; "" for the house.
  [[nodiscard]] std::string thing(const ThingRef& about) const {
    if (about.kind == ThingKind::room) return room({about.id});
    if (about.kind == ThingKind::point) return point(Id<Point>{about.id});
    if (about.kind == ThingKind::panel && panels.at({about.id}) >= 0) return house.panels[static_cast<std::size_t>(panels.at({about.id}))].name;
    if (about.kind == ThingKind::floor && floors.at({about.id}) >= 0) return house.floors[static_cast<std::size_t>(floors.at({about.id}))].name;
    if (about.kind == ThingKind::breaker && breakers.at({about.id}) >= 0)
      return breaker(house.breakers[static_cast<std::size_t>(breakers.at({about.id}))]);
    if (about.kind == ThingKind::load)
      for (const Load& load : house.loads)
        if (load.id.value == about.id) return point(load.point) + " " + load.name;
    if (about.kind == ThingKind::source)
      for (const Source& source : house.sources)
        if (source.id.value == about.id) return source.name;
    return "";
  }
};

}  // namespace

std::vector<SearchDoc> search_docs(const House& house) {
  const Lookup names(house);
  std::vector<SearchDoc> docs;
  docs.reserve(house.notes.size() + house.points.size() + house.loads.size() + house.rooms.size() + house.breakers.size());
  for (const Note& note : house.notes) docs.push_back({number_of(FoundKind::note, note.id), names.thing(note.about), note.text});
  for (const Room& room : house.rooms) {
    const long floor = names.floors.at(room.floor);
    docs.push_back(
        {number_of(FoundKind::room, room.id), room.name,
         floor < 0 ? "" : house.floors[static_cast<std::size_t>(floor)].name + " " + house.floors[static_cast<std::size_t>(floor)].building});
  }
  for (const Point& point : house.points) docs.push_back({number_of(FoundKind::point, point.id), names.point(point), point.place});
  for (const Load& load : house.loads) docs.push_back({number_of(FoundKind::load, load.id), load.name, names.point(load.point)});
  for (const Breaker& breaker : house.breakers)
    docs.push_back({number_of(FoundKind::breaker, breaker.id), names.breaker(breaker), breaker.old_label});
  for (const Panel& panel : house.panels) docs.push_back({number_of(FoundKind::panel, panel.id), "Panel " + panel.name, names.room(panel.room)});
  for (const Printed& printed : house.printed)
    docs.push_back({number_of(FoundKind::printed, printed.id), printed.name,
                    printed.code + " " + printed.at.substr(0, std::min<std::size_t>(printed.at.size(), 10))});
  for (const Device& device : house.devices) docs.push_back({number_of(FoundKind::device, device.id), device.name, names.point(device.at_point)});
  std::ranges::sort(docs, {}, &SearchDoc::number);  // rising numbers are what the index takes fastest
  return docs;
}

}  // namespace ohmstead
