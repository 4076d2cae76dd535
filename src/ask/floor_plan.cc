#include "ask/floor_plan.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "ask/panel_schedule.h"
#include "ask/paper_names.h"
#include "house/index.h"
#include "house/tour.h"
#include "house/walking.h"

namespace ohmstead {

namespace {

constexpr double kSlackM = 0.15;   ///< walls may be measured over each other by this much
constexpr double kLargestM = 80;   ///< a floor that is larger cannot be drawn so that anything is read

/// Letters of panels: none for the first; its first letter, if it is a plain one and no other panel's; else P and its number.
std::vector<std::string> panel_letters(const House& house) {
  std::vector<std::string> letters;
  std::map<char, int> count;
  const auto first_letter = [](const Panel& panel) {
    const char c = panel.name.empty() ? ' ' : panel.name.front();
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  };
  for (const Panel& panel : house.panels) ++count[first_letter(panel)];
  for (std::size_t p = 0; p < house.panels.size(); ++p) {
    const char c = first_letter(house.panels[p]);
    letters.push_back(p == 0 ? "" : c >= 'A' && c <= 'Z' && c != 'P' && count[c] == 1 ? std::string(1, c) : "P" + std::to_string(p + 1) + "-");
  }
  return letters;
}

class PlanMaker {
 public:
  PlanMaker(const Record& whole, int patterns) : whole_(whole), record_(with_paper_names(whole)), house_(record_.house), patterns_(std::max(1, patterns)) {}

  FloorPlan make() {
    add_circuits();
    const std::vector<std::size_t> order = rooms_in_walking_order();
    plan_.walk = order;
    for (const std::size_t f : floors_in_order()) {
      PlanFloor floor = floor_of(f, order);
      if (!floor.rooms.empty()) plan_.floors.push_back(std::move(floor));
    }
    give_patterns();
    return std::move(plan_);
  }

 private:
  void add_circuits() {
    const std::vector<std::string> letters = panel_letters(house_);
    std::set<std::uint64_t> used;
    for (const Feed& feed : record_.feeds.of_point)
      if (feed.standing != Standing::open)
        for (const Tap& tap : feed.taps) used.insert(tap.breaker.value);
    for (std::size_t p = 0; p < house_.panels.size(); ++p) {
      const Panel& panel = house_.panels[p];
      if (!letters[p].empty()) plan_.letters.push_back(letters[p] + ": panel " + panel.name);
      std::vector<PlanCircuitMark> marks;
      for (const CircuitWords& words : panel_words(whole_.house, whole_.feeds, panel.id)) {
        const Breaker& breaker = row(house_, words.breaker);
        if (used.contains(breaker.id.value)) marks.push_back({breaker.id, letters[p] + breaker_number(panel, breaker), words.text, (breaker.amps > 0 ? std::to_string(breaker.amps) : "?") + std::string(" A"), 0});
      }
      std::ranges::stable_sort(marks, {}, [&](const PlanCircuitMark& mark) { return row(house_, mark.breaker).space; });
      for (PlanCircuitMark& mark : marks) plan_.circuits.push_back(std::move(mark));
    }
  }

  [[nodiscard]] int circuit_of(const Feed& feed) const {
    if (feed.standing == Standing::open || feed.taps.empty()) return -1;
    const auto found = std::ranges::find(plan_.circuits, feed.taps.front().breaker, &PlanCircuitMark::breaker);
    return found == plan_.circuits.end() ? -1 : static_cast<int>(found - plan_.circuits.begin());
  }

  /// From the first panel's room through all rooms and back.
  [[nodiscard]] std::vector<std::size_t> rooms_in_walking_order() const {
    std::vector<std::size_t> all(house_.rooms.size());
    std::iota(all.begin(), all.end(), 0);
    if (all.size() < 2 || all.size() > 200) return all;
    std::size_t home = 0;
    for (std::size_t r = 0; r < house_.rooms.size(); ++r)
      if (!house_.panels.empty() && house_.rooms[r].id == house_.panels.front().room) home = r;
    std::erase(all, home);
    std::vector<std::size_t> order = walking_order(walking_seconds(whole_.house), home, home, all);
    order.insert(order.begin(), home);
    return order;
  }

  /// The house itself first, each building from its lowest floor up.
  [[nodiscard]] std::vector<std::size_t> floors_in_order() const {
    std::vector<std::size_t> order(house_.floors.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, {}, [&](std::size_t f) { return std::pair{house_.floors[f].building, house_.floors[f].level}; });
    return order;
  }

  [[nodiscard]] PlanPoint point_of(std::size_t p) const {
    const Point& point = house_.points[p];
    const Feed& feed = record_.feeds.of_point[p];
    static constexpr const char* kStandings[] = {"open", "disputed", "likely", "declared", "proved"};
    PlanPoint made{p, point.kind, point.name + (point.place.empty() ? "" : " (" + point.place + ")"), "?", circuit_of(feed), kStandings[static_cast<std::size_t>(feed.standing)]};
    const char* half = point.half == ReceptacleHalf::upper ? "upper" : "lower";
    if (point.half != ReceptacleHalf::both && point.name.find(half) == std::string::npos) made.name += std::string(", ") + half + " half";
    if (made.circuit < 0) return made;
    made.label.clear();
    std::vector<Id<Breaker>> breakers;  // two of them: two hots, or fed twice
    for (const Tap& tap : feed.taps)
      if (std::ranges::find(breakers, tap.breaker) == breakers.end()) breakers.push_back(tap.breaker);
    for (const Id<Breaker> id : breakers)
      if (const auto mark = std::ranges::find(plan_.circuits, id, &PlanCircuitMark::breaker); mark != plan_.circuits.end()) made.label += (made.label.empty() ? "" : "+") + mark->label;
    if (!relied_on(feed.standing)) made.label += "?";
    return made;
  }

  [[nodiscard]] PlanFloor floor_of(std::size_t f, const std::vector<std::size_t>& order) const {
    PlanFloor floor;
    floor.name = house_.floors[f].name;
    std::vector<std::size_t> rooms;
    for (const std::size_t r : order)
      if (house_.rooms[r].floor == house_.floors[f].id) rooms.push_back(r);
    for (const std::size_t r : rooms) {
      PlanRoom room{house_.rooms[r].name, false, 0, 0, 0, 0, {}, r};
      for (std::size_t p = 0; p < house_.points.size(); ++p)
        if (house_.points[p].room == house_.rooms[r].id) room.points.push_back(point_of(p));
      floor.rooms.push_back(std::move(room));
    }
    measure(floor, rooms);
    return floor;
  }

  /// Takes the rectangles over, if there are any and they can be a floor.
  void measure(PlanFloor& floor, const std::vector<std::size_t>& rooms) const {
    floor.scale = "Schematic, not to scale: no room of it was measured.";
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    std::size_t measured = 0;
    for (std::size_t i = 0; i < rooms.size(); ++i) {
      const Room& room = house_.rooms[rooms[i]];
      if (room.width_cm <= 0 || room.depth_cm <= 0) continue;
      ++measured;
      PlanRoom& made = floor.rooms[i];
      made.measured = true, made.left_m = room.left_cm / 100.0, made.top_m = room.top_cm / 100.0, made.width_m = room.width_cm / 100.0, made.depth_m = room.depth_cm / 100.0;
      left = std::min(left, made.left_m), top = std::min(top, made.top_m), right = std::max(right, made.left_m + made.width_m), bottom = std::max(bottom, made.top_m + made.depth_m);
    }
    if (measured == 0) return;
    const bool over = overlapping(floor), large = right - left > kLargestM || bottom - top > kLargestM;
    if (over || large) {
      floor.scale = std::string("Schematic, not to scale: ") + (over ? "rooms that were measured lie over each other." : "its measures are too large to be drawn.");
      for (PlanRoom& room : floor.rooms) room.measured = false;
      return;
    }
    for (PlanRoom& room : floor.rooms) room.left_m -= left, room.top_m -= top;
    floor.width_m = right - left, floor.depth_m = bottom - top;
    floor.scale = std::string("Rooms to scale") + (measured < rooms.size() ? ", but for those that were not measured, which stand under it" : "") + ". Where in its room a point is, is not recorded.";
  }

  [[nodiscard]] static bool overlapping(const PlanFloor& floor) {
    for (const PlanRoom& a : floor.rooms)
      for (const PlanRoom& b : floor.rooms)
        if (&a < &b && a.measured && b.measured && a.left_m + kSlackM < b.left_m + b.width_m && b.left_m + kSlackM < a.left_m + a.width_m && a.top_m + kSlackM < b.top_m + b.depth_m &&
            b.top_m + kSlackM < a.top_m + a.depth_m)
          return true;
    return false;
  }

  /// Circuits of one room get different patterns as long as there are any; the least used first.
  void give_patterns() {
    std::vector<std::set<std::size_t>> near(plan_.circuits.size());
    for (const PlanFloor& floor : plan_.floors)
      for (const PlanRoom& room : floor.rooms)
        for (const PlanPoint& one : room.points)
          for (const PlanPoint& other : room.points)
            if (one.circuit >= 0 && other.circuit >= 0 && one.circuit != other.circuit) near[static_cast<std::size_t>(one.circuit)].insert(static_cast<std::size_t>(other.circuit));
    std::vector<int> uses(static_cast<std::size_t>(patterns_), 0);
    for (std::size_t c = 0; c < plan_.circuits.size(); ++c) {
      const auto cost = [&](int pattern) {
        int clashes = 0;
        for (const std::size_t other : near[c]) clashes += other < c && plan_.circuits[other].pattern == pattern ? 1 : 0;
        return std::pair{clashes, uses[static_cast<std::size_t>(pattern)]};
      };
      int best = 0;
      for (int pattern = 1; pattern < patterns_; ++pattern)
        if (cost(pattern) < cost(best)) best = pattern;
      plan_.circuits[c].pattern = best;
      ++uses[static_cast<std::size_t>(best)];
    }
  }

  const Record& whole_;
  const Record record_;
  const House& house_;
  int patterns_;
  FloorPlan plan_;
};

}  // namespace

FloorPlan floor_plan(const Record& record, int patterns) { return PlanMaker(record, patterns).make(); }

std::vector<std::string> floor_plan_lines(const FloorPlan& plan) {
  std::vector<std::string> lines;
  for (const PlanCircuitMark& mark : plan.circuits) lines.push_back(mark.label + " (" + mark.amps + ") " + mark.description + ".");
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points)
        if (point.circuit < 0) lines.push_back(room.name + " " + point.name + " not found yet.");
  for (const std::string& letter : plan.letters) lines.push_back("Numbers with " + letter.substr(0, letter.find(':')) + " are of" + letter.substr(letter.find(':') + 1) + ".");
  return lines;
}

}  // namespace ohmstead
