#pragma once
// The parts of random_house; nothing else includes this.

#include <random>
#include <set>
#include <string>

#include "house/house.h"

namespace ohmstead {

/// Builds one random house, part after part, in an order in which each part may name earlier ones.
class HouseMaker {
 public:
  HouseMaker(std::uint64_t seed, int size);
  [[nodiscard]] House make();

 private:
  // Chance (random_house.cc)
  int below(int n) { return static_cast<int>(random_() % static_cast<std::uint64_t>(n)); }  ///< 0 .. n-1
  int between(int low, int high) { return low + below(high - low + 1); }
  bool one_in(int n) { return below(n) == 0; }
  template <class Row>
  const Row& any(const std::vector<Row>& table) { return table[static_cast<std::size_t>(below(static_cast<int>(table.size())))]; }
  template <class E>
  E any_word() { return static_cast<E>(below(static_cast<int>(words_of(E{}).size()))); }
  template <class Row>
  Id<Row> fresh() { return Id<Row>{(random_() >> 4) | 1}; }
  std::string words();                          ///< some text, perhaps empty
  std::string name(const char* what);           ///< not used before in this house
  std::string moment();                         ///< a UTC time

  // Places (random_house.cc)
  void places();
  void sources();
  // Panels and what moves circuits (random_panels.cc)
  void panels();
  void whole_house_device();
  void fill(const Panel& panel);
  bool add_breaker(const Panel& panel, int space, Half half, int poles);
  void subpanel();
  void tie_neighbours(const Panel& panel);
  void circuits();
  Id<Position> tied_positions(const Breaker& breaker);
  void transfer_of_circuits();
  void interlocks();
  TransferDevice& add_device(TransferKind kind);
  // Points and devices (random_points.cc)
  void points();
  void device(Id<Room> room);
  void point(Id<Room> room);
  void split_receptacle(Id<Room> room);
  void gfci(Id<Room> room, Id<Device> behind);
  void loads();
  Id<Device> add_switching(DeviceKind kind, Id<Device> behind, int poles, Id<Room> room);
  Id<Box> box_in(Id<Room> room);
  Id<Device> device_with_poles(int poles);
  // What was said and seen (random_evidence.cc)
  void declared_feeds();
  void declare(Id<Point> point, Id<Device> device, int hots);
  void observations();
  void outage();
  void trouble();
  void passings();
  void notes();
  HandleRef any_handle();

  /// While it lives, chances come from a generator of their own, so that a seed's house stays what it was before such parts were added.
  struct Apart {
    explicit Apart(HouseMaker& maker) : maker_(maker) { std::swap(maker_.random_, maker_.random_apart_); }
    ~Apart() { std::swap(maker_.random_, maker_.random_apart_); }
    HouseMaker& maker_;
  };

  std::mt19937_64 random_, random_apart_;
  int size_;
  House house_;
  std::set<std::pair<std::uint64_t, int>> taken_;       ///< panel and half space (2 * space + half)
  std::set<std::pair<std::uint64_t, int>> carried_;     ///< breaker and pole, by a position
  int names_ = 0;
};

}  // namespace ohmstead
