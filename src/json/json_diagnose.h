#pragma once
// Steps and results of a diagnosis as JSON. The shapes are documented in docs/diagnosis.md.

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "trace/diagnosis.h"

namespace ohmstead {

[[nodiscard]] nlohmann::ordered_json diagnosis_step_json(const DiagnosisSession& session, int number);
/// The answer of `ohmstead diagnose --json`.
[[nodiscard]] std::string json_of_diagnosis(const DiagnosisSession& session);

}  // namespace ohmstead
