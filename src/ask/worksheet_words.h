#pragma once
// The connecting worksheet in sentences, for whoever is qualified to do the wiring.

#include <string>
#include <vector>

#include "ask/answer_words.h"
#include "backup/worksheet.h"

namespace ohmstead {

/// One step in words.
struct WorkStepWords {
  std::string text;                    ///< what to do, in one or more sentences
  std::vector<std::string> details;    ///< what to know and to check
  std::vector<std::string> cautions;   ///< read before the hand moves
};

[[nodiscard]] WorkStepWords words_of_step(const Record& record, const Names& names, const Worksheet& sheet, const WorkStep& step);

/// Which of the three parts a step is in: "Before", "Position by position" (or "Breakers"), "After".
[[nodiscard]] std::string part_of_step(const WorkStep& step);

/// The whole worksheet, steps numbered from 1, ticked ones marked; what it is and how to go on at its end.
[[nodiscard]] Lines words_of_worksheet(const Record& record, const Names& names, const Worksheet& sheet);

/// One step that was just ticked or opened again, and the next open one.
[[nodiscard]] Lines words_of_tick(const Record& record, const Names& names, const Worksheet& sheet, const std::string& key);

/// What is still missing before the plan counts as connected, one item a step.
[[nodiscard]] Lines words_of_missing(const Record& record, const Names& names, const Worksheet& sheet);

}  // namespace ohmstead
