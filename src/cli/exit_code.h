#pragma once
// What the program's exit code means. Documented in README.md and the manual page.

#include "house/error.h"

namespace ohmstead {

enum ExitCode : int {
  kDone = 0,
  kDoneButNo = 1,   ///< done, and the answer is no, or problems were found
  kUsage = 2,       ///< the command line itself
  kHouseFile = 3,   ///< the house file, or a file to be written
  kRefused = 4,     ///< a name, a value or a document was refused; nothing was changed
  kConflict = 5,    ///< somebody else was writing; nothing was changed
  kOurFault = 70,   ///< a fault of the program itself
  kInterrupted = 130,
};

[[nodiscard]] constexpr ExitCode exit_code_of(ErrorKind kind) {
  switch (kind) {
    case ErrorKind::storage:
    case ErrorKind::output: return kHouseFile;
    case ErrorKind::conflict: return kConflict;
    case ErrorKind::not_found:
    case ErrorKind::ambiguous:
    case ErrorKind::invalid_input: break;
  }
  return kRefused;
}

}  // namespace ohmstead
