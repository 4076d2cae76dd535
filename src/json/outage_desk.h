#pragma once
// The outage board as a page drives it: one JSON object a request (docs/page-api.md). No input or output of its own.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "ask/names.h"
#include "backup/outage_board.h"
#include "json/session_options.h"

namespace ohmstead {

/// Takes an answer, something told, or a step back: the board then has what is to be kept. Says what for the history. Throws Error and changes
/// nothing where it makes no sense. Whether the step is still the one that was read, the caller knows.
[[nodiscard]] std::string take_outage_request(OutageBoard& board, const Names& names, const nlohmann::ordered_json& request, const TraceOptions& options);

}  // namespace ohmstead
