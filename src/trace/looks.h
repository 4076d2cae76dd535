#pragma once
// Which looks are worth making: the part of the planning policy that judges single points. The
// rules and the reasons for their numbers are in docs/trace.md.

#include <optional>
#include <vector>

#include "trace/board.h"
#include "trace/step.h"

namespace ohmstead {

struct Look {
  std::size_t unit = 0;   ///< place in the units
  std::size_t point = 0;  ///< place in house.points
  StepReason reason = StepReason::may_be_fed;
};

class LookFinder {
 public:
  /// `sets`: while sets of ways are searched as a whole. Then a unit is asked about with one way less
  /// often, so that tries are left for the rest.
  LookFinder(const Board& board, bool sets);

  /// May this way be opened (again)?
  [[nodiscard]] bool can_open(std::size_t way) const;
  /// Looks of a round to come with these ways open: points they may well feed.
  [[nodiscard]] std::vector<Look> fresh(const WaySet& open) const;
  /// Looks still to make in the round under way, with these ways open: first and second ones, and points on the way that
  /// wait for a live reading.
  [[nodiscard]] std::vector<Look> in_this_round(const WaySet& open) const;
  /// Points that were seen dead and wait for a live reading with their breaker closed.
  [[nodiscard]] std::vector<Look> unconfirmed() const;
  /// Units that look dead whatever is open, and points that are dead with nothing open.
  [[nodiscard]] std::vector<Look> doubtful() const;
  /// Is there a way that may be opened with which this unit is worth a look?
  [[nodiscard]] bool may_be_looked_at(std::size_t unit) const;
  /// Place in house.rooms of a point; 0 when it is in none.
  [[nodiscard]] std::size_t room_of(std::size_t point) const { return room_of_point_[point]; }
  /// How far a unit is believed to be dead with these ways open, 0..1.
  [[nodiscard]] double belief(std::size_t unit, const WaySet& open) const;
  /// The part of it that belongs to ways with which the unit was not seen dead yet.
  [[nodiscard]] double unseen_belief(std::size_t unit, const WaySet& open) const;
  /// The chance that one look with these open makes it sure what feeds a unit that is believed to be dead by `belief`.
  [[nodiscard]] double makes_sure(std::size_t unit, const WaySet& open, double belief) const;
  /// Settled, or not asked for.
  [[nodiscard]] bool settled(std::size_t unit) const { return settled_[unit]; }
  /// Proved, and not to be traced again; or not asked for. Where sets are opened, a little more is asked before it is settled.
  [[nodiscard]] bool proved(std::size_t unit) const { return proved_[unit]; }
  /// Bits that are not known yet of what feeds the unit.
  [[nodiscard]] double bits_open(std::size_t unit) const;

 private:
  [[nodiscard]] bool find_settled(std::size_t unit) const;
  [[nodiscard]] bool is_wanted(std::size_t unit) const;
  struct SeenSince {
    bool dead = false, live = false;
    [[nodiscard]] bool both() const { return dead && live; }
  };
  [[nodiscard]] SeenSince seen_since(std::size_t unit, std::size_t from) const;
  [[nodiscard]] bool is_dead_due(std::size_t unit) const;
  [[nodiscard]] std::optional<std::size_t> point_to_look_at(std::size_t unit) const { return point_of_unit_[unit]; }
  [[nodiscard]] std::optional<std::size_t> find_point(std::size_t unit) const;
  [[nodiscard]] bool worth_a_first_look(std::size_t unit, const WaySet& open) const;
  [[nodiscard]] bool worth_another_look(std::size_t unit, const WaySet& open) const;
  [[nodiscard]] bool waits_for_live(std::size_t unit) const;
  [[nodiscard]] bool may_ask_with_nothing_open(std::size_t point) const;
  [[nodiscard]] const Candidate& most_believed(std::size_t unit) const;
  [[nodiscard]] double not_dead_anyway(std::size_t unit) const;
  [[nodiscard]] bool dead_tells_no_more(std::size_t unit, std::size_t way) const;
  [[nodiscard]] bool enough_dead(std::size_t unit, const WaySet& open) const;
  void add_looks_on_the_way(std::vector<Look>& looks, const WaySet& open) const;

  const Board& board_;
  const House& house_;
  const Conclusions& all_;
  std::vector<std::size_t> room_of_point_;
  std::vector<std::optional<std::size_t>> point_of_unit_;
  std::vector<std::vector<double>> belief_;  ///< [unit][way]
  std::vector<std::vector<char>> dead_with_;  ///< [unit][way]: seen dead with it open
  std::vector<std::size_t> again_from_;       ///< of the points: settled_from
  std::vector<char> proved_, settled_;
  std::vector<char> dead_due_;                ///< of the units: to be traced again, and not seen dead again yet
  double sure_;     ///< belief from which nothing more is asked
  int most_tries_;  ///< rounds with one way in which one unit is asked about
  std::vector<double> best_open_;  ///< of the units: highest belief in a way that may still be opened
};

}  // namespace ohmstead
