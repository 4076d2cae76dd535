#pragma once
// Requests of a program that change a tracing session: each reads its fields, changes the session
// and says what to write into the history. What makes no sense throws Error and changes nothing.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "json/session_options.h"
#include "trace/session.h"

namespace ohmstead {

[[nodiscard]] std::string take_answer(TraceSession& session, const nlohmann::ordered_json& line, const TraceOptions& options);
[[nodiscard]] std::string take_manner(TraceSession& session, const nlohmann::ordered_json& line);
[[nodiscard]] std::string take_again(TraceSession& session, const nlohmann::ordered_json& line);
[[nodiscard]] std::string take_found(TraceSession& session, const nlohmann::ordered_json& line);

/// Does the line say how to work, or does it only ask?
[[nodiscard]] bool sets_manner(const nlohmann::ordered_json& line);

}  // namespace ohmstead
