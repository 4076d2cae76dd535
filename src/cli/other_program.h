#pragma once
// `ohmstead` starts quickly because what needs large libraries is in programs of its own, which have the same commands.
// Why: docs/decisions/0003-printing-is-a-second-program.md.

#include <string>

#include "cli/command.h"

namespace ohmstead {

/// This process becomes the program of that name with the same words. It is looked for beside this one and in libexec.
/// Throws Error{output} if it is not there or cannot be started.
[[noreturn]] void start_other_program(Session& session, const std::string& name);

}  // namespace ohmstead
