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
};
using Lines = std::vector<Line>;

[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const OffAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const WhereAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const CarriesAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const IsolateAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const RestoreAnswer& answer);
[[nodiscard]] Lines words_of_answer(const Record& record, const Names& names, const StandAnswer& answer);

/// "Kitchen: receptacle 1, dishwasher; Hall: ceiling light". Rooms in the order of the house.
[[nodiscard]] std::string points_by_room(const House& house, const std::vector<std::size_t>& points);
/// "proved", "declared by J.", "likely (0.93)", ...
[[nodiscard]] std::string standing_words(const House& house, std::size_t point, const Feed& feed);

}  // namespace ohmstead
