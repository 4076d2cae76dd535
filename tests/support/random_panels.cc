#include <algorithm>

#include "house/index.h"
#include "house/numbering.h"
#include "house_maker.h"

namespace ohmstead {

TransferDevice& HouseMaker::add_device(TransferKind kind) {
  house_.transfer_devices.push_back(
      {fresh<TransferDevice>(), name("transfer"), any(house_.rooms).id, kind, any(house_.sources).id, one_in(3)});
  return house_.transfer_devices.back();
}

/// A device between the utility and the first panel: position k carries leg k.
void HouseMaker::whole_house_device() {
  const Id<TransferDevice> device = add_device(TransferKind::whole_house).id;
  const Id<Position> first = fresh<Position>();
  Panel& panel = house_.panels.front();
  for (int leg = 1; leg <= leg_count(house_.dwelling.system); ++leg)
    house_.positions.push_back({leg == 1 ? first : fresh<Position>(), device, leg, one_in(2) ? 60 : 0, leg, first, {}, leg});
  panel.supply = Supply::position;
  panel.position = first;
}

bool HouseMaker::add_breaker(const Panel& panel, int space, Half half, int poles) {
  Breaker breaker{fresh<Breaker>(), panel.id, space, half, poles, one_in(5) ? 0 : between(3, 12) * 5};
  breaker.protection = one_in(2) ? Protection::plain : any_word<Protection>();
  breaker.old_label = words();
  breaker.open_rule = one_in(5) ? any_word<OpenRule>() : OpenRule::free;
  const auto places = pole_places(panel, breaker);
  const int legs = panel_legs(house_, panel);
  std::set<int> used;
  std::vector<std::pair<std::uint64_t, int>> halves;
  for (const PolePlace& place : places) {
    used.insert(bus_leg(panel, place.space, legs));
    if (place.half != Half::b) halves.emplace_back(panel.id.value, 2 * place.space);
    if (place.half != Half::a) halves.emplace_back(panel.id.value, 2 * place.space + 1);
  }
  const bool fits = static_cast<int>(places.size()) == poles && static_cast<int>(used.size()) >= std::min(poles, legs) &&
                    (poles == 1 || legs > 1 || leg_count(house_.dwelling.system) == 1) &&
                    std::ranges::none_of(halves, [&](const auto& h) { return taken_.contains(h); });
  if (!fits) return false;
  taken_.insert(halves.begin(), halves.end());
  house_.breakers.push_back(breaker);
  return true;
}

/// Puts breakers of all shapes into the panel, top to bottom.
void HouseMaker::fill(const Panel& panel) {
  for (int space = 1; space <= panel.spaces; ++space) {
    switch (below(8)) {
      case 0: break;  // an empty space
      case 1:  // tandem
        add_breaker(panel, space, Half::a, 1), add_breaker(panel, space, Half::b, 1);
        break;
      case 2:  // quad: outer and inner pair
        if (add_breaker(panel, space, Half::a, 2)) add_breaker(panel, space, Half::b, 2);
        break;
      case 3: add_breaker(panel, space, Half::whole, 3); break;
      case 4: case 5: add_breaker(panel, space, Half::whole, 2); break;
      default: add_breaker(panel, space, Half::whole, 1);
    }
  }
  tie_neighbours(panel);
}

/// Ties some breakers to the one below. Both are whole, so the run has no gap.
void HouseMaker::tie_neighbours(const Panel& panel) {
  for (Breaker& upper : house_.breakers) {
    if (upper.panel != panel.id || upper.tie || upper.half != Half::whole || !one_in(4)) continue;
    const auto below_it = space_below(panel, pole_places(panel, upper).back().space);
    if (!below_it) continue;
    const auto lower = std::ranges::find_if(house_.breakers, [&](const Breaker& b) {
      return b.panel == panel.id && b.space == *below_it && b.half == Half::whole && !b.tie;
    });
    if (lower != house_.breakers.end()) upper.tie = lower->tie = upper.id;
  }
}

/// Positions of a new device that carry every pole of `breaker`, tied; the first of them.
Id<Position> HouseMaker::tied_positions(const Breaker& breaker) {
  const Id<TransferDevice> device = add_device(TransferKind::circuits).id;
  const Id<Position> first = fresh<Position>();
  const int legs = leg_count(house_.dwelling.system);
  for (int pole = 1; pole <= breaker.poles; ++pole) {
    carried_.insert({breaker.id.value, pole});
    house_.positions.push_back({pole == 1 ? first : fresh<Position>(), device, pole, 20, (pole - 1) % legs + 1,
                                breaker.poles > 1 ? first : Id<Position>{}, breaker.id, pole});
  }
  return first;
}

void HouseMaker::subpanel() {
  Panel panel{fresh<Panel>(), name("panel"), any(house_.rooms).id, between(1, 16), any_word<Numbering>()};
  panel.main_amps = one_in(2) ? 60 : 0;
  panel.supply = Supply::nothing_known;
  if (!house_.breakers.empty() && !one_in(6)) {
    const Breaker feeder = any(house_.breakers);
    const bool free = std::ranges::none_of(house_.panels, [&](const Panel& p) { return p.feeder == feeder.id; }) &&
                      !carried_.contains({feeder.id.value, 1});
    if (free && !house_.sources.empty() && one_in(3)) {
      panel.supply = Supply::position;
      panel.position = tied_positions(feeder);
    } else if (free) {
      panel.supply = Supply::breaker;
      panel.feeder = feeder.id;
    }
  }
  house_.panels.push_back(panel);
  fill(panel);
}

/// A device whose positions carry single poles of breakers, some of them tied in pairs.
void HouseMaker::transfer_of_circuits() {
  const Id<TransferDevice> device = add_device(TransferKind::circuits).id;
  int number = 0;
  Id<Position> last;
  for (int i = between(2, 8); i > 0; --i) {
    Position position{fresh<Position>(), device, ++number, one_in(4) ? 0 : 15};
    position.leg = between(1, leg_count(house_.dwelling.system));
    const Breaker& breaker = any(house_.breakers);
    const int pole = between(1, breaker.poles);
    if (!one_in(5) && carried_.insert({breaker.id.value, pole}).second) position.breaker = breaker.id, position.pole = pole;
    if (last && one_in(3)) {
      house_.positions.back().tie = position.tie = last;
      last = {};
    } else {
      last = position.id;
    }
    house_.positions.push_back(position);
  }
}

/// Backfed breakers, and interlocks between them and a main or another breaker.
void HouseMaker::interlocks() {
  for (Breaker& breaker : house_.breakers) {
    if (house_.sources.empty() || !one_in(15)) continue;
    const bool feeder = std::ranges::any_of(house_.panels, [&](const Panel& p) { return p.feeder == breaker.id; });
    if (feeder || carried_.contains({breaker.id.value, 1})) continue;
    breaker.backfed_from = any(house_.sources).id;
    const Panel& panel = row(house_, breaker.panel);
    HandleRef other{HandleKind::main, panel.id.value};
    if (panel.main_amps == 0) other = {HandleKind::breaker, any(house_.breakers).id.value};
    HandleRef own{HandleKind::breaker, breaker.id.value};
    if (one_in(3)) std::swap(own, other);
    if (other.id != own.id && !one_in(4)) house_.interlocks.push_back({fresh<Interlock>(), other, own});
  }
}

void HouseMaker::panels() {
  Panel panel{fresh<Panel>(), name("panel"), any(house_.rooms).id, between(2, 12 + 2 * size_ % 60), any_word<Numbering>()};
  panel.supply = Supply::utility;
  panel.main_amps = one_in(4) ? 0 : 200;
  house_.panels.push_back(panel);
  if (!house_.sources.empty() && one_in(4)) whole_house_device();
  fill(house_.panels.front());
  for (int i = below(3); i > 0; --i) subpanel();
  if (!house_.sources.empty() && !house_.breakers.empty() && one_in(2)) transfer_of_circuits();
  interlocks();
}

/// Wires behind some breakers; neighbours in the list share a neutral now and then.
void HouseMaker::circuits() {
  for (const Breaker& breaker : house_.breakers) {
    if (one_in(4)) continue;
    Circuit circuit{fresh<Circuit>(), breaker.id, one_in(2) ? "12" : one_in(2) ? "2.5 mm2" : ""};
    circuit.material = any_word<WireMaterial>();
    circuit.length_m = below(80);
    if (breaker.poles == 2 && one_in(3)) circuit.multiwire = circuit.id;
    if (!house_.circuits.empty() && one_in(4)) {
      Circuit& before = house_.circuits.back();
      if (!before.multiwire) before.multiwire = before.id;
      circuit.multiwire = before.multiwire;
    }
    house_.circuits.push_back(circuit);
  }
}

}  // namespace ohmstead
