#include "proving_world.h"

#include <algorithm>
#include <cstdio>

#include "house/index.h"
#include "house/numbering.h"
#include "proving_house_maker.h"

namespace ohmstead::test {

namespace {

std::string clock(int seconds) {
  char text[32];
  std::snprintf(text, sizeof text, "2026-03-%02dT%02d:%02d:%02dZ", 1 + seconds / 86'400 % 28, seconds / 3600 % 24, seconds / 60 % 60, seconds % 60);
  return text;
}

/// Builds a random house.
class Maker : private ProvingHouseMaker {
 public:
  explicit Maker(unsigned seed) : ProvingHouseMaker(seed) { some_briefly_ = true; }

  ProvingWorld make() {
    begin();
    house_.panels[0].main_amps = one_in(8) ? 0 : 100;
    world_.source = house_.sources[0].id;
    house_.transfer_devices.push_back({Id<TransferDevice>::fresh(), "T", house_.rooms[0].id, TransferKind::circuits, world_.source});
    const int circuits = between(8, 20);
    for (int c = 0; c < circuits; ++c) one_in(5) ? two_pole() : single();
    positions();
    loads();
    world_.house = std::move(house_);
    world_.wire_as_recorded();
    return std::move(world_);
  }

 private:
  void positions() {
    std::vector<std::size_t> order(house_.breakers.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::ranges::shuffle(order, random_);
    int left = between(2, 10), number = 1;
    for (const std::size_t b : order) {
      const Breaker& breaker = house_.breakers[b];
      if (left < breaker.poles) continue;
      Id<Position> tie;
      for (int pole = 1; pole <= breaker.poles; ++pole) {
        Position position{Id<Position>::fresh(), house_.transfer_devices[0].id, number, 15, breaker.poles == 2 ? pole : 1 + number % 2, {}, breaker.id, pole};
        if (breaker.poles == 2 && pole == 1) tie = position.id;
        position.tie = tie;
        house_.positions.push_back(position);
        ++number, --left;
      }
      if (left == 0) break;
    }
  }

  void loads() {
    for (const Point& point : house_.points)
      if (one_in(15)) {
        Load load{.id = Id<Load>::fresh(), .point = point.id, .name = "load"};
        load.hurt_by_power_loss = one_in(2);
        if (load.hurt_by_power_loss && one_in(3)) load.importance = Importance::life_safety;
        house_.loads.push_back(load);
      }
  }

  ProvingWorld world_;
};

}  // namespace

void ProvingWorld::wire_as_recorded() {
  wires.clear();
  for (const Position& position : house.positions) {
    const auto breaker = std::ranges::find(house.breakers, position.breaker, &Breaker::id);
    Wired wired;
    if (breaker != house.breakers.end()) wired.breaker = static_cast<int>(breaker - house.breakers.begin()), wired.pole = position.pole;
    wired.leg = position.leg;
    wires.push_back(wired);
  }
}

std::size_t ProvingWorld::at(int number) const {
  return static_cast<std::size_t>(std::ranges::find(house.positions, number, &Position::number) - house.positions.begin());
}
std::size_t ProvingWorld::breaker_in(int space) const {
  return static_cast<std::size_t>(std::ranges::find(house.breakers, space, &Breaker::space) - house.breakers.begin());
}

int ProvingWorld::utility_leg(int breaker, int pole) const {
  const Breaker& row = house.breakers[static_cast<std::size_t>(breaker)];
  return bus_leg(house.panels[0], pole_places(house.panels[0], row)[static_cast<std::size_t>(pole - 1)].space, 2);
}

std::vector<Throw> ProvingWorld::stands_of(const ProofState& state, const ProofWiring& wiring) const {
  std::vector<Throw> stands(house.positions.size(), kUtilitySide);
  for (std::size_t u = 0; u < wiring.units.size(); ++u)
    for (const std::size_t p : wiring.units[u].positions) stands[p] = state.units[u];
  return stands;
}

/// A leg of the panel: from the utility, else from the source where a wire lets it.
ProvingWorld::Live ProvingWorld::bus(int leg, const std::vector<Throw>& stands, const ProofState& state) const {
  if (state.utility) return {0, leg};
  if (!state.running) return {};
  for (std::size_t p = 0; p < wires.size(); ++p) {
    const Wired& wired = wires[p];
    if (wired.breaker < 0 || stands[p] != kBackupSide || !wired.backup_side || (!wired.parallel && !wired.turned_round)) continue;
    const bool breaker_off = std::ranges::find(state.off, house.breakers[static_cast<std::size_t>(wired.breaker)].id) != state.off.end();
    if (!breaker_off && utility_leg(wired.breaker, wired.pole) == leg) return {1, wired.leg};
  }
  return {};
}

ProvingWorld::Live ProvingWorld::wire(int breaker, int pole, const std::vector<Throw>& stands, const ProofState& state) const {
  const bool on = std::ranges::find(state.off, house.breakers[static_cast<std::size_t>(breaker)].id) == state.off.end();
  const Live from_breaker = on ? bus(utility_leg(breaker, pole), stands, state) : Live{};
  for (std::size_t p = 0; p < wires.size(); ++p) {
    const Wired& wired = wires[p];
    if (wired.breaker != breaker || wired.pole != pole) continue;
    Live live;
    if (stands[p] == kUtilitySide && wired.utility_side) live = from_breaker;
    if (stands[p] == kBackupSide && wired.backup_side && !wired.turned_round && state.running && !state.utility) live = {1, wired.leg};
    return live.source < 0 && wired.parallel ? from_breaker : live;
  }
  return from_breaker;
}

bool ProvingWorld::works(std::size_t point, const ProofState& state, const ProofWiring& wiring) const {
  const auto stands = stands_of(state, wiring);
  std::vector<Live> hots;
  for (const DeclaredFeed& feed : house.declared_feeds)
    if (feed.point == house.points[point].id)
      hots.push_back(wire(static_cast<int>(std::ranges::find(house.breakers, feed.breaker, &Breaker::id) - house.breakers.begin()), feed.pole, stands, state));
  for (const Live& hot : hots)
    if (hot.source < 0) return false;
  return hots.size() < 2 || (hots[0].leg != hots[1].leg && hots[0].source == hots[1].source);
}

ProvingWorld random_world(unsigned seed) { return Maker(seed).make(); }

/// A position on backup only while the main is off; main on only while every position is on utility or off and, if the source runs, all
/// are on utility; nothing that may be off only alone off with others.
void Prover::judge(const ProvingSession& session) {
  const ProofStep& step = session.step();
  const ProofState now = session.now(), &after = step.after;
  const auto any = [](const ProofState& state, Throw stands) { return std::ranges::find(state.units, stands) != state.units.end(); };
  if (after.utility && any(after, kBackupSide)) ++unlawful;
  if (after.utility && after.running && !after.all_on_utility()) ++unlawful;
  if ((step.kind == ProofStepKind::to_source || step.kind == ProofStepKind::to_utility) && !now.all_on_utility()) ++unlawful;
  if (step.kind == ProofStepKind::start_source && now != ProofState{.units = now.units}) ++unlawful;
  int off = 0, alone = 0;
  for (std::size_t u = 0; u < after.units.size(); ++u) {
    off += after.units[u] == kOff;
    alone += after.units[u] == kOff && session.wiring().units[u].alone;
    if (after.units[u] == kOff && session.wiring().units[u].never) ++unlawful;
  }
  if (alone > 0 && off > 1) ++unlawful;
}

ProofAnswer Prover::answer(const ProvingSession& session) {
  judge(session);
  const ProofStep& step = session.step();
  seconds += 12;
  ProofAnswer answer{ProofAnswerKind::done, Method::tester, clock(8 * 3600 + seconds), "prover"};
  if (step.kind == ProofStepKind::look) {
    ++looks;
    const auto point = static_cast<std::size_t>(std::ranges::find(world.house.points, step.point, &Point::id) - world.house.points.begin());
    const bool wrong = std::uniform_real_distribution<>(0, 1)(random) < error;
    answer.kind = world.works(point, session.now(), session.wiring()) != wrong ? ProofAnswerKind::live : ProofAnswerKind::dead;
  } else if (step.kind != ProofStepKind::caution) {
    ++moves;
  }
  return answer;
}

}  // namespace ohmstead::test
