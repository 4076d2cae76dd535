#pragma once
// Answers in plain sentences, most urgent first. Every surface that speaks shows these lines.

#include <string>
#include <vector>

#include "ask/answers.h"
#include "ask/names.h"

namespace ohmstead {

/// What a reader should do with a line; a surface may draw it, never needs colour for it.
enum class LineKind { danger, answer, detail, caution };

struct Line {
  LineKind kind = LineKind::answer;
  std::string text;  ///< one or more full sentences, no line breaks
  std::vector<std::string> items;  ///< what the text introduces, one line each: "Kitchen: receptacles 1-4, dishwasher"
};
using Lines = std::vector<Line>;

[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const OffAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const WhereAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const CarriesAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const IsolateAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const RestoreAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const StandAnswer& answer);

/// Readings that contradict each other, one line each: "Hall, receptacle 2: Ana saw it live with 12 off
/// on 3 March 2026; all else says 12. Look again."
[[nodiscard]] Lines words_of_contradictions(const House& house, const std::vector<Contradiction>& contradictions);

/// One item a room, in the order of the house: "Kitchen: receptacles 1-4, dishwasher".
[[nodiscard]] std::vector<std::string> points_by_room(const House& house, const std::vector<std::size_t>& points);
/// The same in one line, for a few points: "Kitchen receptacle 1 and Hall light".
[[nodiscard]] std::string points_in_line(const House& house, const std::vector<std::size_t>& points);
/// Names in the order in which they first come, those that differ by a number alone put together: "receptacles 1-4, dishwasher".
[[nodiscard]] std::string names_in_short(const std::vector<std::string>& names);
/// "1, 2 and 3"
[[nodiscard]] std::string joined(const std::vector<std::string>& parts);
/// "proved", "declared by J.", "likely (0.93)", ...
[[nodiscard]] std::string standing_words(const House& house, std::size_t point, const Feed& feed);

}  // namespace ohmstead
