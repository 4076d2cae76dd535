#pragma once
// A diagnosis for a person at a terminal: one thing at a time, one key an answer.

#include <iosfwd>

#include "cli/trace_terminal.h"
#include "json/keep_fn.h"
#include "trace/diagnosis.h"

namespace ohmstead {

/// Runs the session until it is done, paused or cut off. Whatever was answered is kept. Errors of `keep` are not caught.
TraceEnd run_diagnose_terminal(DiagnosisSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options);

/// The same for a program: one JSON object a line in and out (docs/diagnosis.md).
TraceEnd run_diagnose_lines(DiagnosisSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options);

}  // namespace ohmstead
