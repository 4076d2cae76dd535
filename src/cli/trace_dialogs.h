#pragma once
// What a person at the terminal can ask for besides answering a step: say which handle is meant, take
// back an earlier answer, write down something that was found. Each ends with one key or one line.

#include <optional>

#include "json/keep_fn.h"
#include "cli/step_talk.h"
#include "trace/session.h"

namespace ohmstead {

/// A session and the person it talks to.
struct TraceTalk : StepTalk {
  TraceSession& session;
  const KeepFn& keep;
};

/// The handle that is meant, of several; nothing if the person goes back.
[[nodiscard]] std::optional<HandleRef> ask_which(TraceTalk& talk, const std::string& question, const std::vector<HandleRef>& handles);

/// Lists the last answers and takes one back; false if none was.
bool ask_wrong_answer(TraceTalk& talk);

/// Asks which breaker tripped and will not come on again; false if none was named.
bool ask_tripped(TraceTalk& talk, const std::string& now, const std::string& who);

/// Asks kind, room and name of something that is not written down, and adds it; false if it was not.
bool ask_found(TraceTalk& talk);

}  // namespace ohmstead
