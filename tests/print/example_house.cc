#include "tests/print/example_house.h"

#include <algorithm>

namespace ohmstead::test {

namespace {

constexpr auto kLight = PointKind::light;
constexpr auto kAppliance = PointKind::appliance;

struct Rooms {
  Id<Room> kitchen, hall, living, dining, bath, laundry, garage, porch, bed1, bed2, bed3, upper_bath, upper_hall, crawl;
};

Rooms add_rooms(HouseMaker& m) {
  const auto ground = m.floor("Main floor", 0), upper = m.floor("Upper floor", 1), below = m.floor("Crawl space", -1);
  return {m.room("Kitchen", ground),     m.room("Entry hall", ground),  m.room("Living room", ground), m.room("Dining room", ground),
          m.room("Half bath", ground),   m.room("Laundry", ground),     m.room("Garage", ground),      m.room("Porch", ground),
          m.room("NE bedroom", upper),   m.room("NW bedroom", upper),   m.room("South bedroom", upper), m.room("Bath", upper),
          m.room("Upper hall", upper),   m.room("Crawl space", below)};
}

void add_left_side(HouseMaker& m, const Rooms& r, Id<Panel> main) {
  auto on = [&](int space, int amps = 20, int poles = 1, Half half = Half::whole) { return m.breaker(main, space, poles, amps, half); };
  const auto inlet = on(1, 30, 2);
  const auto range = on(5, 50, 2);
  m.point(range, r.kitchen, "range", kAppliance);
  m.points(on(9), r.kitchen, 4, "counter receptacle");
  m.points(on(11), r.kitchen, 3, "counter receptacle");
  const auto appliances = on(13);
  m.point(appliances, r.kitchen, "dishwasher", kAppliance);
  m.point(appliances, r.kitchen, "disposal", kAppliance);
  const auto bath = on(15);
  m.point(bath, r.bath, "receptacle 1"), m.point(bath, r.upper_bath, "receptacle 1");
  const auto living = on(17, 15);
  m.points(living, r.living, 6, "receptacle"), m.points(living, r.dining, 3, "receptacle");
  const auto lights = on(19, 15, 1, Half::a);
  for (const auto room : {r.kitchen, r.hall, r.living, r.dining, r.bath}) m.points(lights, room, 2, "ceiling light", kLight);
  m.points(on(19, 15, 1, Half::b), r.porch, 3, "light", kLight);
  m.point(on(21), r.laundry, "washer");
  on(23, 20);  // spare
  m.point(on(25, 30, 2), r.laundry, "dryer", kAppliance);
  on(31, 15);  // spare
  Breaker& backfed = row(m.house, inlet);
  const auto source = m.add(m.house.sources, Source{m.next<Source>(), "Inverter generator", SourceKind::generator, SourceOutput::full, 3000, 3500});
  backfed.backfed_from = source;
  m.house.interlocks.push_back({m.next<Interlock>(), {HandleKind::main, main.value}, {HandleKind::breaker, inlet.value}});
}

void add_right_side(HouseMaker& m, const Rooms& r, Id<Panel> main, Id<Panel> workshop) {
  auto on = [&](int space, int amps = 20, int poles = 1, Half half = Half::whole) { return m.breaker(main, space, poles, amps, half); };
  m.point(on(2, 30, 2), r.crawl, "well pump", kAppliance);
  const auto bed1 = on(6, 15);
  m.points(bed1, r.bed1, 5, "receptacle"), m.points(bed1, r.bed1, 1, "ceiling light", kLight);
  const auto bed2 = on(8, 15);
  m.points(bed2, r.bed2, 5, "receptacle"), m.points(bed2, r.bed3, 4, "receptacle"), m.points(bed2, r.porch, 1, "receptacle");
  const auto upper = on(10, 15);
  for (const auto room : {r.bed2, r.bed3, r.upper_bath, r.upper_hall}) m.points(upper, room, 1, "ceiling light", kLight);
  const auto first = on(12), second = on(14);
  m.points(first, r.garage, 2, "receptacle"), m.points(second, r.garage, 2, "bench receptacle");
  row(m.house, first).tie = first, row(m.house, second).tie = first;
  const auto cold = on(16);
  m.point(cold, r.kitchen, "refrigerator", kAppliance);
  m.point(on(18), r.garage, "freezer", kAppliance);
  m.points(on(20, 15), r.upper_hall, 2, "smoke alarm", PointKind::alarm);
  m.point(on(22, 15), r.crawl, "furnace", kAppliance);
  const auto feeder = on(24, 60, 2);
  row(m.house, workshop).supply = Supply::breaker, row(m.house, workshop).feeder = feeder;
  on(28, 20, 1, Half::a), m.point(on(28, 20, 1, Half::b), r.hall, "doorbell", kAppliance);
  on(30, 15);  // nothing known: a circuit is recorded, but no point
  Circuit circuit{m.next<Circuit>()};
  circuit.breaker = m.house.breakers.back().id;
  m.house.circuits.push_back(circuit);
  m.points(on(32, 20, 2, Half::a), r.dining, 1, "floor heater", kAppliance);
  m.points(on(32, 20, 2, Half::b), r.bath, 1, "wall heater", kAppliance);
  const auto device = m.add(m.house.transfer_devices, TransferDevice{m.next<TransferDevice>(), "Garage transfer switch", r.garage,
                                                                     TransferKind::circuits, m.house.sources.front().id, false});
  int number = 0;
  for (const int space : {2, 16, 18, 22}) {
    const auto found = std::ranges::find(m.house.breakers, space, &Breaker::space);
    const auto even = std::find_if(found, m.house.breakers.end(), [&](const Breaker& b) { return b.space == space && b.panel == main; });
    for (int pole = 1; pole <= even->poles; ++pole)
      m.house.positions.push_back({m.next<Position>(), device, ++number, 20, (number - 1) % 2 + 1, {}, even->id, pole});
  }
}

/// Breakers 23 and 31 were opened, and every point was still live: they feed nothing.
void add_spares(HouseMaker& m, Id<Panel> main) {
  Round round{m.next<Round>()};
  m.house.rounds.push_back(round);
  for (const Breaker& breaker : m.house.breakers)
    if (breaker.panel == main && (breaker.space == 23 || breaker.space == 31 || (breaker.space == 28 && breaker.half == Half::a)))
      m.house.opened.push_back({m.next<Opened>(), round.id, {HandleKind::breaker, breaker.id.value}});
  for (const Point& point : m.house.points) {
    Observation seen{m.next<Observation>(), round.id, point.id, Seen::live};
    m.house.observations.push_back(seen);
  }
}

}  // namespace

ExampleHouse example_house() {
  HouseMaker m;
  const Rooms rooms = add_rooms(m);
  const auto main = m.panel("Main", rooms.garage, 40), workshop = m.panel("Workshop", rooms.garage, 12);
  row(m.house, main).main_amps = 200;
  add_left_side(m, rooms, main);
  add_right_side(m, rooms, main, workshop);
  m.points(m.breaker(workshop, 1), rooms.garage, 2, "workshop receptacle");
  m.points(m.breaker(workshop, 2, 1, 15), rooms.garage, 2, "workshop light", kLight);
  add_spares(m, main);
  ExampleHouse example{m.house, declared_feeds(m.house), main, workshop};
  for (std::size_t i = 0; i < example.house.points.size(); ++i)
    if (example.house.points[i].name == "washer" || example.house.points[i].name == "furnace") example.feeds.of_point[i].standing = Standing::likely;
  return example;
}

}  // namespace ohmstead::test
