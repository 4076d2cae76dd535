#include "ask/row_names.h"

#include <algorithm>

#include "ask/printable.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

std::string row_kind(const std::string& table) {
  static const std::pair<const char*, const char*> kKinds[] = {
      {"walk", "walking time"}, {"transfer_device", "transfer device"}, {"passing", "conductor passing through"},
      {"declared_feed", "declared feed"}, {"round", "round of looks"}, {"opened", "handle that was off in a round"}, {"observation", "look"},
      {"planned", "place in the plan"}, {"tick", "tick on the worksheet"}, {"outage_event", "line of the outage log"},
      {"interlock", "interlock"}, {"printed", "print"}};
  for (const auto& [name, words] : kKinds)
    if (table == name) return words;
  return field_name(table);
}

/// Names of rows, each from what it is and what it names. One look through a house without circles: nothing here follows a row twice.
class RowNames {
 public:
  explicit RowNames(const House& house) : house_(house) {}

  [[nodiscard]] std::string of(const std::string& table, std::uint64_t id) const {
    if (table == Dwelling::kTable || table == "house") return "the house";
    std::string name;
    for_each_table(house_, [&]<class Row>(const std::vector<Row>& rows) {
      if (table != Row::kTable) return;
      const auto found = std::ranges::find(rows, Id<Row>{id}, &Row::id);
      if (found != rows.end()) name = called(*found);
    });
    return name.empty() ? "a " + row_kind(table) + " that is not there any more" : name;
  }

  /// Whatever row of the house has this id; empty: none.
  [[nodiscard]] std::string anything(std::uint64_t id) const {
    std::string name;
    for_each_table(house_, [&]<class Row>(const std::vector<Row>& rows) {
      const auto found = std::ranges::find(rows, Id<Row>{id}, &Row::id);
      if (found != rows.end()) name = called(*found);
    });
    return name;
  }

  [[nodiscard]] std::string handle(const HandleRef& ref) const {
    if (!ref) return "nothing";
    if (ref.kind == HandleKind::main) return "main of " + plain(Id<Panel>{ref.id});
    const std::string name = anything(ref.id);
    return name.empty() ? "a handle that is not there any more" : name + (ref.kind == HandleKind::position_breaker ? "'s own breaker" : "");
  }

 private:
  template <class Row>
  std::string plain(Id<Row> id) const {
    const auto* found = find_row(house_, id);
    return found == nullptr ? "(gone)" : found->name;
  }
  std::string breaker(Id<Breaker> id) const {
    const Breaker* found = find_row(house_, id);
    return found == nullptr ? "a breaker that is not there any more" : called(*found);
  }
  std::string point(Id<Point> id) const {
    const Point* found = find_row(house_, id);
    return found == nullptr ? "a point that is not there any more" : called(*found);
  }
  std::string about(const ThingRef& thing) const {
    return thing.kind == ThingKind::house ? "the house" : of(std::string(text_of(thing.kind)), thing.id);
  }
  std::string position(Id<Position> id) const {
    const Position* found = find_row(house_, id);
    return found == nullptr ? "a position that is not there any more" : called(*found);
  }

  std::string called(const Floor& row) const { return "floor " + row.name + (row.building.empty() ? "" : " of " + row.building); }
  std::string called(const Room& row) const { return "room " + row.name; }
  std::string called(const Walk& row) const { return "the walk from " + plain(row.from) + " to " + plain(row.to); }
  std::string called(const Box& row) const { return "box " + row.name + " in " + plain(row.room); }
  std::string called(const Source& row) const { return "source " + row.name; }
  std::string called(const Panel& row) const { return "panel " + row.name; }
  std::string called(const Breaker& row) const {
    const Panel* panel = find_row(house_, row.panel);
    return "breaker " + (panel == nullptr ? std::to_string(row.space) : panel->name + " " + breaker_number(*panel, row));
  }
  std::string called(const Circuit& row) const { return "the wire behind " + breaker(row.breaker); }
  std::string called(const TransferDevice& row) const { return "transfer device " + row.name; }
  std::string called(const Position& row) const { return "position " + std::to_string(row.number) + " of " + plain(row.device); }
  std::string called(const Interlock& row) const { return "the interlock between " + handle(row.first) + " and " + handle(row.second); }
  std::string called(const Device& row) const { return row.name; }
  std::string called(const Handle& row) const { return row.name.empty() ? plain(row.device) : "handle " + row.name + " of " + plain(row.device); }
  std::string called(const Point& row) const {
    const Room* room = find_row(house_, row.room);
    return (room == nullptr ? "" : room->name + " ") + row.name;
  }
  std::string called(const Load& row) const { return (row.name.empty() ? "the load" : row.name) + " at " + point(row.point); }
  std::string called(const Passing& row) const { return breaker(row.breaker) + " passing through a box"; }
  std::string called(const DeclaredFeed& row) const {
    return "what " + (row.who.empty() ? "somebody" : row.who) + " declared of " + (row.point ? point(row.point) : plain(row.device));
  }
  std::string called(const Round& row) const { return "a round of looks" + (row.who.empty() ? "" : " by " + row.who); }
  std::string called(const Opened& row) const { return handle(row.handle) + " in a round"; }
  std::string called(const Observation& row) const { return "a look at " + point(row.point); }
  std::string called(const Note& row) const { return "a note about " + about(row.about); }
  std::string called(const Photo& row) const { return "a photo of " + about(row.about); }
  std::string called(const Setting& row) const { return "setting " + row.name; }
  std::string called(const Planned& row) const { return breaker(row.breaker) + " in the plan"; }
  std::string called(const Pin& row) const { return "what is wanted of " + breaker(row.breaker); }
  std::string called(const Tick&) const { return "a tick on the worksheet"; }
  std::string called(const OutageEvent& row) const { return "a line of the outage log (" + field_name(std::string(text_of(row.kind))) + ")"; }
  std::string called(const Printed& row) const { return "the print of " + row.name; }
  std::string called(const Trip& row) const { return "a trip of " + handle(row.handle); }
  std::string called(const Diagnosis& row) const { return "a diagnosis" + (row.who.empty() ? "" : " by " + row.who); }
  std::string called(const DiagnosisLook& row) const { return "a look of a diagnosis" + (row.point ? " at " + point(row.point) : ""); }

  const House& house_;
};

}  // namespace

std::string field_name(const std::string& field) {
  std::string words = field;
  std::ranges::replace(words, '_', ' ');
  return terminal::printable(words);
}

std::string row_name(const House& house, const std::string& table, std::uint64_t id) {
  return terminal::printable(RowNames(house).of(table, id));
}

std::string value_name(const House& house, const std::string& value) {
  const RowNames names(house);
  if (const auto handle = parse_handle_ref(value); handle && *handle) return terminal::printable(names.handle(*handle));
  if (const auto thing = parse_thing_ref(value); thing && thing->kind != ThingKind::house)
    return terminal::printable(names.of(std::string(text_of(thing->kind)), thing->id));
  if (const auto id = parse_id(value))
    if (const std::string name = names.anything(*id); !name.empty()) return terminal::printable(name);
  return terminal::printable(value);
}

}  // namespace ohmstead
