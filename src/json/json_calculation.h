#pragma once
// Calculations as JSON (docs/json-answers.md).

#include <string>

#include "ask/calculation_words.h"

namespace ohmstead {

[[nodiscard]] std::string json_of_load(const LoadAnswer& answer, const Lines& lines);
[[nodiscard]] std::string json_of_drop(const DropAnswer& answer, const Lines& lines);
[[nodiscard]] std::string json_of_ampacity(const AmpacityAnswer& answer, const Lines& lines);
[[nodiscard]] std::string json_of_neutral(const NeutralAnswer& answer, const Lines& lines);
[[nodiscard]] std::string json_of_add(const RecordedDwelling& dwelling, const AddAnswer& answer, const Lines& lines);

}  // namespace ohmstead
