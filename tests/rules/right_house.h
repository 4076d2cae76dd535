#pragma once
// Houses in which nothing stands against a rule, random in what does not matter; tests break one thing in them.

#include <random>
#include <string>

#include "tests/print/house_maker.h"

namespace ohmstead::test {

class RightHouse : public HouseMaker {
 public:
  explicit RightHouse(std::uint64_t seed = 1) : random_(seed) {
    make_rooms();
    make_circuits();
    make_backup();
    for (const std::string& item : {"directory:" + main.text(), std::string("paper:signs")}) {
      Printed printed;
      printed.id = next<Printed>(), printed.item = item, printed.name = item, printed.at = "2026-11-25T09:00:00Z", printed.revision = 1, printed.code = "7Q2K9D";
      house.printed.push_back(printed);
    }
  }

  Id<Room> kitchen, bath, laundry, bedroom, hall, garage, living, utility, shop;
  Id<Panel> main;
  Id<Breaker> counter, bath_circuit, laundry_circuit, bedroom_circuit, garage_circuit, alarms, furnace, dryer, shared_a, shared_b;
  Id<Point> bath_receptacle, alarm, dryer_point, furnace_point, shop_receptacle;
  Id<Source> generator;

  Circuit& circuit_of(Id<Breaker> breaker) {
    for (Circuit& circuit : house.circuits)
      if (circuit.breaker == breaker) return circuit;
    throw std::logic_error("no circuit");
  }
  Breaker& at(Id<Breaker> breaker) { return row(house, breaker); }
  Point& at(Id<Point> point) { return row(house, point); }
  /// A circuit in these spaces, with wire that fits.
  Id<Breaker> circuit(int space, int amps, Protection protection, int poles = 1) {
    const Id<Breaker> made = breaker(main, space, poles, amps);
    at(made).protection = protection;
    Circuit wire;
    wire.id = next<Circuit>(), wire.breaker = made, wire.material = WireMaterial::copper;
    wire.wire = amps <= 15 && pick(2) == 0 ? "14" : amps <= 20 && pick(3) != 0 ? "12" : amps <= 30 ? "10" : "6";
    house.circuits.push_back(wire);
    return made;
  }

 private:
  int pick(int n) { return static_cast<int>(random_() % static_cast<std::uint64_t>(n)); }

  void make_rooms() {
    const auto ground = floor("Ground floor", 0);
    kitchen = room("Kitchen", ground), bath = room("Bath", ground), laundry = room("Laundry", ground), bedroom = room("NE bedroom", ground), hall = room("Hall", ground);
    garage = room("Garage", ground), living = room("Living room", ground), utility = room("Utility room", ground), shop = room("Workshop", ground);
    main = panel("Main", hall, 40);
    row(house, main).main_amps = 200;
  }

  void make_circuits() {
    counter = circuit(1, 20, Protection::dual), points(counter, kitchen, 1 + pick(4), "counter receptacle");
    points(circuit(2, 20, Protection::dual), kitchen, 1 + pick(3), "receptacle");
    bath_circuit = circuit(3, 20, Protection::gfci), bath_receptacle = point(bath_circuit, bath, "receptacle"), point(bath_circuit, bath, "ceiling light", PointKind::light);
    laundry_circuit = circuit(4, 20, Protection::dual), point(laundry_circuit, laundry, "receptacle");
    bedroom_circuit = circuit(5, 15, Protection::afci), points(bedroom_circuit, bedroom, 1 + pick(5), "receptacle"), point(bedroom_circuit, bedroom, "ceiling light", PointKind::light);
    const auto living_circuit = circuit(6, pick(2) == 0 ? 15 : 20, Protection::afci);
    points(living_circuit, living, 2 + pick(4), "receptacle"), point(living_circuit, hall, "ceiling light", PointKind::light), point(living_circuit, kitchen, "ceiling light", PointKind::light);
    garage_circuit = circuit(7, 20, Protection::gfci), points(garage_circuit, garage, 1 + pick(3), "receptacle");
    alarms = circuit(8, 15, Protection::plain), alarm = point(alarms, bedroom, "smoke alarm", PointKind::alarm), point(alarms, hall, "smoke alarm", PointKind::alarm);
    furnace = circuit(9, 15, Protection::plain), furnace_point = point(furnace, utility, "furnace", PointKind::appliance);
    dryer = circuit(10, 30, Protection::plain, 2), dryer_point = point(dryer, laundry, "dryer", PointKind::appliance);
    at(dryer_point).hots = 2;
    DeclaredFeed second = house.declared_feeds.back();
    second.id = next<DeclaredFeed>(), second.hot = 2, second.pole = 2, house.declared_feeds.push_back(second);
    shared_a = circuit(13, 20, Protection::plain), shared_b = circuit(15, 20, Protection::plain);
    at(shared_a).tie = at(shared_b).tie = shared_a;
    circuit_of(shared_b).multiwire = circuit_of(shared_a).id, circuit_of(shared_a).multiwire = circuit_of(shared_a).id;
    shop_receptacle = point(shared_a, shop, "receptacle 1"), point(shared_b, shop, "receptacle 2");
    Load lamp{.id = next<Load>(), .point = shop_receptacle, .name = "lamp", .running_watts = 60 + pick(40)};
    house.loads.push_back(lamp);
    for (Point& one : house.points)
      if (one.kind == PointKind::receptacle && pick(2) == 0) one.rating_amps = 15;
  }

  void make_backup() {
    Source source;
    source.id = generator = next<Source>(), source.name = "Generator", source.running_watts = 5000, source.neutral = NeutralBond::floating;
    house.sources.push_back(source);
    TransferDevice device;
    device.id = next<TransferDevice>(), device.name = "T", device.room = hall, device.source = generator;
    house.transfer_devices.push_back(device);
    for (int number = 1; number <= 2; ++number) {
      Position position;
      position.id = next<Position>(), position.device = device.id, position.number = number, position.amps = 15, position.leg = number, position.breaker = number == 1 ? alarms : furnace;
      house.positions.push_back(position);
    }
  }

  std::mt19937_64 random_;
};

}  // namespace ohmstead::test
