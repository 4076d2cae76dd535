#pragma once
// Notes as JSON (docs/json-answers.md).

#include <string>
#include <vector>

#include "ask/names.h"

namespace ohmstead {

/// `question` ("note"), `version`, `lines`, `notes`: of these places in house.notes.
[[nodiscard]] std::string json_of_notes(const House& house, const Names& names, const std::vector<std::size_t>& notes);

}  // namespace ohmstead
