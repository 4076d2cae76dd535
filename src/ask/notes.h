#pragma once
// What is noted about things and about the house: read, found by the words of a question, and said. A note about the house may
// begin with its topic and a colon: "Gas shut-off: on the east wall". (Finding with an index, in a large file: db/search.h.)

#include <string>
#include <string_view>
#include <vector>

#include "ask/answer_words.h"

namespace ohmstead {

/// What stands before the first colon with a space behind it ("8:30" has none), if that is at most 40 bytes; else empty.
[[nodiscard]] std::string topic_of(const Note& note);
/// The text behind the topic and its colon; all of it where there is no topic.
[[nodiscard]] std::string body_of(const Note& note);

/// Places in house.notes about this thing, in the order of the house. A point's notes are also those of its box, its loads and its device.
[[nodiscard]] std::vector<std::size_t> notes_about(const House& house, const ThingRef& thing);

/// Places in house.notes that hold all the words, best first: those with most of them in the topic or the name of the thing. Words
/// are compared as names are (words.h), and the beginning of a word of 4 letters or more fits. No words: none.
[[nodiscard]] std::vector<std::size_t> notes_with(const House& house, const Names& names, std::string_view words);

/// "Garage: the path is icy in winter (private; Ana, 2026-03-02)". A note about the house stands alone.
[[nodiscard]] std::string note_text(const Names& names, const Note& note);

/// One line for each, or for one thing: "Noted: ...". Nothing where there is nothing.
[[nodiscard]] Lines words_of_notes(const House& house, const Names& names, const std::vector<std::size_t>& notes);

/// The house with a note about a thing, or with the note of this id changed. Throws Error{invalid_input} for a text that is empty, longer
/// than kLongestNote (house/invariants.h) or more than one line of text.
[[nodiscard]] House with_note(House house, Note note);

/// The note that is meant: its number in `note list`, from 1, or words that only it has. Throws Error{not_found} or {ambiguous}.
[[nodiscard]] std::size_t one_note(const House& house, const Names& names, std::string_view words);

}  // namespace ohmstead
