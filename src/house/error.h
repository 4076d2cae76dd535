#pragma once
// The one exception type of the program, and the kinds of failure it tells apart.

#include <stdexcept>
#include <string>

namespace ohmstead {

/// What went wrong, from the point of view of the person who must act.
/// The command line turns a kind into its exit code (src/cli/exit_code.h).
enum class ErrorKind {
  not_found,      ///< no such thing in the house
  ambiguous,      ///< a name fits several things; the message lists them
  invalid_input,  ///< a value, a line or a document that cannot be true
  conflict,       ///< somebody else is writing, or changed it meanwhile; nothing was written
  storage,        ///< the house file is missing, damaged, foreign, newer, read-only, or the disk is full
  output,         ///< a PDF or an export could not be written
};

/// The message is one full sentence that says what is wrong, where, and what to do.
struct Error : std::runtime_error {
  Error(ErrorKind k, const std::string& message) : std::runtime_error(message), kind(k) {}
  ErrorKind kind;
};

}  // namespace ohmstead
