// The second half of CaseBuilder: neighbours that come along, what is wired now, pins and doubts.

#include <algorithm>
#include <set>

#include "backup/case_builder.h"

namespace ohmstead::backup_detail {

void CaseBuilder::add_connected_and_pinned() {
  for (const Position& position : house_.positions)
    if (std::ranges::find(case_.positions, position.id) != case_.positions.end())
      if (const long at = breaker_index_.at(position.breaker); at >= 0) (void)circuit_of(static_cast<std::size_t>(at));
  for (const Pin& pin : house_.pins) {
    const long at = breaker_index_.at(pin.breaker);
    if (at >= 0 && (!pin.never || groups_[group_of_[static_cast<std::size_t>(at)]].circuit >= 0)) (void)circuit_of(static_cast<std::size_t>(at));
  }
}

void CaseBuilder::number_multiwire(int number, const std::vector<std::size_t>& members) {
  for (const std::size_t at : members) {
    const int circuit = circuit_of(at);
    PlanCircuit& plan = case_.problem.circuits[static_cast<std::size_t>(circuit)];
    if (plan.poles == 1) plan.multiwire = number;
    else plan.shared_neutral = true;
  }
}

/// If one circuit of a shared neutral is in the case, all are.
void CaseBuilder::join_multiwire() {
  std::set<Id<Circuit>> shared;
  for (const Circuit& circuit : house_.circuits)
    if (circuit.multiwire) shared.insert(circuit.multiwire);
  int number = 0;
  for (const Id<Circuit> one : shared) {
    std::vector<std::size_t> members;
    bool asked_for = false;
    for (const Circuit& circuit : house_.circuits)
      if (const long at = circuit.multiwire == one ? breaker_index_.at(circuit.breaker) : -1; at >= 0) {
        members.push_back(static_cast<std::size_t>(at));
        asked_for = asked_for || groups_[group_of_[members.back()]].circuit >= 0;
      }
    if (asked_for && members.size() > 1) number_multiwire(number++, members);
  }
}

void CaseBuilder::add_positions_now() {
  for (std::size_t p = 0; p < case_.positions.size(); ++p) {
    const Position& position = *find_row(house_, case_.positions[p]);
    const long at = breaker_index_.at(position.breaker);
    if (at < 0) continue;
    const int circuit = circuit_of(static_cast<std::size_t>(at));
    const int pole = pole_in(circuit, {position.breaker, position.pole});
    case_.problem.circuits[static_cast<std::size_t>(circuit)].position_now[static_cast<std::size_t>(pole)] = static_cast<int>(p);
  }
}

void CaseBuilder::add_pins() {
  for (const Pin& pin : house_.pins) {
    const long at = breaker_index_.at(pin.breaker);
    const int circuit = at < 0 ? -1 : groups_[group_of_[static_cast<std::size_t>(at)]].circuit;
    if (circuit < 0) continue;
    const auto position = std::ranges::find(case_.positions, pin.position);
    if (pin.position && position == case_.positions.end())
      throw Error(ErrorKind::invalid_input, "A circuit is pinned to a position that is not of the transfer device of source '" + source_.name +
                                                "'; take the pin away with `ohmstead plan --unpin`.");
    case_.problem.pins.push_back({pin.never ? PinKind::never : pin.position ? PinKind::at : PinKind::must, circuit,
                                  pin.position ? static_cast<int>(position - case_.positions.begin()) : -1});
  }
}

void CaseBuilder::add_doubts() {
  using Kind = PlanDoubt::Kind;
  if (source_.starting_watts == 0) case_.doubts.push_back({Kind::starting_not_known, {}, {}});
  if (source_.leg_watts == 0 && case_.problem.source.legs > 1 && !case_.problem.source.in_phase) case_.doubts.push_back({Kind::leg_share_assumed, {}, {}});
  for (std::size_t c = 0; c < case_.circuits.size(); ++c) {
    CarriedCircuit& circuit = case_.circuits[c];
    for (const BreakerPole& pole : circuit.poles)
      if (pole.pole == 1 && find_row(house_, pole.breaker)->amps == 0) case_.doubts.push_back({Kind::breaker_not_read, {}, pole.breaker});
    for (std::size_t l = 0; l < house_.loads.size(); ++l) {
      if (wanted_use(house_.loads[l]) != LoadUse::not_wanted) continue;
      const auto point = std::ranges::find(house_.points, house_.loads[l].point, &Point::id);
      if (point == house_.points.end()) continue;
      const Feed& feed = feeds_.of_point[static_cast<std::size_t>(point - house_.points.begin())];
      if (feed.standing < Standing::likely || feed.taps.empty()) continue;
      const auto pole = carrying({feed.taps.front().breaker, feed.taps.front().pole});
      if (pole && std::ranges::find(circuit.poles, pole->breaker, &BreakerPole::breaker) != circuit.poles.end()) circuit.unwanted.push_back(l);
    }
  }
}

}  // namespace ohmstead::backup_detail
