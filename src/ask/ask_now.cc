// Questions about how things stand now: what is not traced, what is left, what may be switched on, what to do.

#include "ask/ask_parts.h"
#include "ask/outage_ask.h"
#include "ask/outage_words.h"
#include "ask/sentence.h"
#include "backup/outage_board.h"
#include "backup/typical_loads.h"
#include "house/error.h"

namespace ohmstead::ask_detail {

using sentence::say;

namespace {

/// "microwave kitchen": the thing, and behind it perhaps the place where it is plugged in. Throws as asked_in_words.
AskedInWords asked_thing(const OutageView& view, const Names& names, const std::string& words) {
  try {
    return asked_in_words(view, names, words, "");
  } catch (const Error&) {
    for (std::size_t at = words.rfind(' '); at != std::string::npos && at > 0; at = words.rfind(' ', at - 1)) {
      try {
        return asked_in_words(view, names, words.substr(0, at), words.substr(at + 1));
      } catch (const Error&) {  // the place is longer, or there is none: the first refusal counts
      }
    }
    throw;
  }
}

AskAnswer answer_may(const AskFrom& from, const Question& question, const OutageBoard& board) {
  if (question.about.empty())
    return ask_back(from, QuestionKind::may, "May what be switched on? Name it, and the receptacle if it is not written down.", {});
  const bool none = board.now().phase == OutagePhase::none;
  Lines lines;
  std::vector<ThingRef> things;
  try {
    for (const std::string& words : question.about) {
      const AskedInWords asked = asked_thing(board.view(), from.names, words);
      if (!none)
        for (Line& line : words_of_may_i(board.view(), from.names, asked.name, may_i(board.view(), asked.thing))) lines.push_back(std::move(line));
      const std::size_t point = asked.thing.load >= 0 ? may_i(board.view(), asked.thing).point : asked.thing.point;
      things.push_back(thing_of(from.record.house.points[point]));
    }
  } catch (const Error& error) {
    if (!none || (things.empty() && !typical_figures(question.about.front()).known)) return ask_back(from, QuestionKind::may, error.what(), {});
  }
  if (none) lines = words_of_may_i(board.view(), from.names, "", {});
  AskAnswer answer = answered(from, QuestionKind::may, "may it be switched on now:", things, std::move(lines));
  return answer;
}

}  // namespace

AskAnswer answer_now(const AskFrom& from, const Question& question) {
  if (question.kind == QuestionKind::open)
    return answered(from, QuestionKind::open, "what is recorded and what is still open", {},
                    words_of_answer(from.record, from.names, how_it_stands(from.record)));
  try {
    const OutageBoard board(from.record.house, from.record.feeds, outage_source(from.record.house));
    if (question.kind == QuestionKind::may) return answer_may(from, question, board);
    Lines lines = words_of_outage_status(board.view(), outage_status(board.view(), from.now), from.local);
    if (question.kind == QuestionKind::left) {
      if (board.now().phase == OutagePhase::none)
        say(lines, LineKind::detail, "How long a tank lasts with the kept plan: `ohmstead paper plan`, or `ohmstead plan --in-turn`.");
      return answered(from, QuestionKind::left, "what is left", {}, std::move(lines));
    }
    if (board.now().phase != OutagePhase::none)
      for (Line& line : words_of_outage_step(board.view(), from.names, board.step())) lines.push_back(std::move(line));
    say(lines, LineKind::answer, "`ohmstead outage` leads through it, step by step.");
    return answered(from, QuestionKind::outage, "what to do in an outage", {}, std::move(lines));
  } catch (const Error& error) {  // no source, or not enough of it is written down
    Lines lines;
    say(lines, LineKind::answer, error.what());
    AskAnswer answer = answered(from, question.kind, "how it stands in an outage", {}, std::move(lines));
    answer.yes = false;
    return answer;
  }
}

}  // namespace ohmstead::ask_detail
