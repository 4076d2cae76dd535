#pragma once
// Where things stand in an outage, read from its log alone (house/outage.h). An outage begins with the first
// utility_lost that follows no outage or an ended one; a utility_lost after utility_back is the same outage again.
//
// Words in `text` by which the log keeps what has no field of its own (all else in `text` is free):
//   note with `source`:          placed, connected, warm, cooled, not by itself, did not go back, will not start, try again;
//                                to be refuelled, refuelled (its tank or battery is full), not refuelled
//   note with `handle`, `load`:  cannot be moved, cannot be switched off, did not come on (without power until it is
//                                moved or switched on again)
//   note with `source` that runs: try again (what did not come on), left dark (it is not asked about any more)
//   utility_lost:                not good yet (it was back, and nothing came on)
//   load_off:                    to make room (it comes back on when it fits), for a while (the same, but it makes
//                                nobody switch off what a person made room for; of a load whose handle is its switch: that went to off)
//   a line of an answer that took several: with the line before
// source_started with running_watts: it gives no more than that from now on.
// overload with `handle`, `load` or the text of a guest's thing: what stays off from now on because of it.

#include <string>
#include <string_view>
#include <vector>

#include "backup/outage_gear.h"

namespace ohmstead {

namespace outage_log {
inline constexpr std::string_view kPlaced = "placed", kConnected = "connected", kWarm = "warm", kCooled = "cooled",
    kNotByItself = "not by itself", kNotBack = "did not go back", kWillNotStart = "will not start", kTryAgain = "try again",
    kCannotMove = "cannot be moved", kCannotSwitchOff = "cannot be switched off", kDidNotComeOn = "did not come on", kLeftDark = "left dark", kNotGood = "not good yet",
    kToRefuel = "to be refuelled", kRefuelled = "refuelled", kNotRefuelled = "not refuelled",
    kToMakeRoom = "to make room", kForAWhile = "for a while", kWithBefore = "with the line before";
}  // namespace outage_log

enum class OutagePhase {
  none,  ///< no outage
  lost,  ///< the utility is gone
  back,  ///< the utility is back, and the way home is not finished
};
OHMSTEAD_WORDS(OutagePhase, "none", "lost", "back")

/// What is known of whether a load is switched on. Where nothing was said it counts as on if its point has power.
/// left_out: it stays off after an overload, but nobody switched it off: it draws as soon as its point has power.
enum class LoadStands : std::uint8_t { not_said, on, off, off_for_room, off_for_a_while, cannot_be_off, left_out };
[[nodiscard]] inline bool is_off(LoadStands stands) {
  return stands == LoadStands::off || stands == LoadStands::off_for_room || stands == LoadStands::off_for_a_while;
}

/// A thing in no record that was switched on.
struct GuestThing {
  std::string text;
  std::size_t point = 0;  ///< place in house.points
  int running = 0, starting = 0;
  std::string since;
  bool operator==(const GuestThing&) const = default;
};

struct OutageNow {
  OutagePhase phase = OutagePhase::none;
  std::string began, back_at, started_at;  ///< UTC; started_at: the source, last
  State state;                      ///< where every handle stands, and which sources are live
  bool running = false;             ///< the source of the board
  int most_watts = 0;               ///< it was told to give no more; 0: as recorded
  bool placed = false, connected = false, warm = false, cooled = false, will_not_start = false;
  bool asked_away = false, asked_back = false;  ///< an automatic device was asked about
  bool to_refuel = false;           ///< its tank is to be filled: it stops for that, and goes on afterwards
  std::vector<LoadStands> loads;    ///< in the order of house.loads
  std::vector<GuestThing> guests;
  std::vector<std::uint32_t> stuck; ///< groups that cannot be moved
  std::vector<std::uint32_t> left_out;  ///< units that stay off after an overload
  std::vector<std::uint32_t> dark;  ///< groups of units that were closed, and nothing came on
  std::vector<std::size_t> dark_loads;  ///< places in house.loads: switched on, and did not come on
  int dark_in_a_row = 0;            ///< answers one after another that nothing came on
  bool look_over = false;           ///< what is dark is still to be asked about
  bool try_again = false;           ///< what is dark is to be opened, and closed again in its turn
  std::uint32_t last_moved = 0;     ///< group; 0: none
  bool operator==(const OutageNow&) const = default;

  [[nodiscard]] bool is_stuck(std::uint32_t group) const;
  [[nodiscard]] bool is_dark(std::uint32_t group) const;
};

/// A house with its gear and where things stand.
struct OutageView {
  const House& house;
  const OutageGear& gear;
  const OutageNow& now;
};

/// Reads the log, or its first `lines` of the outage. Lines about rows that are gone from the house, and withdrawn ones,
/// are passed over.
[[nodiscard]] OutageNow outage_now(const House& house, const OutageGear& gear, std::size_t lines = static_cast<std::size_t>(-1));

/// Places in house.outage_events of the lines of the outage under way, or of the last one; withdrawn ones too.
[[nodiscard]] std::vector<std::size_t> outage_lines(const House& house);

/// The source of the outage under way as its first line has it; none: no outage, or it does not say.
[[nodiscard]] Id<Source> source_of_outage(const House& house);

/// What the source gives now: as recorded, and no more than was told.
[[nodiscard]] PlanSource limits_now(const OutageGear& gear, const OutageNow& now);

}  // namespace ohmstead
