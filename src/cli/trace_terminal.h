#pragma once
// The guided tracing session for a person at a terminal: one thing at a time, one key an answer.

#include <iosfwd>

#include "json/keep_fn.h"
#include "json/session_options.h"
#include "trace/session.h"

namespace ohmstead {

enum class TraceEnd {
  done,         ///< nothing is left to ask
  paused,       ///< the person stopped
  input_ended,  ///< standard input was closed
};

/// Runs the session until it is done, paused or cut off. Whatever was answered is kept.
/// Errors of `keep` are not caught: the last answer is then not on disk.
TraceEnd run_trace_terminal(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                            const TraceOptions& options);

}  // namespace ohmstead
