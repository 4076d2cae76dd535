#include "tests/trace/behind_world.h"

#include "house/walking.h"
#include "tests/trace/cost_meter.h"
#include "tests/trace/world_house.h"
#include "tests/trace/world_maker.h"
#include "trace/choice.h"
#include "house/tour.h"

namespace ohmstead::test {

namespace {

/// Adds devices to one house.
class DeviceMaker {
 public:
  DeviceMaker(const World& world, DeviceWorld& into, unsigned seed) : world_(world), into_(into), house_(into.made.house), random_(seed) {}

  void add_gfcis() {
    for (const char* type : {"bath", "kitchen", "garage", "outdoor"}) {
      for (std::size_t p = 0; p < world_.points.size(); ++p) {
        const WorldPoint& point = world_.points[p];
        if (!is_plain_receptacle(point) || type_of(point) != type || (type != std::string("bath") && taken_types_.contains(type))) continue;
        if (taken_types_.contains(type) && percent(60)) continue;
        taken_types_.insert(type);
        add_gfci(p);
        break;
      }
    }
  }

  void add_switches() {
    for (std::size_t r = 0; r < world_.rooms.size(); ++r)
      if (percent(30)) add_switch(static_cast<int>(r));
  }

 private:
  [[nodiscard]] bool percent(int chance) { return static_cast<int>(random_() % 100) < chance; }
  [[nodiscard]] static bool is_plain_receptacle(const WorldPoint& point) {
    return point.is == PointClass::receptacle && point.breaker >= 0 && point.at_start == AtStart::live && point.mate < 0;
  }
  [[nodiscard]] const std::string& type_of(const WorldPoint& point) const { return world_.rooms[static_cast<std::size_t>(point.room)].type; }

  Id<Device> add_device(DeviceKind kind, const std::string& name, int room) {
    Device device;
    device.id = Id<Device>::fresh(), device.kind = kind, device.name = name;
    house_.devices.push_back(device);
    house_.handles.push_back({Id<Handle>::fresh(), device.id, house_.rooms[static_cast<std::size_t>(room)].id, {}, name});
    into_.devices.push_back({{HandleKind::device, house_.handles.back().id.value}, {}});
    return device.id;
  }

  void add_gfci(std::size_t p) {
    const WorldPoint& own = world_.points[p];
    const Id<Device> device = add_device(DeviceKind::gfci_receptacle, house_.points[p].name + " GFCI", own.room);
    house_.devices.back().at_point = house_.points[p].id;
    house_.points[p].behind = device;
    const int reach = static_cast<int>(random_() % 4);
    const bool lights = percent(25);
    auto& takes = into_.devices.back().takes;
    takes.insert(p);
    for (std::size_t q = 0; q < world_.points.size(); ++q) {
      const WorldPoint& point = world_.points[q];
      if (point.breaker != own.breaker || point.volts > 120) continue;
      const bool here = point.room == own.room;
      const bool near = world_.walk_s[static_cast<std::size_t>(own.room)][static_cast<std::size_t>(point.room)] <= 8;
      const bool in_reach = reach == 3 || (reach == 2 && near) || (reach >= 1 && here);
      if (in_reach && (point.is == PointClass::receptacle ? percent(85) : point.is == PointClass::light && lights)) takes.insert(q);
    }
  }

  void add_switch(int room) {
    (void)add_device(DeviceKind::wall_switch, world_.rooms[static_cast<std::size_t>(room)].name + " switch by the door", room);
    auto& takes = into_.devices.back().takes;
    const int works = static_cast<int>(random_() % 100);
    int breaker = -1;
    for (std::size_t p = 0; p < world_.points.size(); ++p) {
      const WorldPoint& point = world_.points[p];
      const bool light = point.is == PointClass::light && point.breaker >= 0;
      if (works < 70 && light && point.room == room && (breaker < 0 || breaker == point.breaker)) takes.insert(p), breaker = point.breaker;
      if (works >= 70 && works < 82 && point.room == room && point.mate > static_cast<int>(p)) takes.insert(p);
      if (works >= 82 && works < 92 && takes.empty() && light && type_of(point) == "outdoor") takes.insert(p);
    }
  }

  const World& world_;
  DeviceWorld& into_;
  House& house_;
  std::mt19937 random_;
  std::set<std::string> taken_types_;
};

/// Every point seen dead twice with its breaker off and live with it on.
void prove_feeds(HouseMaker& made) {
  for (std::size_t p = 0; p < made.house.points.size(); ++p) {
    if (made.truth.feed[p].empty() || made.truth.at_start[p] == AtStart::dead_for_good) continue;
    const HandleRef breaker = HouseMaker::off(made.truth.feed[p][0].breaker);
    made.see(p, Seen::dead, {breaker}), made.see(p, Seen::dead, {breaker}), made.see(p, Seen::live, {});
    made.truth.at_start[p] = AtStart::live;
  }
}

void judge(const DeviceWorld& world, const HiddenDevice& device, const std::vector<BehindPoint>& points, BehindRun& run) {
  for (std::size_t p = 0; p < points.size(); ++p) {
    const bool is = device.takes.contains(p) && world.made.truth.at_start[p] != AtStart::dead_for_good;
    if (is) ++(points[p].standing == BehindStanding::behind ? run.found : run.missed);
    if ((points[p].standing == BehindStanding::behind && !is) || (points[p].standing == BehindStanding::not_behind && is)) ++run.wrong;
  }
}

}  // namespace

DeviceWorld make_device_world(unsigned seed, bool traced) {
  const World world = make_world(WorldKind::ordinary, seed);
  DeviceWorld made{house_of(world), {}};
  DeviceMaker maker(world, made, seed);
  maker.add_gfcis(), maker.add_switches();
  if (traced) prove_feeds(made.made);
  return made;
}

void DeviceWalker::walk_to(const House& house, Id<Room> room) {
  if (walk_.empty()) walk_ = walking_seconds(house), at_ = house.panels[0].room;
  if (room == at_) return;
  const Index<Room> room_at(house.rooms);
  seconds_ += walk_[static_cast<std::size_t>(room_at.at(at_))][static_cast<std::size_t>(room_at.at(room))] + kEnterCost;
  at_ = room;
}

bool DeviceWalker::is_live(std::size_t point) const {
  if (world_.made.truth.at_start[point] == AtStart::dead_for_good) return false;
  return std::ranges::none_of(world_.devices, [&](const HiddenDevice& device) {
    return device.takes.contains(point) && std::ranges::find(open_, device.handle) != open_.end();
  });
}

Answer DeviceWalker::answer(const TraceSession& session) {
  const Step& step = session.step();
  const House& house = session.house();
  const double before = seconds_;
  AnswerKind kind = AnswerKind::done;
  if (step.kind == StepKind::open || step.kind == StepKind::close) {
    walk_to(house, house.rooms[room_of_handle(house, step.handles[0])].id);
    seconds_ += kHandleCost + (step.kind == StepKind::open ? kNuisanceCost : 0);
    opened += step.kind == StepKind::open ? 1 : 0;
    if (step.kind == StepKind::open) open_ = step.handles;
    else open_.clear();
  } else if (step.kind != StepKind::caution) {
    const auto point = static_cast<std::size_t>(Index<Point>(house.points).at(step.point));
    walk_to(house, house.points[point].room);
    seconds_ += look_seconds(house.points[point].kind) + (step.kind == StepKind::ask_dead ? kRepairCost : 0);
    const bool wrong = std::uniform_real_distribution<>(0, 1)(random_) < error_;
    kind = is_live(point) != wrong ? AnswerKind::live : AnswerKind::dead;
    ++looks;
  }
  return {kind, Method::tester, clock.after(1 + static_cast<int>(seconds_ - before)), "walker"};
}

BehindRun run_behind(const DeviceWorld& world, std::size_t device, double error, unsigned seed) {
  House house = world.made.house;
  ask_behind(house, world.devices[device].handle);
  TraceSession session(house);
  DeviceWalker walker(world, error, seed);
  walker.clock = world.made.clock;
  BehindRun run;
  for (; run.steps < 2000 && session.step().kind != StepKind::done; ++run.steps) session.answer(walker.answer(session));
  run.finished = session.step().kind == StepKind::done;
  run.looks = walker.looks, run.opened = walker.opened, run.seconds = walker.seconds();
  judge(world, world.devices[device], find_behind(session.house(), world.devices[device].handle), run);
  return run;
}

BehindRun walk_everywhere(const DeviceWorld& world, std::size_t device, double error, unsigned seed) {
  const House& house = world.made.house;
  const HiddenDevice& hidden = world.devices[device];
  std::mt19937 random(seed);
  const auto reads_dead = [&](bool dead) { return dead != (std::uniform_real_distribution<>(0, 1)(random) < error); };
  BehindRun run{.opened = 1, .seconds = 2 * kHandleCost + kNuisanceCost, .finished = true};
  const Index<Room> room_at(house.rooms);
  std::set<std::size_t> rooms, rooms_again;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const auto room = static_cast<std::size_t>(room_at.at(house.points[p].room));
    const bool gone = world.made.truth.at_start[p] == AtStart::dead_for_good, is = hidden.takes.contains(p) && !gone;
    bool called = reads_dead(gone || is);
    ++run.looks, run.seconds += look_seconds(house.points[p].kind), rooms.insert(room);
    if (called) {
      called = !reads_dead(gone);
      ++run.looks, run.seconds += look_seconds(house.points[p].kind), rooms_again.insert(room);
    }
    if (is) ++(called ? run.found : run.missed);
    if (is != called) ++run.wrong;
  }
  const auto walk = walking_seconds(house);
  const std::size_t panel = static_cast<std::size_t>(room_at.at(house.panels[0].room)), home = room_of_handle(house, hidden.handle);
  run.seconds += walk[panel][home];
  for (const auto& some : {rooms, rooms_again}) {
    const std::vector<std::size_t> list(some.begin(), some.end());
    run.seconds += walk_seconds(walk, home, home, walking_order(walk, home, home, list)) + kEnterCost * static_cast<double>(list.size());
  }
  return run;
}

}  // namespace ohmstead::test
