#pragma once
// The outage board for a person at a terminal, in the dark: one thing at a time, one key an answer.

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

#include "ask/local_time.h"
#include "backup/outage_board.h"
#include "json/keep_fn.h"

namespace ohmstead {

struct OutageOptions {
  std::function<std::string()> now;  ///< UTC, `2026-11-25T09:30:00Z`
  std::string who;                   ///< may be empty
  bool single_keys = false;          ///< standard input is a terminal: take each key as it is pressed
  LocalTime local{};                 ///< what clocks show here
  /// The board as another program left it, if one changed the house since it was last read or kept; asked before an answer
  /// is taken, so that no step is confirmed twice and none is lost. Empty: nobody else does.
  std::function<std::optional<OutageBoard>()> others{};
  int look_seconds = 20;  ///< so often, while no key comes, it looks what others did and what has become urgent
};

enum class OutageEnd {
  over,         ///< the way home is done
  paused,       ///< the person stopped
  input_ended,  ///< standard input was closed
};

/// Runs the board until the outage is over, or the person stops. Each answer is given to `keep` (of the house, only
/// outage_events have changed) before the next step is shown. Where `keep` throws Error{conflict}, the answer is not taken, and the
/// board goes on from `others`; its other errors are not caught.
OutageEnd run_outage_terminal(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options);

}  // namespace ohmstead
