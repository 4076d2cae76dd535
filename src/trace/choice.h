#pragma once
// Which breakers to open next and through which rooms to walk, by what a walk is worth for the time
// it takes. Worth is counted in seconds saved later; formulas and reasons: docs/trace.md.

#include <optional>
#include <vector>

#include "trace/looks.h"

namespace ohmstead {

/// Seconds of work (domain experience, no source).
inline constexpr double kHandleSeconds = 4, kNuisanceSeconds = 20, kEnterSeconds = 5;
inline constexpr double kTalkSeconds = 5;             ///< telling a helper of one handle
inline constexpr double kLampSeconds = 10;            ///< putting a plug-in lamp in, or taking it up
inline constexpr double kGlanceSeconds = 1;           ///< at such a lamp, from the door
inline constexpr double kSamePointSeconds = 1;        ///< with a helper: looking once more without having left
[[nodiscard]] double look_seconds(PointKind kind);

/// A walk with some ways open.
struct Choice {
  WaySet open;
  double worth = 0, seconds = 0;
  std::vector<std::size_t> rooms;  ///< places in house.rooms, in walking order; may be empty
  [[nodiscard]] double rate() const { return worth / seconds; }
  [[nodiscard]] double net(double price) const { return worth - price * seconds; }
};

/// A house with so few units: sets find no more in it, and come out wrong more often.
inline constexpr std::size_t kSmallHouse = 24;

class TourChooser {
 public:
  /// `sets`: with several ways at once the set is searched as a whole; else it grows from the best one.
  TourChooser(const Board& board, const LookFinder& find, bool sets);

  /// The next walk, with any ways open but exactly `not_these`; none when no look is left: the one that
  /// is worth most for each of its seconds, or with `sets` the one that is worth most beyond the price
  /// of its time. Ways that are open now cost nothing more. One that
  /// may be open only briefly is open alone.
  [[nodiscard]] std::optional<Choice> best(const WaySet& not_these) const;
  /// The same with at least these ways open.
  [[nodiscard]] std::optional<Choice> best_from(const WaySet& open) const;
  /// The same for one set; none when no walk with it is worth more than `rate` for each second.
  [[nodiscard]] std::optional<Choice> best_with(const WaySet& open, double rate) const;
  /// What a second of the best walk with one way is worth that is closed now; 0 when there is none.
  [[nodiscard]] double closed_rate() const;
  /// The rest of the walk under way, from where the person is: the rooms that are worth more than
  /// `price` for each second.
  [[nodiscard]] Choice rest(const WaySet& open, double price) const;
  /// The look to make now in a room; none when none there is worth its time.
  [[nodiscard]] std::optional<Look> look_in(const WaySet& open, std::size_t room, double price) const;
  /// Where a walk ends: at the panel, or anywhere with a helper.
  [[nodiscard]] std::size_t home(const WaySet& open) const;

 private:
  struct Stop {
    std::size_t room = 0;
    double worth = 0, seconds = 0;
    std::optional<Look> look;  ///< the first one to make
    bool at_door = false;      ///< nobody has to go in: all are glances from the door
    bool first_at_door = false;
  };
  [[nodiscard]] std::vector<Stop> stops(const WaySet& open, const std::vector<Look>& looks, double price) const;
  [[nodiscard]] Stop stop_for(const WaySet& open, const std::vector<Look>& kin, double price) const;
  [[nodiscard]] double worth_of_look(const Look& look, const WaySet& open, double belief) const;
  [[nodiscard]] double seconds_of(const Look& look) const;
  [[nodiscard]] double handles_seconds(const WaySet& open) const;
  [[nodiscard]] double rough_gain(const WaySet& open, double price) const;
  [[nodiscard]] std::size_t most_open() const;
  void walk_through(Choice& choice, const std::vector<Stop>& stops, std::size_t from, double price) const;
  [[nodiscard]] bool any_briefly(const WaySet& open) const;
  [[nodiscard]] Choice grown(Choice choice, const WaySet& not_these) const;
  /// The walk with these open that is worth most beyond its price; no rooms where none is.
  [[nodiscard]] Choice walk_with(const WaySet& open, double price) const;
  [[nodiscard]] std::vector<std::size_t> may_join(const WaySet& open, double price) const;
  [[nodiscard]] std::vector<WaySet> neighbours(const WaySet& open, const WaySet& keep, double price) const;
  /// Goes from set to better set, one way at a time, as long as the walk is worth more beyond its
  /// price. Those of `keep` stay open; exactly `not_these` is no end of it (no rooms then).
  [[nodiscard]] Choice improved(const WaySet& start, const WaySet& keep, const WaySet& not_these, double price) const;
  [[nodiscard]] Choice best_set(Choice one, const WaySet& not_these) const;

  const Board& board_;
  const House& house_;
  const Conclusions& all_;
  const LookFinder& find_;
  bool sets_;
  double sure_worth_;  ///< seconds that it saves when nothing more has to be asked of a unit
  std::optional<std::size_t> stands_at_;  ///< with a helper: the point looked at last
};

}  // namespace ohmstead
