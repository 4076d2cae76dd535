#pragma once
// Findings as JSON (docs/json-answers.md).

#include <string>

#include "ask/house_findings.h"

namespace ohmstead {

[[nodiscard]] std::string json_of_findings(const Names& names, const Findings& findings);

}  // namespace ohmstead
