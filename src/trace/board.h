#pragma once
// Where a session stands, read from the rows of the house: which handles are open, what was
// answered in this round, how often each unit was tried with each breaker. The planning policy
// (trace/plan.h) looks at this and at the conclusions, at nothing else.

#include <set>
#include <string>
#include <vector>

#include "trace/conclude.h"
#include "trace/manner.h"
#include "trace/way_set.h"

namespace ohmstead {

/// Names of the settings in which a session keeps what is not an observation.
inline constexpr const char* kCautionStart = "trace.caution.start";
inline constexpr const char* kCautionPrefix = "trace.caution.";      ///< + handle_key (trace/behind.h): what it may take down was named
inline constexpr const char* kSkipPrefix = "trace.skip.";            ///< + handle_key: it is not to be opened
inline constexpr const char* kStaysOffPrefix = "trace.stays_off.";   ///< + handle_key: it would not close again

/// Belief from which a breaker that may feed what keeps somebody alive is off only briefly and alone.
inline constexpr double kLifeIsLikelyOnIt = 0.2;

/// What was answered about one unit in the current round.
struct RoundAnswers {
  int live = 0, dead = 0, passed = 0;  ///< passed: not sure, or skipped
  [[nodiscard]] int all() const { return live + dead + passed; }
};

struct Board {
  const House& house;
  const Conclusions& conclusions;
  long round = -1;       ///< place in house.rounds of the round under way; -1: none
  WaySet open_ways;                              ///<  what is open on purpose now
  std::vector<HandleRef> open_handles;           ///< what is open on purpose now
  bool just_closed = false;  ///< some handles were closed, the others stay open, and nothing was looked at since
  std::vector<RoundAnswers> answers;             ///< of the units, in the round under way
  std::vector<std::vector<int>> tries;           ///< [unit][way]: rounds in which it was asked about and that told something
  std::vector<int> rounds_of_way;                ///< tracing rounds with it open so far
  std::vector<bool> may_open;                    ///< of the ways
  std::vector<bool> briefly;                     ///< of the ways
  std::vector<bool> stays_off;                   ///< of the ways: open in every round from some time on
  std::vector<int> asked_with_nothing_open;      ///< of the points, since they were last seen live
  std::vector<int> ever_asked_with_nothing_open; ///< of the points
  long last_point = -1;                          ///< last point answered about in this round
  std::size_t here = 0;                          ///< place in house.rooms where the person is, as far as is known
  std::string now;                               ///< UTC; empty: not told
  Manner manner;
  std::vector<bool> lamp_in;                     ///< of the points
  /// Seconds between rooms; the last place stands for 'anywhere', as far as 0 s from every room.
  std::vector<std::vector<int>> walk;
  std::set<std::string> settings;                ///< names of all settings
};

[[nodiscard]] Board read_board(const House& house, const Conclusions& conclusions);

/// Place in house.rooms of the panel of a way; 0 when it is not known.
[[nodiscard]] std::size_t panel_room(const Board& board, std::size_t way);

/// How far a unit is believed to hang on a way, alone or with another.
[[nodiscard]] double belief_in(const UnitConclusion& unit, std::size_t way);

/// Is one of the unit's loads hurt by a power loss, or does one keep somebody alive?
[[nodiscard]] bool has_load_at_risk(const House& house, const Unit& unit);
[[nodiscard]] bool keeps_somebody_alive(const House& house, const Unit& unit);

}  // namespace ohmstead
