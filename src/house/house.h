#pragma once
// The house as one plain value. It is loaded whole, changed by making another value, and written
// back as the difference (db). Rows keep the order in which they were entered.

#include <vector>

#include "house/backup.h"
#include "house/evidence.h"
#include "house/outage.h"
#include "house/panel.h"
#include "house/photo.h"
#include "house/place.h"
#include "house/point.h"
#include "house/printed.h"
#include "house/trouble.h"
#include "house/voltage.h"

namespace ohmstead {

/// The dwelling itself. There is exactly one.
struct Dwelling {
  static constexpr const char* kTable = "dwelling";
  Id<Dwelling> id;
  std::string name;
  VoltageSystem system = VoltageSystem::split_phase_120_240;
  bool operator==(const Dwelling&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("system", s.system);
  }
};

struct House {
  Dwelling dwelling;
  std::vector<Floor> floors;
  std::vector<Room> rooms;
  std::vector<Walk> walks;
  std::vector<Box> boxes;
  std::vector<Source> sources;
  std::vector<Panel> panels;
  std::vector<Breaker> breakers;
  std::vector<Circuit> circuits;
  std::vector<TransferDevice> transfer_devices;
  std::vector<Position> positions;
  std::vector<Interlock> interlocks;
  std::vector<Device> devices;
  std::vector<Handle> handles;
  std::vector<Point> points;
  std::vector<Load> loads;
  std::vector<Passing> passings;
  std::vector<DeclaredFeed> declared_feeds;
  std::vector<Round> rounds;
  std::vector<Opened> opened;
  std::vector<Observation> observations;
  std::vector<Note> notes;
  std::vector<Photo> photos;
  std::vector<Setting> settings;
  std::vector<Planned> planned;
  std::vector<Pin> pins;
  std::vector<Tick> ticks;
  std::vector<OutageEvent> outage_events;
  std::vector<Printed> printed;
  std::vector<Trip> trips;
  std::vector<Diagnosis> diagnoses;
  std::vector<DiagnosisLook> diagnosis_looks;
  bool operator==(const House&) const = default;
};

/// Calls `f(vector)` for every table but the dwelling, in an order in which most references
/// point backwards. `H` is House or const House. The one list that storage, interchange and
/// invariants share.
template <class H, class F>
void for_each_table(H& h, F&& f) {
  f(h.floors), f(h.rooms), f(h.walks), f(h.boxes), f(h.sources), f(h.panels), f(h.breakers), f(h.circuits),
      f(h.transfer_devices), f(h.positions), f(h.interlocks), f(h.devices), f(h.handles), f(h.points), f(h.loads),
      f(h.passings), f(h.declared_feeds), f(h.rounds), f(h.opened), f(h.observations), f(h.notes), f(h.photos), f(h.settings),
      f(h.planned), f(h.pins), f(h.ticks), f(h.outage_events), f(h.printed), f(h.trips), f(h.diagnoses), f(h.diagnosis_looks);
}

}  // namespace ohmstead
