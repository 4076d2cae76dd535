#pragma once
// A question in the family's own words answered from the record: what it names is found (names.h), the function that answers such a
// question is asked, and its sentences come back. What fits several things, or is not understood, is asked back; what can hurt is
// answered with what to open and how to test, never with yes.

#include <string>
#include <string_view>
#include <vector>

#include "ask/answer_words.h"
#include "ask/local_time.h"
#include "ask/question.h"

namespace ohmstead {

/// What was asked before, in the same sitting.
struct Sitting {
  QuestionKind kind = QuestionKind::unknown;
  std::vector<ThingRef> things;      ///< what the last question was about
  QuestionKind waiting = QuestionKind::unknown;  ///< what was asked when it was asked back which of `candidates` is meant
  std::vector<ThingRef> candidates;
};

struct AskAnswer {
  QuestionKind kind = QuestionKind::unknown;
  std::string understood;            ///< "what feeds Kitchen dishwasher"; empty where it asks back
  std::vector<ThingRef> things;      ///< what it was understood to be about; a circuit is its breaker
  bool asks_back = false;            ///< then the lines ask, and no answer is among them
  std::vector<ThingRef> candidates;  ///< of an answer that asks back: what fits
  Lines lines;
  bool yes = true;                   ///< as the exit code: false where the answer is no, nothing, or asked back
};

/// What a question is answered from. `record` and `names` (of record.house) outlive it.
struct AskFrom {
  const Record& record;
  const Names& names;
  std::string now;                   ///< UTC
  LocalTime local = {};
};

/// Any bytes are a question. `sitting` is what was asked before, and is brought up to date. Never throws for words.
[[nodiscard]] AskAnswer answer_question(const AskFrom& from, Sitting& sitting, std::string_view words);

}  // namespace ohmstead
