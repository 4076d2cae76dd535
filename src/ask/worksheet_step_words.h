#pragma once
// Internal to the worksheet's words: the steps of single positions and breakers.

#include "ask/worksheet_words.h"

namespace ohmstead {

/// disconnect, connect, unchanged, keep_on, off_list.
[[nodiscard]] WorkStepWords circuit_step_words(const Record& record, const Names& names, const WorkStep& step);

/// "Breaker 20-22: 20 A; old label \"pump\"; it feeds: Yard well pump."
[[nodiscard]] std::string breaker_details(const Record& record, Id<Breaker> breaker);

/// "the upper pole", "pole 2"; empty for a breaker of one pole.
[[nodiscard]] std::string pole_words(const House& house, Id<Breaker> breaker, int pole);

}  // namespace ohmstead
