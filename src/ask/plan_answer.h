#pragma once
// What a plan answers: what rides where, what it draws, what got no place and why, and what could be had for more watts.

#include <optional>
#include <string>
#include <vector>

#include "ask/answer_words.h"
#include "ask/names.h"
#include "backup/plan_choices.h"
#include "backup/plan_picture.h"

namespace ohmstead {

struct PlanAnswer {
  BackupCase backup;
  Plan plan;
  bool kept = false;          ///< it is the plan in the record
  std::optional<PlanScore> best;  ///< of a kept plan: what the best plan would be worth, where that is more
  bool wired = false;         ///< every position carries now what the plan says
};

/// The best plan for a source.
[[nodiscard]] PlanAnswer best_plan_for(const Record& record, std::size_t source);
/// The plan in the record. Throws Error{not_found} if none is kept for this source.
[[nodiscard]] PlanAnswer kept_plan_for(const Record& record, std::size_t source);

/// The plan in sentences: doubts first, then position by position, then the sums, then what got no place and why.
[[nodiscard]] Lines words_of_plan(const Record& record, const Names& names, const PlanAnswer& answer);
/// Why this thing has no place, or is only partly served, and what would have to give.
[[nodiscard]] Lines words_of_why_not(const Record& record, const Names& names, const PlanAnswer& answer, Id<Breaker> breaker);
/// The few best plans that serve something else.
[[nodiscard]] Lines words_of_alternatives(const Record& record, const PlanAnswer& answer);
/// What sources of these sizes would serve.
[[nodiscard]] Lines words_of_sizes(const Record& record, const PlanAnswer& answer, const std::vector<int>& sizes);
/// The smallest source that serves every wish.
[[nodiscard]] Lines words_of_smallest(const Record& record, const PlanAnswer& answer);

/// The breaker that feeds a thing in a person's words: a load, a point, or a breaker itself. Throws as Names do, and Error{invalid_input}
/// where it is not known what feeds it.
[[nodiscard]] Id<Breaker> breaker_of(const Record& record, const Names& names, const std::string& words);

}  // namespace ohmstead
