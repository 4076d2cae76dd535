#pragma once
// What must hold in every house. Anything that makes or takes in a House checks it here before it
// is used or written, so the rest of the program never meets a contradictory one.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// One thing that cannot be true of a house.
struct Problem {
  std::string path;     ///< where, as in the interchange document: "breaker[4].space"
  std::string message;  ///< one full sentence
};

/// Every contradiction in the house, in the order of the tables; empty when there is none:
/// doubled or missing ids, references to nothing, numbers out of range, two breakers in one space,
/// poles on one leg, ties between breakers that are not neighbours, a subpanel that feeds itself,
/// a transfer position on two circuits, devices that stand behind themselves, and so on.
[[nodiscard]] std::vector<Problem> problems_of(const House& house);

/// Throws Error{invalid_input} with the first problem's message, if there is one.
void require_sound(const House& house);

/// Longest text that any field may hold, in bytes (a note, and what was printed, may hold kLongestNote).
inline constexpr std::size_t kLongestName = 200;
inline constexpr std::size_t kLongestNote = 10'000;
/// Most sources besides the utility.
inline constexpr std::size_t kMostSources = 100;

}  // namespace ohmstead
