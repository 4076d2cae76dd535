#pragma once
// The outage board for a person at a terminal, in the dark: one thing at a time, one key an answer.

#include <functional>
#include <iosfwd>
#include <string>

#include "backup/outage_board.h"
#include "cli/keep_fn.h"

namespace ohmstead {

struct OutageOptions {
  std::function<std::string()> now;  ///< UTC, `2026-11-25T09:30:00Z`
  std::string who;                   ///< may be empty
  bool single_keys = false;          ///< standard input is a terminal: take each key as it is pressed
};

enum class OutageEnd {
  over,         ///< the way home is done
  paused,       ///< the person stopped
  input_ended,  ///< standard input was closed
};

/// Runs the board until the outage is over, or the person stops. Each answer is given to `keep` (of the house, only
/// outage_events have changed) before the next step is shown. Errors of `keep` are not caught.
OutageEnd run_outage_terminal(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options);

}  // namespace ohmstead
