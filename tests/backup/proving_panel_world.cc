#include "proving_panel_world.h"

#include <algorithm>
#include <cstdio>

#include "house/index.h"
#include "house/numbering.h"
#include "proving_house_maker.h"

namespace ohmstead::test {

namespace {

class Maker : private ProvingHouseMaker {
 public:
  explicit Maker(unsigned seed) : ProvingHouseMaker(seed) {}

  PanelWorld make() {
    begin();
    world_.source = house_.sources[0].id;
    world_.whole_house = one_in(3);
    world_.whole_house ? add_switch() : add_backfed();
    const int circuits = between(8, 20);
    for (int c = 0; c < circuits; ++c) one_in(5) ? two_pole() : single();
    keep();
    for (std::size_t b = 0; b < house_.breakers.size(); ++b) world_.really_on.push_back(static_cast<int>(b));
    world_.house = std::move(house_);
    return std::move(world_);
  }

 private:
  void add_switch() {
    house_.transfer_devices.push_back({Id<TransferDevice>::fresh(), "T", house_.rooms[0].id, TransferKind::whole_house, world_.source});
    for (int leg = 1; leg <= 2; ++leg) {
      Position position{Id<Position>::fresh(), house_.transfer_devices[0].id, leg, 0, leg, {}, {}, leg};
      position.tie = leg == 1 ? position.id : house_.positions[0].id;
      house_.positions.push_back(position);
    }
    house_.panels[0].supply = Supply::position, house_.panels[0].position = house_.positions[0].id;
  }
  void add_backfed() {
    const Id<Breaker> way = add_breaker(2);
    row(house_, way).backfed_from = world_.source;
    const HandleRef main{HandleKind::main, house_.panels[0].id.value}, backfed{HandleKind::breaker, way.value};
    house_.interlocks.push_back({Id<Interlock>::fresh(), one_in(2) ? main : backfed, {}});
    house_.interlocks[0].second = house_.interlocks[0].first == main ? backfed : main;
  }
  void keep() {
    std::vector<std::size_t> order;
    for (std::size_t b = 0; b < house_.breakers.size(); ++b)
      if (!house_.breakers[b].backfed_from) order.push_back(b);
    std::ranges::shuffle(order, random_);
    order.resize(static_cast<std::size_t>(between(2, 7)));
    for (const std::size_t b : order)
      for (int pole = 1; pole <= house_.breakers[b].poles; ++pole) house_.planned.push_back({Id<Planned>::fresh(), house_.breakers[b].id, pole, {}});
  }

  PanelWorld world_;
};

}  // namespace

PanelWorld random_panel_world(unsigned seed) { return Maker(seed).make(); }

int PanelWorld::place_of(Id<Breaker> breaker) const { return static_cast<int>(std::ranges::find(house.breakers, breaker, &Breaker::id) - house.breakers.begin()); }

bool PanelWorld::is_kept(int breaker) const {
  return std::ranges::find(house.planned, house.breakers[static_cast<std::size_t>(breaker)].id, &Planned::breaker) != house.planned.end();
}

int PanelWorld::leg_of(int breaker, int pole) const {
  const Breaker& of = house.breakers[static_cast<std::size_t>(breaker)];
  return bus_leg(house.panels[0], pole_places(house.panels[0], of)[static_cast<std::size_t>(pole - 1)].space, 2) - 1;
}

bool PanelWorld::is_on(int breaker, const ProofState& state) const {
  return std::ranges::find(state.off, house.breakers[static_cast<std::size_t>(breaker)].id) == state.off.end();
}

std::vector<PanelWorld::Live> PanelWorld::bus(int leg, const ProofState& state) const {
  std::vector<Live> all;
  if (state.utility || leaks[leg]) all.push_back({0, leg + 1});
  for (const int b : from_street)  // through its breaker
    if (const int on = really_on[static_cast<std::size_t>(b)]; on >= 0 && leg_of(on, 1) == leg && is_on(on, state)) all.push_back({0, leg + 1});
  if (!state.utility && state.running && state.let_in && source_leg[leg] > 0) all.push_back({1, source_leg[leg]});
  return all;
}

PanelWorld::Live PanelWorld::wire(int breaker, int pole, const ProofState& state) const {
  if (pole == 1 && from_street.contains(breaker)) return {0, leg_of(breaker, 1) + 1};
  const int on = really_on[static_cast<std::size_t>(breaker)];
  if (on < 0 || !is_on(on, state)) return {};
  const auto all = bus(leg_of(on, std::min(pole, house.breakers[static_cast<std::size_t>(on)].poles)), state);
  return all.empty() ? Live{} : all.front();
}

bool PanelWorld::works(std::size_t point, const ProofState& state) const {
  if (broken.contains(point)) return false;
  std::vector<Live> hots;
  for (const DeclaredFeed& feed : house.declared_feeds)
    if (feed.point == house.points[point].id) hots.push_back(wire(place_of(feed.breaker), feed.pole, state));
  for (const Live& hot : hots)
    if (hot.source < 0) return false;
  return hots.size() < 2 || (hots[0].leg != hots[1].leg && hots[0].source == hots[1].source);
}

bool PanelWorld::meets(const ProofState& state) const {
  for (int leg = 0; leg < 2; ++leg) {
    const auto all = bus(leg, state);
    const auto is_from = [&](int which) { return std::ranges::find(all, which, &Live::source) != all.end(); };
    if (is_from(0) && is_from(1)) return true;
  }
  return false;
}

/// The source runs and is let in only while the panel is parted, and never where the truth would join it to the street; an interlock is tried only with
/// the source standing still.
ProofAnswer PanelProver::answer(const ProvingSession& session) {
  const ProofStep& step = session.step();
  const ProofState now = session.now();
  if (step.after.utility && step.after.let_in) ++unlawful;
  if (step.kind != ProofStepKind::start_source && world.meets(step.after)) ++unlawful;
  if (step.kind == ProofStepKind::try_interlock && now.running) ++unlawful;
  if (step.kind == ProofStepKind::start_source && now.utility) ++unlawful;
  if (step.kind == ProofStepKind::to_source && (!now.running || now.utility)) ++unlawful;
  seconds += 12;
  char at[32];
  std::snprintf(at, sizeof at, "2026-03-%02dT%02d:%02d:%02dZ", 1 + seconds / 86'400 % 28, seconds / 3600 % 24, seconds / 60 % 60, seconds % 60);
  ProofAnswer answer{ProofAnswerKind::done, Method::tester, at, "prover"};
  if (step.kind == ProofStepKind::look) {
    ++looks;
    const auto point = static_cast<std::size_t>(std::ranges::find(world.house.points, step.point, &Point::id) - world.house.points.begin());
    const bool wrong = std::uniform_real_distribution<>(0, 1)(random) < error;
    answer.kind = world.works(point, now) != wrong ? ProofAnswerKind::live : ProofAnswerKind::dead;
  } else if (step.kind == ProofStepKind::try_interlock) {
    ++moves;
    const bool is_main = step.moves.front().handle.kind == HandleKind::main;
    answer.kind = (is_main ? world.main_blocked : world.way_blocked) ? ProofAnswerKind::blocked : ProofAnswerKind::not_blocked;
  } else if (step.kind != ProofStepKind::caution) {
    ++moves;
  }
  return answer;
}

}  // namespace ohmstead::test
