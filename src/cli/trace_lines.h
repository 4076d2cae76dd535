#pragma once
// The guided tracing session for a program: one JSON object a line in, one or more out. The lines
// are described in docs/json-lines.md.

#include <iosfwd>

#include "cli/trace_terminal.h"

namespace ohmstead {

/// Longest line that is read, in bytes, and deepest nesting. What is beyond is answered with an
/// error line and skipped.
inline constexpr std::size_t kLongestLine = 64 * 1024;
inline constexpr int kDeepestNesting = 8;

/// Answers line by line until the input ends or a line says `pause`. A line that cannot be
/// understood or does not fit the step is answered with an error line, and the session goes on.
/// Errors of `keep` are not caught.
TraceEnd run_trace_lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                         const TraceOptions& options);

}  // namespace ohmstead
