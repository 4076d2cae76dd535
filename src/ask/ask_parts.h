#pragma once
// Internal to ask.cc: answers to questions whose things are found, and the sentences that belong to questions alone.

#include "ask/ask.h"

namespace ohmstead::ask_detail {

/// An answer that asks: `text`, with the names of the candidates as items.
[[nodiscard]] AskAnswer ask_back(const AskFrom& from, QuestionKind kind, const std::string& text, std::vector<ThingRef> candidates);
/// An answer; what was asked is said in `asked`, to which the names of the things are added.
[[nodiscard]] AskAnswer answered(const AskFrom& from, QuestionKind kind, const std::string& asked, std::vector<ThingRef> things, Lines lines);

/// The answer to this kind of question about these things. Things that it cannot be asked of are asked back, or answered as the
/// kind that is meant ("what goes off with the freezer" is its circuit).
[[nodiscard]] AskAnswer answer_about(const AskFrom& from, QuestionKind kind, const std::vector<ThingRef>& things, const Question& question);

/// Kinds that ask how things stand now: open, left, outage, may.
[[nodiscard]] AskAnswer answer_now(const AskFrom& from, const Question& question);

/// What to do, never yes; `open`: how the thing that it was asked about is opened. Not known: it is told how to test.
[[nodiscard]] Lines danger_lines(Danger danger, const Lines& open, bool not_known);

/// Which breakers feed these points, one item each with how sure that is.
[[nodiscard]] Lines feeds_lines(const AskFrom& from, const std::vector<std::size_t>& points);

/// What the generator carries of these points, or of all with loads if there are none.
[[nodiscard]] Lines backup_lines(const AskFrom& from, const std::vector<std::size_t>& points);

/// Who found what feeds these points, when, and how sure it is.
[[nodiscard]] Lines traced_lines(const AskFrom& from, const std::vector<std::size_t>& points);

/// Where a thing is: its panel or room, floor and place.
[[nodiscard]] Lines place_lines(const AskFrom& from, const ThingRef& thing);

}  // namespace ohmstead::ask_detail
