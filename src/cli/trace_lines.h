#pragma once
// The guided tracing session for a program: one JSON object a line in, one or more out. The lines
// are described in docs/json-lines.md.

#include <iosfwd>

#include "cli/trace_terminal.h"

namespace ohmstead {

/// Answers line by line until the input ends or a line says `pause`. A line that cannot be
/// understood (json/json_line.h) or does not fit the step is answered with an error line, and the session goes on.
/// Errors of `keep` are not caught.
TraceEnd run_trace_lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                         const TraceOptions& options);

}  // namespace ohmstead
