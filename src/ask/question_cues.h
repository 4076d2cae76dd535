#pragma once
// Internal to question.cc: the words by which a question is known, as data. Every word here is folded (words.h), short forms
// ("what's") written out.

#include <span>
#include <string_view>

#include "ask/question.h"

namespace ohmstead::ask_detail {

/// A row fits if every group of `all` (parted by ';') has an alternative (parted by '|') that stands in the text as whole words, and
/// none of `none` does. '^' before an alternative: the text begins with it; '$' behind it: it ends so. Rows are in order of urgency and the first that fits decides.
struct Cue {
  QuestionKind kind;
  std::string_view all;
  std::string_view none = "";
  Danger danger = Danger::touch;
};

[[nodiscard]] std::span<const Cue> cues();

/// Phrases that only ask, longest first; they are taken out before the words of the thing are looked for.
[[nodiscard]] std::span<const std::string_view> asking_phrases();
/// The same for single words.
[[nodiscard]] bool is_asking_word(std::string_view folded_word);

}  // namespace ohmstead::ask_detail
