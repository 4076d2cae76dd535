#pragma once
// A question in the family's own words, read without looking at the house: what is asked, and the words for the thing it is
// asked about. What the words name is for ask.h to find. A question that is not understood is `unknown`, never a guess.

#include <string>
#include <string_view>
#include <vector>

#include "house/enum_text.h"

namespace ohmstead {

enum class QuestionKind {
  unknown,
  danger,    ///< may a hand go there; something burns, shocks, smells: the answer is never yes
  note,      ///< what is noted: shut-offs, where a thing is kept, phone numbers
  dead,      ///< why does it not work
  off,       ///< what goes off with a handle
  carries,   ///< what a handle carries
  circuit,   ///< what else is on the circuit of a thing
  backup,    ///< does the generator carry it
  isolate,   ///< what to open before work on it
  feeds,     ///< which breaker feeds it
  traced,    ///< who found that, when, and how sure it is
  may,       ///< may it be switched on now
  restore,   ///< what brings it back
  open,      ///< what is not traced yet
  left,      ///< how much fuel, how many watts are left
  place,     ///< where it is
  outage,    ///< what to do now that the power is out
};
OHMSTEAD_WORDS(QuestionKind, "unknown", "danger", "note", "dead", "off", "carries", "circuit", "backup", "isolate", "feeds", "traced", "may",
               "restore", "open", "left", "place", "outage")

/// What a question of kind `danger` is about.
enum class Danger {
  touch,          ///< may it be touched or worked on; is it dead
  open_panel,
  gas, burning, shock, bright_lights, water,
  indoors,        ///< an engine indoors, or in a garage
  backfeed,       ///< a source into a receptacle
  larger_breaker, ///< a breaker larger than its wire, or a protection put out of action
  child,
};
OHMSTEAD_WORDS(Danger, "touch", "open_panel", "gas", "burning", "shock", "bright_lights", "water", "indoors", "backfeed", "larger_breaker", "child")

struct Question {
  QuestionKind kind = QuestionKind::unknown;
  Danger danger = Danger::touch;    ///< of kind danger
  /// The words for each thing, in small letters, without the words that only ask: {"upper bath light"}, {"9", "14"}.
  std::vector<std::string> about;
  bool that = false;        ///< "that", "it", "this": the thing of the question before
  bool goes_on = false;     ///< "and the dishwasher?": asks the same as the question before
  bool yes_or_no = false;   ///< begins with "is", "are", "does", ...
  bool many = false;        ///< says "lights", "all", "everything": several things are meant
  bool phone = false;       ///< of kind note: asks for a number to call
  bool operator==(const Question&) const = default;
};

/// Longest question that is read, in bytes.
inline constexpr std::size_t kLongestQuestion = 500;

/// Reads a question. Any bytes are allowed; a text that is too long is `unknown`.
[[nodiscard]] Question read_question(std::string_view text);

}  // namespace ohmstead
