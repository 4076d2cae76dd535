#pragma once
// What the cases of trace/behind_model.h are made from, worked out once: what each point is, how far
// it is from the handle, and on which breaker it is believed to be.

#include "trace/behind_model.h"
#include "trace/kin.h"

namespace ohmstead {

/// How far a room is from where the handle is.
enum class Away { here, near, floor, far };  ///< the same room; 8 s at most; the same floor; elsewhere

class BehindScene {
 public:
  BehindScene(const BehindGround& ground, std::size_t room);

  [[nodiscard]] std::size_t ways() const { return ways_; }
  [[nodiscard]] Sort sort(std::size_t point) const { return sorts_[point]; }
  [[nodiscard]] bool outside(std::size_t point) const { return outside_[point]; }
  [[nodiscard]] Away away(std::size_t point) const { return away_[point]; }
  /// The same from another room.
  [[nodiscard]] Away away_from(std::size_t room, std::size_t point) const;
  /// Belief that a point is on a way, 0..1.
  [[nodiscard]] double on(std::size_t point, std::size_t way) const;
  /// How far the breaker of a point is known: 0 not at all, 1 for sure.
  [[nodiscard]] double known(std::size_t point) const { return known_[ground_.conclusions.readings.unit_of_point[point]]; }
  /// Where a device stands, as a distribution over the ways: by what hangs on it as far as that is
  /// known, else by the other points, as far as each `says` something of it.
  [[nodiscard]] std::vector<double> ways_of_device(std::size_t device, const std::vector<double>& says) const;
  /// Mean of known() over all points.
  [[nodiscard]] double all_known() const;

 private:
  [[nodiscard]] Away away_between(std::size_t a, std::size_t b) const;
  const BehindGround& ground_;
  std::size_t ways_;
  std::vector<std::size_t> room_of_point_;
  std::vector<Sort> sorts_;
  std::vector<bool> outside_;
  std::vector<Away> away_;
  std::vector<std::vector<double>> on_;  ///< [unit][way]
  std::vector<double> known_;            ///< of the units
};

}  // namespace ohmstead
