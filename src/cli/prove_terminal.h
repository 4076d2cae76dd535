#pragma once
// The proving session for a person at a terminal: one thing at a time, one key an answer.

#include <iosfwd>

#include "backup/proving.h"
#include "json/keep_fn.h"
#include "cli/trace_terminal.h"

namespace ohmstead {

/// Runs the session until it is done, paused or cut off. Whatever was answered is kept. Errors of `keep` are not caught.
TraceEnd run_prove_terminal(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options);

/// The same for a program: one JSON object a line in and out (docs/json-lines.md).
TraceEnd run_prove_lines(ProvingSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options);

}  // namespace ohmstead
