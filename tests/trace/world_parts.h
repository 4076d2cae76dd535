#pragma once
// The parts of make_world; nothing else includes this.

#include <initializer_list>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "tests/trace/world.h"

namespace ohmstead::test {

/// Chance with whole numbers only: the distributions of <random> differ from library to library.
/// Draw once in an expression at most: the order of a call's arguments differs too.
class Chance {
 public:
  explicit Chance(unsigned seed) : random_(seed) {}
  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }  ///< 0 .. n-1
  int between(int low, int high) { return low + below(high - low + 1); }
  bool percent(int share) { return below(100) < share; }
  /// Place of one weight, each drawn as often as it is large.
  int pick(const std::vector<int>& weights);
  template <class T>
  const T& any(const std::vector<T>& all) { return all[static_cast<std::size_t>(below(static_cast<int>(all.size())))]; }
  template <class T>
  void shuffle(std::vector<T>& all) {
    for (int i = static_cast<int>(all.size()) - 1; i > 0; --i)
      std::swap(all[static_cast<std::size_t>(i)], all[static_cast<std::size_t>(below(i + 1))]);
  }

 private:
  std::mt19937 random_;
};

/// What leaves one breaker, while the house is being made.
struct Wiring {
  int poles = 1, amps = 15;
  std::vector<int> points;
  int panel = 0;
  int feeds_panel = 0;  ///< 0: none
  bool only_alone = false;
  std::string label;
  LabelStatus status = LabelStatus::none;
};

/// How many of a kind are in a room: weights of 0, 1, 2, ...
struct HowMany {
  const char* kind;
  std::vector<int> weights;
};

/// Makes one house, part after part. Points and rooms are places in the lists of the world.
class WorldBuilder {
 public:
  WorldBuilder(WorldKind kind, unsigned seed);
  [[nodiscard]] World make();

 private:
  // Rooms and walks (world_rooms.cc)
  void ordinary_rooms();
  void old_rooms();
  void many_rooms();
  int add_room(const std::string& name, const std::string& type, int floor);
  void name_by_number(const std::string& type, const std::string& name);
  void walks();
  void link(int a, int b, double seconds, bool wall = true);
  [[nodiscard]] std::vector<int> rooms_of(const std::string& type) const;
  [[nodiscard]] int hall_of(int floor) const;
  [[nodiscard]] bool share_a_wall(int a, int b) const;

  // Points (world_points.cc)
  void ordinary_points();
  void kitchen_points();
  void big_loads();
  void points_by(const std::vector<HowMany>& list, int room);
  int add_point(int room, const std::string& kind);
  void add_split(int room);
  [[nodiscard]] std::vector<int> points_of(std::initializer_list<const char*> kinds, int room = -1) const;  ///< not wired yet

  // Circuits (world_circuits.cc)
  void ordinary_circuits();
  void own_circuits();
  void kitchen_circuits();
  void wet_circuits();
  void alarm_circuit();
  void mixed_circuits();
  void light_circuits();
  void receptacle_circuits();
  int wire(std::vector<int> points, int amps, int poles = 1);
  void join(int circuit, std::vector<int> points);
  void wire_each(std::initializer_list<const char*> kinds, const std::vector<int>& amps, int poles = 1);
  void wire_in_parts(std::vector<int> points, int parts, int amps);
  [[nodiscard]] std::vector<int> grow(int first, int size, const std::set<int>& open, bool any_floor);
  [[nodiscard]] std::vector<int> points_in(const std::vector<int>& rooms, std::initializer_list<const char*> kinds) const;

  // The other kinds of houses (world_kinds.cc)
  void old_circuits();
  void circuits_230();
  void mix_up_places();
  void add_subpanel(int room, int share_percent);
  void tiny_house();
  void big_house();

  // Old labels (world_labels.cc)
  void labels();
  void wrong_labels();
  [[nodiscard]] std::string right_label(const Wiring& wiring);
  [[nodiscard]] std::string vague_label();
  [[nodiscard]] std::string stale_label(std::size_t circuit);
  [[nodiscard]] bool have_nothing_in_common(const Wiring& a, const Wiring& b) const;

  // What is odd about a house, and putting it together (world_maker.cc)
  void spare_breakers(const std::vector<int>& weights);
  void only_alone();
  void strays();
  void dead_at_start();
  void put_into_panels();
  [[nodiscard]] std::size_t stray_target(int point, const std::vector<std::size_t>& home);
  [[nodiscard]] std::vector<int> rooms_on(const Wiring& wiring) const;
  [[nodiscard]] WorldPoint& point(int at) { return world_.points[static_cast<std::size_t>(at)]; }
  [[nodiscard]] const WorldPoint& point(int at) const { return world_.points[static_cast<std::size_t>(at)]; }
  [[nodiscard]] const WorldRoom& room(int at) const { return world_.rooms[static_cast<std::size_t>(at)]; }

  World world_;
  Chance chance_;
  std::vector<Wiring> circuits_;
  std::vector<bool> wired_;  ///< of the points
};

}  // namespace ohmstead::test
