#pragma once
// `ohmstead` starts quickly because what needs large libraries is in programs of its own, which have the same commands.
// Why: docs/decisions/0003-printing-is-a-second-program.md.

#include <string>

#include "cli/command.h"

namespace ohmstead {

/// Where the program of that name is: beside this one or in libexec; empty if it is not there.
[[nodiscard]] std::string other_program(const std::string& name);

/// This process becomes the program of that name with the same words.
/// Throws Error{output} if it is not there or cannot be started.
[[noreturn]] void start_other_program(Session& session, const std::string& name);

}  // namespace ohmstead
