#pragma once
// Deciding a merge: the conflicts one by one, by a person at a terminal or by a program.

#include <functional>
#include <iosfwd>
#include <optional>

#include "cli/command.h"
#include "db/merge.h"

namespace ohmstead {

/// The merge under what is decided so far.
using MergeFn = std::function<Merged(const Decisions&)>;

/// All decided; nothing when it was stopped, or the input ended, before.
[[nodiscard]] std::optional<Merged> decide_at_terminal(Session& session, const MergeFn& merge);
[[nodiscard]] std::optional<Merged> decide_by_lines(Session& session, const MergeFn& merge);

}  // namespace ohmstead
