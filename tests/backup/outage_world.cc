#include "outage_world.h"

#include <algorithm>

#include "feed/what_if.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

class WorldMaker {
 public:
  WorldMaker(std::mt19937& random, WorldGear gear) : random_(random), gear_(gear) {}

  House make() {
    house_.dwelling.id = fresh<Dwelling>();
    house_.dwelling.name = "Test";
    house_.floors.push_back({fresh<Floor>(), "Ground", "", 0});
    for (int r = 0; r < 3; ++r) house_.rooms.push_back({.id = fresh<Room>(), .floor = house_.floors[0].id, .name = "Room " + std::to_string(r)});
    add_source();
    add_gear();
    fill(house_.panels.back());
    if (gear_ == WorldGear::positions || gear_ == WorldGear::automatic_positions) wire_positions();
    if (one_in(2)) keep_plan();
    return std::move(house_);
  }

 private:
  template <class Row>
  Id<Row> fresh() { return Id<Row>{(static_cast<std::uint64_t>(random_()) << 20 ^ random_()) | 1}; }
  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  bool one_in(int n) { return below(n) == 0; }

  void add_source() {
    Source source{.id = fresh<Source>(), .name = "G"};
    source.kind = one_in(4) ? SourceKind::battery_inverter : SourceKind::generator;
    source.output = one_in(5) ? SourceOutput::one_leg : one_in(6) ? SourceOutput::one_120_both_legs : SourceOutput::full;
    source.running_watts = 1000 + 500 * below(12);
    source.starting_watts = one_in(4) ? 0 : source.running_watts * (10 + below(6)) / 10;
    if (one_in(4)) source.leg_watts = source.running_watts * (5 + below(5)) / 10;
    if (one_in(4)) source.cord_amps = 30;
    house_.sources.push_back(source);
  }

  Panel& add_panel(const char* name, int main_amps) {
    return house_.panels.emplace_back(Panel{.id = fresh<Panel>(), .name = name, .room = house_.rooms[0].id, .spaces = 24,
                                            .supply = Supply::utility, .main_amps = main_amps});
  }

  void add_device(TransferKind kind, bool automatic) {
    house_.transfer_devices.push_back({fresh<TransferDevice>(), "T", house_.rooms[0].id, kind, house_.sources[0].id, automatic});
  }

  Position& add_position(int number, int amps, int leg) {
    return house_.positions.emplace_back(Position{.id = fresh<Position>(), .device = house_.transfer_devices.back().id, .number = number, .amps = amps, .leg = leg});
  }

  void add_gear() {
    Panel& main = add_panel("Main", 100);
    switch (gear_) {
      case WorldGear::positions:
      case WorldGear::automatic_positions: return add_device(TransferKind::circuits, gear_ == WorldGear::automatic_positions);
      case WorldGear::interlock: {
        house_.breakers.push_back({.id = fresh<Breaker>(), .panel = main.id, .space = 2, .poles = 2, .amps = 30, .backfed_from = house_.sources[0].id});
        const HandleRef first{HandleKind::main, main.id.value}, second{HandleKind::breaker, house_.breakers[0].id.value};
        if (!one_in(5)) house_.interlocks.push_back({fresh<Interlock>(), first, second});
        return;
      }
      case WorldGear::whole_house:
      case WorldGear::automatic_whole_house: {
        add_device(TransferKind::whole_house, gear_ == WorldGear::automatic_whole_house);
        const Id<Position> tie = fresh<Position>();
        const bool tied = !one_in(4);
        for (int leg = 1; leg <= 2; ++leg) {
          Position& position = add_position(leg, 0, leg);
          if (leg == 1) position.id = tie;
          if (tied) position.tie = tie;
          position.pole = leg;
        }
        house_.panels[0].supply = Supply::position;
        house_.panels[0].position = tie;
        if (tied) return;
        for (Position& position : house_.positions) position.tie = tie;  // a panel's positions are of one tied set
        return;
      }
      case WorldGear::critical_subpanel: return add_critical();
    }
  }

  void add_critical() {
    fill(house_.panels[0]);
    house_.breakers.push_back({.id = fresh<Breaker>(), .panel = house_.panels[0].id, .space = 22, .poles = 2, .amps = 60});
    add_device(TransferKind::circuits, one_in(3));
    const Id<Position> tie = fresh<Position>();
    for (int leg = 1; leg <= 2; ++leg) {
      Position& position = add_position(leg, one_in(2) ? 30 : 0, leg);
      if (leg == 1) position.id = tie;
      position.tie = tie;
      position.breaker = house_.breakers.back().id;
      position.pole = leg;
    }
    Panel& sub = add_panel("Critical", one_in(2) ? 60 : 0);
    sub.supply = Supply::position;
    sub.position = tie;
  }

  void fill(const Panel& panel) {
    const int count = 3 + below(7);
    for (int i = 0; i < count; ++i) {
      const bool two = one_in(5) && i % 2 == 0;
      Breaker breaker{.id = fresh<Breaker>(), .panel = panel.id, .space = two ? 2 * i + 1 : 2 * i + 1, .amps = one_in(2) ? 15 : 20};
      if (two) breaker.poles = 2, ++i;
      house_.breakers.push_back(breaker);
      const int points = below(3);
      for (int p = 0; p < points; ++p) add_point(breaker);
    }
  }

  void add_point(const Breaker& breaker) {
    Point point{.id = fresh<Point>(), .room = house_.rooms[static_cast<std::size_t>(below(3))].id, .name = "point " + std::to_string(house_.points.size())};
    point.hots = breaker.poles == 2 && !one_in(3) ? 2 : 1;
    house_.points.push_back(point);
    for (int hot = 1; hot <= point.hots; ++hot)
      house_.declared_feeds.push_back({.id = fresh<DeclaredFeed>(), .point = point.id, .hot = hot, .breaker = breaker.id, .pole = point.hots == 2 ? hot : 1 + below(breaker.poles)});
    const int loads = one_in(3) ? 2 : one_in(5) ? 0 : 1;
    for (int l = 0; l < loads; ++l) add_load(point);
  }

  void add_load(const Point& point) {
    Load load{.id = fresh<Load>(), .point = point.id, .name = "thing " + std::to_string(house_.loads.size()), .basis = FigureBasis::nameplate};
    load.running_watts = one_in(4) ? 1000 + below(1500) : 50 + below(500);
    if (one_in(3)) load.starting_watts = *load.running_watts * (12 + below(25)) / 10;
    load.importance = one_in(7) ? Importance::life_safety : static_cast<Importance>(below(3));
    load.use = static_cast<LoadUse>(below(4));
    if (one_in(2)) load.use = LoadUse::together;
    load.starts_itself = load.starting_watts.has_value() && one_in(2);
    house_.loads.push_back(load);
  }

  void wire_positions() {
    const int last = house_.sources[0].output == SourceOutput::one_leg ? 1 : 2;
    int number = 1;
    for (const Breaker& breaker : house_.breakers) {
      if (one_in(3) || (breaker.poles == 2 && last == 1)) continue;
      const Id<Position> tie = fresh<Position>();
      for (int pole = 1; pole <= breaker.poles; ++pole) {
        Position& position = add_position(number++, one_in(6) ? 0 : breaker.amps, breaker.poles == 2 ? pole : 1 + below(last));
        if (pole == 1) position.id = tie;
        if (breaker.poles == 2) position.tie = tie;
        position.breaker = breaker.id;
        position.pole = pole;
      }
    }
    if (number == 1) {
      Position& position = add_position(1, 15, 1);
      position.breaker = house_.breakers.front().id;
    }
  }

  void keep_plan() {
    for (const Breaker& breaker : house_.breakers) {
      if (breaker.backfed_from || one_in(3)) continue;
      for (int pole = 1; pole <= breaker.poles; ++pole) {
        const auto wired = std::ranges::find_if(house_.positions, [&](const Position& p) { return p.breaker == breaker.id && p.pole == pole; });
        const bool rides = wired != house_.positions.end() && gear_ != WorldGear::critical_subpanel;
        house_.planned.push_back({fresh<Planned>(), breaker.id, pole, rides ? wired->id : Id<Position>{}});
      }
    }
  }

  std::mt19937& random_;
  WorldGear gear_;
  House house_;
};

/// What the source carries in a state: for each load and then each guest, which of its legs it draws on.
struct Carried {
  std::vector<bool> on;
  std::vector<std::vector<int>> legs;  ///< 0-based, one for each hot
};

Carried carried(const House& house, const Graph& graph, const OutageWorld& world, const std::vector<GuestThing>& guests) {
  const Liveness live = liveness(graph, world.state);
  Carried all;
  const auto add = [&](std::size_t point, bool switched_on) {
    std::vector<int> legs;
    bool working = switched_on && point < house.points.size() && state_by_record(graph, live, point) == PointState::working;
    for (int hot = 0; working && hot < house.points[point].hots; ++hot) {
      const Terminal& terminal = graph.terminals[live.label[graph.point_hots[point][static_cast<std::size_t>(hot)]] - 1U];
      working = terminal.source == 1;
      legs.push_back(terminal.leg - 1);
    }
    all.on.push_back(working);
    all.legs.push_back(legs);
  };
  for (std::size_t l = 0; l < house.loads.size(); ++l) {
    const auto point = std::ranges::find(house.points, house.loads[l].point, &Point::id);
    add(static_cast<std::size_t>(point - house.points.begin()), world.load_on[l]);
  }
  for (const GuestThing& guest : guests) add(guest.point, true);
  return all;
}

}  // namespace

House outage_house(std::mt19937& random, WorldGear gear) { return WorldMaker(random, gear).make(); }

std::size_t faults_of(const Graph& graph, const State& state) {
  State live = state;
  live.live_legs.assign(live.live_legs.size(), 0xFF);
  return broken_interlocks(graph, state).size() + liveness(graph, live).joined.size();
}

std::string passes_limit(const House& house, const Graph& graph, const OutageWorld& before, const OutageWorld& after,
                         const std::vector<GuestThing>& guests) {
  const Carried was = carried(house, graph, before, guests), is = carried(house, graph, after, guests);
  double running[4] = {}, starts[4] = {}, later[4] = {};  // legs, then in all
  bool more = false;
  for (std::size_t i = 0; i < is.on.size(); ++i) {
    if (!is.on[i]) continue;
    const bool load = i < house.loads.size();
    const double runs = load ? house.loads[i].running_watts.value_or(0) : guests[i - house.loads.size()].running;
    const double start = load ? house.loads[i].starting_watts.value_or(house.loads[i].running_watts.value_or(0)) : guests[i - house.loads.size()].starting;
    more = more || !was.on[i];
    const double hots = static_cast<double>(is.legs[i].size());
    for (std::size_t place = 0; place < 4; ++place) {
      const double part = place == 3 ? 1 : static_cast<double>(std::ranges::count(is.legs[i], static_cast<int>(place))) / hots;
      running[place] += part * runs;
      if (!was.on[i]) starts[place] += part * (start - runs);
      else if (load && house.loads[i].starts_itself) later[place] = std::max(later[place], part * (start - runs));
    }
  }
  if (!more) return "";
  const Source& source = house.sources[0];
  const bool shares = source.output == SourceOutput::full;
  const double part = after.most_watts > 0 ? std::min(1.0, static_cast<double>(after.most_watts) / source.running_watts) : 1;
  const double cord = source.cord_amps > 0 ? source.cord_amps * 120.0 : 1e9, all = source.running_watts * part;
  const double most_starting = std::max(source.starting_watts, source.running_watts) * part;
  const double share = shares ? (source.leg_watts > 0 ? source.leg_watts : source.running_watts / 2.0) / source.running_watts : 1;
  for (std::size_t place = 0; place < 4; ++place) {
    const double most = place == 3 ? all : std::min(all * share, cord), most_start = place == 3 ? most_starting : most_starting * share;
    if (running[place] > most + 3) return "running watts of place " + std::to_string(place) + ": " + std::to_string(running[place]) + " above " + std::to_string(most);
    if (running[place] + std::max(starts[place], later[place]) > most_start + 3) return "starting watts of place " + std::to_string(place) + ": " + std::to_string(running[place]) + " with " + std::to_string(starts[place]) + " or " + std::to_string(later[place]) + " above " + std::to_string(most_start);
  }
  return "";
}

}  // namespace ohmstead
