#pragma once
// Finding rows of a house by id.

#include <string>
#include <unordered_map>

#include "house/error.h"
#include "house/house.h"

namespace ohmstead {

/// The table that rows of type `Row` are in: `table_of<Room>(house)` is `house.rooms`.
template <class Row, class H>
auto& table_of(H& house) {
  if constexpr (std::is_same_v<Row, Floor>) return house.floors;
  else if constexpr (std::is_same_v<Row, Room>) return house.rooms;
  else if constexpr (std::is_same_v<Row, Walk>) return house.walks;
  else if constexpr (std::is_same_v<Row, Box>) return house.boxes;
  else if constexpr (std::is_same_v<Row, Source>) return house.sources;
  else if constexpr (std::is_same_v<Row, Panel>) return house.panels;
  else if constexpr (std::is_same_v<Row, Breaker>) return house.breakers;
  else if constexpr (std::is_same_v<Row, Circuit>) return house.circuits;
  else if constexpr (std::is_same_v<Row, TransferDevice>) return house.transfer_devices;
  else if constexpr (std::is_same_v<Row, Position>) return house.positions;
  else if constexpr (std::is_same_v<Row, Interlock>) return house.interlocks;
  else if constexpr (std::is_same_v<Row, Device>) return house.devices;
  else if constexpr (std::is_same_v<Row, Handle>) return house.handles;
  else if constexpr (std::is_same_v<Row, Point>) return house.points;
  else if constexpr (std::is_same_v<Row, Load>) return house.loads;
  else if constexpr (std::is_same_v<Row, Passing>) return house.passings;
  else if constexpr (std::is_same_v<Row, DeclaredFeed>) return house.declared_feeds;
  else if constexpr (std::is_same_v<Row, Round>) return house.rounds;
  else if constexpr (std::is_same_v<Row, Opened>) return house.opened;
  else if constexpr (std::is_same_v<Row, Observation>) return house.observations;
  else if constexpr (std::is_same_v<Row, Note>) return house.notes;
  else if constexpr (std::is_same_v<Row, Photo>) return house.photos;
  else if constexpr (std::is_same_v<Row, Planned>) return house.planned;
  else if constexpr (std::is_same_v<Row, Pin>) return house.pins;
  else if constexpr (std::is_same_v<Row, Tick>) return house.ticks;
  else if constexpr (std::is_same_v<Row, OutageEvent>) return house.outage_events;
  else if constexpr (std::is_same_v<Row, Printed>) return house.printed;
  else if constexpr (std::is_same_v<Row, Trip>) return house.trips;
  else if constexpr (std::is_same_v<Row, Diagnosis>) return house.diagnoses;
  else if constexpr (std::is_same_v<Row, DiagnosisLook>) return house.diagnosis_looks;
  else {
    static_assert(std::is_same_v<Row, Setting>);
    return house.settings;
  }
}

/// Row with this id, or nullptr. Walks the table; for many look-ups use Index.
template <class Row, class H>
auto* find_row(H& house, Id<Row> id) {
  for (auto& row : table_of<Row>(house))
    if (row.id == id) return &row;
  using Pointer = decltype(&table_of<Row>(house)[0]);
  return static_cast<Pointer>(nullptr);
}

/// Row with this id. Throws Error{not_found} if the house has none.
template <class Row, class H>
auto& row(H& house, Id<Row> id) {
  if (auto* found = find_row(house, id)) return *found;
  throw Error(ErrorKind::not_found, std::string("There is no ") + Row::kTable + " with the id '" + id.text() + "'.");
}

/// Positions in the tables by id, for one table of one unchanging house.
template <class Row>
class Index {
 public:
  explicit Index(const std::vector<Row>& table) {
    at_.reserve(table.size());
    for (std::size_t i = 0; i < table.size(); ++i) at_.emplace(table[i].id.value, i);
  }
  /// Place of the row in its table, or -1.
  [[nodiscard]] long at(Id<Row> id) const {
    const auto found = at_.find(id.value);
    return found == at_.end() ? -1 : static_cast<long>(found->second);
  }

 private:
  std::unordered_map<std::uint64_t, std::size_t> at_;
};

}  // namespace ohmstead
