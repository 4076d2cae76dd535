#pragma once
// What feeds a point, in the few words that fit a label or a row of a table.

#include <map>
#include <string>
#include <vector>

#include "ask/record.h"
#include "backup/proof_report.h"
#include "rules/room_words.h"

namespace ohmstead {

/// Longest name of a point on a label, in characters.
inline constexpr std::size_t kLongestPointName = 30;

/// What was proved of each position that carries a circuit; none for those that move by themselves.
using PositionProofs = std::map<Id<Position>, ProofResult>;
[[nodiscard]] PositionProofs position_proofs(const Record& record);

struct FedWords {
  std::vector<Id<Breaker>> breakers;  ///< none: not established
  std::string numbers;   ///< "12", "9-11 and 14"; "" where it is not established
  std::string panels;    ///< "Panel Main"; "12 of Panel Main, 3 of Panel Workshop" where there are several
  std::string sign;      ///< "?" where the feed is not to be relied on; it belongs behind numbers and positions
  std::string position;  ///< "position 3", "positions 5 and 6", "whole house", "none"; "" where nothing can be said
  std::string mark;      ///< the same as on the panel's directory: "G3", "G5-6", "none"; "" as above
  bool found_wrong = false;  ///< proving found the wiring of one of these positions wrong: it may not be relied on
};

[[nodiscard]] FedWords fed_words(const Record& record, const PositionProofs& proofs, std::size_t point);

/// The point with its room as labels call it: "Kitchen receptacle 1"; without persons and signs that mean something.
[[nodiscard]] std::string point_label_name(const House& house, const RoomWords& rooms, std::size_t point);

}  // namespace ohmstead
