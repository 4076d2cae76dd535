#pragma once
// Steps and results of a proving session as JSON. The shapes are documented in docs/json-lines.md and docs/json-answers.md.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "backup/proof_report.h"
#include "backup/proving.h"

namespace ohmstead {

[[nodiscard]] nlohmann::ordered_json proof_step_json(const ProvingSession& session, int number);
/// The answer of `ohmstead prove --status --json`.
[[nodiscard]] std::string json_of_proof(const House& house, const ProofReport& report, const std::string& left);

}  // namespace ohmstead
