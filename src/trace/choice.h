#pragma once
// Which breaker to open next and through which rooms to walk, by what a walk is worth for the time
// it takes. Worth is counted in seconds saved later; formulas and reasons: docs/trace.md.

#include <optional>
#include <vector>

#include "house/index.h"
#include "trace/looks.h"

namespace ohmstead {

/// Seconds of work (domain experience, no source).
inline constexpr double kHandleSeconds = 4, kNuisanceSeconds = 20, kEnterSeconds = 5;
[[nodiscard]] double look_seconds(PointKind kind);

/// A walk with one way open.
struct Choice {
  std::size_t way = 0;
  double worth = 0, seconds = 0;
  std::vector<std::size_t> rooms;  ///< places in house.rooms, in walking order; may be empty
  [[nodiscard]] double rate() const { return worth / seconds; }
};

class TourChooser {
 public:
  TourChooser(const Board& board, const LookFinder& find);

  /// The walk from the panel that is worth most for each of its seconds, with any way but
  /// `without`; none when no look is left.
  [[nodiscard]] std::optional<Choice> best(std::optional<std::size_t> without) const;
  /// The same for one way; none when no walk with it is worth more than `rate` for each second.
  [[nodiscard]] std::optional<Choice> best_with(std::size_t way, double rate) const;
  /// The rest of the walk under way, from room `from`: the rooms that are worth more than `price`
  /// for each second.
  [[nodiscard]] Choice rest(std::size_t way, std::size_t from, double price) const;
  /// The look to make now in a room; none when none there is worth its time.
  [[nodiscard]] std::optional<Look> look_in(std::size_t way, std::size_t room, double price) const;
  [[nodiscard]] std::size_t panel_room(std::size_t way) const;

 private:
  struct Stop {
    std::size_t room = 0;
    double worth = 0, seconds = 0;
    std::optional<Look> look;  ///< the first one to make
  };
  [[nodiscard]] std::vector<Stop> stops(std::size_t way, const std::vector<Look>& looks, double price) const;
  [[nodiscard]] Stop stop_for(std::size_t way, const std::vector<Look>& kin, double price) const;
  void walk_through(Choice& choice, const std::vector<Stop>& stops, std::size_t from, double price) const;

  const Board& board_;
  const House& house_;
  const Conclusions& all_;
  const LookFinder& find_;
  Index<Room> room_at_;
};

}  // namespace ohmstead
