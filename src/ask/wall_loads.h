#pragma once
// Internal to the wall sheet: which loads the plan carries, by how they are wanted, and what room is left.

#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead::wall_words {

/// Loads that are carried, or are not, by how they are wanted.
struct Carried {
  std::vector<std::string> together, on_demand, leave_off;
  std::vector<std::string> life, life_left;  ///< of life safety; those that the plan does not carry
};

[[nodiscard]] Carried carried_of(const House& house, const PlanAnswer& answer);

/// What may still be plugged in, whatever leg it is on and while the largest motor starts.
[[nodiscard]] int room_for_others(const PlanPicture& picture);

}  // namespace ohmstead::wall_words
