#pragma once
// What one handle takes down: the points behind a GFCI receptacle, a wall switch, a disconnect, a
// breaker's test button, a subpanel's feeder or a transfer position. It is found like a breaker's
// points are: by looks with the handle open and with it closed. The looks are rows of the house
// (rounds, opened handles, observations); what is behind is computed from them each time and never
// stored. Formulas and reasons: docs/trace.md.

#include <string>
#include <vector>

#include "house/enum_text.h"
#include "trace/conclude.h"

namespace ohmstead {

/// From what belief on a point is behind; below one minus this it is not.
inline constexpr double kBehindBelief = kProvedBelief;

enum class BehindStanding {
  open,        ///< not looked at, or not often enough
  disputed,    ///< dead and live with the handle open, and neither side wins yet
  not_behind,  ///< seen live with the handle open, belief 0.01 or less
  behind,      ///< seen dead with nothing but the handle open and live with it closed, belief 0.99 or more
};
OHMSTEAD_WORDS(BehindStanding, "open", "disputed", "not_behind", "behind")

/// What is known of one point.
struct BehindPoint {
  double belief = 0;         ///< 0..1, that opening the handle makes it dead
  int dead = 0, live = 0;    ///< looks with the handle open that count
  bool live_closed = false;  ///< seen live with the handle closed
  BehindStanding standing = BehindStanding::open;
};

/// A house with what is concluded of its feeds, and the way from room to room.
struct BehindGround {
  const House& house;
  const Conclusions& conclusions;
  const std::vector<std::vector<int>>& walk;  ///< seconds, as in house/walking.h
};

/// Every point of the house, in its order, as seen from one handle. A dead reading counts only
/// where nothing else was open (what would not close again is passed over) and the point was not
/// dead with nothing open as well (readings.h); a live one always. Nothing of the handle's own looks
/// is counted twice: the belief in feeds is taken without them.
[[nodiscard]] std::vector<BehindPoint> find_behind(const BehindGround& ground, const HandleRef& handle);
[[nodiscard]] std::vector<BehindPoint> find_behind(const House& house, const HandleRef& handle);

/// The handle that stands for all that move with this one: the first breaker or position of a tie,
/// the first switch of a group of wall switches; else the handle itself.
[[nodiscard]] HandleRef first_of_group(const House& house, const HandleRef& handle);
/// A name for settings about a handle: the id of a breaker, else its text form `device:ID`.
[[nodiscard]] std::string handle_key(const HandleRef& handle);
/// Room in which a hand moves it (place in house.rooms); 0 where that is not recorded.
[[nodiscard]] std::size_t room_of_handle(const House& house, const HandleRef& handle);

/// Setting that holds the handle whose points a session is looking for (its text form).
inline constexpr const char* kBehindSetting = "trace.behind";
/// The handle asked about; none: the session asks which breaker feeds what.
[[nodiscard]] HandleRef asked_behind(const House& house);
/// Asks a session about this handle from now on; the empty one: about breakers again. A handle that
/// was skipped, or would not go on again, may be moved again. Throws
/// Error{not_found} for a handle that is not in the house, Error{invalid_input} for a breaker that
/// is marked never to be opened, and for the small breaker of a position, which takes nothing down
/// on an ordinary day; nothing is changed then.
void ask_behind(House& house, const HandleRef& handle);

}  // namespace ohmstead
