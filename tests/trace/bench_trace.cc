// Runs tracing sessions on invented houses with their truth and counts what they cost.
//
//   bench_trace HOUSES.json [error percent] [all | even | odd] [how many]
//
// `even` and `odd` take every second house: one half to choose numbers by, the other to report.
// The careful way without a program runs on the same houses; the ratio is to its minutes.
// The file is an array of houses: rooms, walk_s (seconds between rooms), panel_room, breakers
// (id, slot, poles, amps, only_alone, label), points (room, class, kind, volts, check_s) and truth
// (breaker_of_point, dead_at_start, both by point). Cost model, in seconds: walking as given,
// entering a room 5, a look check_s, a handle 4, a breaker turned off 20, trying to repair 20.

#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/trace/bench_tally.h"
#include "tests/trace/careful_way.h"
#include "tests/trace/simulated_house.h"

namespace ohmstead::test {
namespace {

using Json = nlohmann::json;

PointKind kind_of(const std::string& text) {
  if (text == "light") return PointKind::light;
  if (text == "receptacle") return PointKind::receptacle;
  return text == "smoke_alarm" ? PointKind::alarm : PointKind::appliance;
}

void add_rooms(HouseMaker& made, const Json& json) {
  made.house.rooms.clear();
  const int storeys = json["floors"].get<int>() + 2;
  for (int level = 0; level < storeys; ++level)
    made.house.floors.push_back({Id<Floor>::fresh(), "Floor " + std::to_string(level), "", level - 1});
  for (const Json& room : json["rooms"]) {
    made.add_room(room["name"]);
    made.house.rooms.back().floor = made.house.floors[static_cast<std::size_t>(room["floor"].get<int>() + 2)].id;
  }
  for (std::size_t a = 0; a < made.house.rooms.size(); ++a)
    for (std::size_t b = 0; b < a; ++b)
      made.house.walks.push_back({Id<Walk>::fresh(), made.house.rooms[a].id, made.house.rooms[b].id,
                                  static_cast<int>(std::lround(json["walk_s"][a][b].get<double>()))});
  made.house.panels[0].room = made.house.rooms[json["panel_room"].get<std::size_t>()].id;
}

HouseMaker read_house(const Json& json) {
  HouseMaker made(60);
  add_rooms(made, json);
  for (const Json& breaker : json["breakers"]) {
    made.add_breaker(breaker["slot"], breaker["poles"], breaker["amps"],
                     breaker["label"].is_null() ? "" : breaker["label"].get<std::string>());
    if (breaker["only_alone"].get<bool>()) made.house.breakers.back().open_rule = OpenRule::briefly_alone;
  }
  for (std::size_t i = 0; i < json["points"].size(); ++i) {
    const Json& point = json["points"][i];
    const int fed_by = json["truth"]["breaker_of_point"][i], hots = point["volts"] == 240 ? 2 : 1;
    std::vector<Tap> feed;
    for (int hot = 1; hot <= hots && fed_by >= 0; ++hot)
      feed.push_back({hot, made.house.breakers[static_cast<std::size_t>(fed_by)].id, hot});
    made.add_point(made.house.rooms[point["room"].get<std::size_t>()].id,
                   point["kind"].get<std::string>() + " " + std::to_string(i), feed, hots, kind_of(point["class"]));
    if (point.contains("mate")) made.house.points.back().half = i < point["mate"] ? ReceptacleHalf::upper : ReceptacleHalf::lower;
    if (point.contains("mate") && i > point["mate"]) {
      Point& other = made.house.points[point["mate"].get<std::size_t>()];
      other.mate = made.house.points[i].id, made.house.points[i].mate = other.id;
    }
    made.truth.at_start[i] = static_cast<AtStart>(json["truth"]["dead_at_start"][i].get<int>());
  }
  return made;
}

/// Adds up what one session costs.
class Meter {
 public:
  explicit Meter(const Json& json, const House& house) : json_(json), house_(house), panel_(json["panel_room"]), at_(panel_) {}

  void add(const Step& step) {
    double cost = 0;
    if (step.kind == StepKind::open || step.kind == StepKind::close) {
      cost = walk_to(panel_) + kHandleCost + (step.kind == StepKind::open ? kNuisanceCost : 0);
      if (step.kind == StepKind::open) ++tally.opened, alone_ = step.briefly, open_since_ = tally.seconds + cost;
      else if (alone_ && tally.seconds + cost - open_since_ > kBriefSeconds) ++tally.broken_rules;
    }
    if (step.kind == StepKind::look || step.kind == StepKind::ask_dead) {
      const auto point = static_cast<std::size_t>(Index<Point>(house_.points).at(step.point));
      const std::size_t room = json_["points"][point]["room"];
      cost = room == at_ && in_room_ ? 0 : walk_to(room) + kEnterCost;
      in_room_ = true;
      cost += json_["points"][point]["check_s"].get<double>() + (step.kind == StepKind::ask_dead ? kRepairCost : 0);
      ++tally.looks;
    }
    tally.seconds += cost;
  }
  Tally tally;

 private:
  double walk_to(std::size_t room) {
    const double cost = json_["walk_s"][at_][room];
    at_ = room;
    in_room_ = false;
    return cost;
  }
  const Json& json_;
  const House& house_;
  std::size_t panel_, at_;
  bool in_room_ = false, alone_ = false;
  double open_since_ = 0;
};

void judge(const HouseMaker& made, const TraceSession& session, const Json& json, Tally& tally) {
  const Conclusions& all = session.conclusions();
  for (std::size_t p = 0; p < made.house.points.size(); ++p) {
    const UnitConclusion& unit = all.units[all.readings.unit_of_point[p]];
    const int truth = json["truth"]["breaker_of_point"][p];
    const bool dead_for_good = json["truth"]["dead_at_start"][p] == 2;
    if (unit.feed.standing == Standing::proved) {
      const bool right = truth >= 0 && !dead_for_good && unit.feed.taps[0].breaker == made.house.breakers[static_cast<std::size_t>(truth)].id;
      tally.wrong += right ? 0 : 1;
    } else if (!(dead_for_good && unit.dead_anyway) && !(truth < 0 && unit.unexplained)) {
      ++tally.unresolved;
    }
  }
}

Tally run(const Json& json, double error) {
  HouseMaker made = read_house(json);
  TraceSession session(made.house);
  Walker walker(made.truth, error, json["seed"].get<unsigned>());
  Meter meter(json, made.house);
  for (int i = 0; i < 20'000 && session.step().kind != StepKind::done; ++i) {
    const double before = meter.tally.seconds;
    meter.add(session.step());
    walker.clock.after(static_cast<int>(meter.tally.seconds - before) - 9);
    const Answer answer = walker.answer(session);
    const auto start = std::chrono::steady_clock::now();
    session.answer(answer);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    meter.tally.slowest_step_ms = std::max(meter.tally.slowest_step_ms, took.count());
  }
  judge(made, session, json, meter.tally);
  return meter.tally;
}

void print(const char* way, const Tally& sum, double n, double careful_seconds) {
  std::printf("%-12s minutes %.1f  ratio %.3f  breakers opened %.1f  looks %.0f  wrong %.2f  unresolved %.2f  broken rules %.2f\n",
              way, sum.seconds / 60 / n, sum.seconds / careful_seconds, sum.opened / n, sum.looks / n, sum.wrong / n,
              sum.unresolved / n, sum.broken_rules / n);
}

int bench(const char* path, double error, const std::string& which, int most) {
  std::ifstream in(path);
  const Json houses = Json::parse(in);
  Tally careful, guided;
  int n = 0;
  for (std::size_t i = which == "odd" ? 1 : 0; i < houses.size() && n < most; i += which == "all" ? 1 : 2, ++n) {
    careful.add(CarefulWay(houses[i], error).run());
    guided.add(run(houses[i], error));
  }
  std::printf("%d houses (%s), reading errors %.1f %%, one breaker open at a time\n", n, which.c_str(), error * 100);
  print("careful way", careful, n, careful.seconds);
  print("guided", guided, n, careful.seconds);
  std::printf("slowest step %.1f ms\n", guided.slowest_step_ms);
  return 0;
}

}  // namespace
}  // namespace ohmstead::test

int main(int argc, char** argv) {
  if (argc < 2) {
    std::puts("usage: bench_trace HOUSES.json [error percent] [all | even | odd] [how many]");
    return 2;
  }
  return ohmstead::test::bench(argv[1], argc > 2 ? std::atof(argv[2]) / 100 : 0.01, argc > 3 ? argv[3] : "all",
                                argc > 4 ? std::atoi(argv[4]) : 1'000'000);
}
