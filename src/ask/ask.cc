#include "ask/ask.h"

#include <algorithm>

#include "ask/ask_parts.h"
#include "ask/ask_things.h"
#include "ask/notes.h"
#include "ask/printable.h"
#include "ask/words.h"

namespace ohmstead {

using ask_detail::answered, ask_detail::ask_back, ask_detail::FoundThings;

namespace {

constexpr std::size_t kMostNotes = 6;

/// One question being answered.
struct Asked {
  const AskFrom& from;
  const Question& question;
  const Sitting& before;
  std::string_view words;
};

std::string quoted(std::string_view words) { return "'" + terminal::printable(words.substr(0, 60)) + "'"; }

AskAnswer not_understood(const AskFrom& from) {
  AskAnswer answer = ask_back(from, QuestionKind::unknown, "I did not understand that. It can be asked, for example:", {});
  answer.lines.back().items = {"which breaker for the dishwasher", "what goes off with 12",     "what do I switch off to change the kitchen light",
                               "is the freezer on the generator",  "where is the gas shut-off", "what is still untraced"};
  return answer;
}

AskAnswer no_such_thing(const AskFrom& from, QuestionKind kind, const std::string& words) {
  std::vector<ThingRef> near = ask_detail::nearest_to(from.names, words);
  const std::string text =
      "Nothing in the record is called " + quoted(words) + (near.empty() ? ". What is it called, and in which room is it?" : ". Is it one of these?");
  return ask_back(from, kind, text, std::move(near));
}

AskAnswer which_one(const AskFrom& from, QuestionKind kind, const std::string& words, std::vector<ThingRef> candidates) {
  const std::string text = "Which one? " + quoted(words) + " fits " + std::to_string(candidates.size()) + " things:";
  return ask_back(from, kind, text, std::move(candidates));
}

/// Words by which an answer about the generator is asked for, taken out of the words for the thing.
std::string without_source_words(const std::string& words) {
  std::string left;
  for (const Word& word : words_of_text(words))
    if (word.meaning != "generator" && word.meaning != "transfer" && word.text != "backup" && word.text != "battery" && word.text != "inverter")
      left += (left.empty() ? "" : " ") + word.text;
  return left;
}

/// The things that one stretch of words names, as this kind of question looks for them.
FoundThings find_for(const Asked& asked, QuestionKind kind, const std::string& words) {
  const AskFrom& from = asked.from;
  FoundThings found;
  if (kind == QuestionKind::off || kind == QuestionKind::carries) found = ask_detail::find_handle(from.names, words);
  if (kind == QuestionKind::place) found = ask_detail::find_other(from.names, words);
  if (found.none()) found = ask_detail::find_points(from.record, from.names, words, asked.question.many && kind != QuestionKind::isolate);
  if (found.none()) found = ask_detail::find_handle(from.names, words);
  if (kind == QuestionKind::traced && found.none())  // "who said the pump is on 20"
    if (const std::size_t digit = words.find_first_of("0123456789"); digit != std::string::npos && digit > 1)
      found = ask_detail::find_points(from.record, from.names, words.substr(0, digit - 1), false);
  return found.none() ? ask_detail::find_other(from.names, words) : found;
}

/// What may not rest on a misspelled word.
bool must_be_sure(QuestionKind kind) {
  return kind == QuestionKind::isolate || kind == QuestionKind::danger || kind == QuestionKind::may || kind == QuestionKind::off;
}

/// A question about things: each is found, or it is asked which.
AskAnswer answer_named(const Asked& asked, QuestionKind kind) {
  std::vector<ThingRef> things;
  std::vector<std::string> about = asked.question.about;
  std::string whole;
  for (const std::string& words : about) whole += (whole.empty() ? "" : " and ") + words;
  if (about.size() > 1 && asked.from.names.find(whole, {ThingKind::point, ThingKind::room, ThingKind::floor}).best.size() == 1)
    about = {whole};  // "Sewing and guest room"
  for (const std::string& said : about) {
    const std::string words = kind == QuestionKind::backup ? without_source_words(said) : said;
    if (words.empty()) continue;
    FoundThings found = find_for(asked, kind, words);
    if (found.none()) return no_such_thing(asked.from, kind, words);
    if (found.by_slip && must_be_sure(kind)) {
      std::vector<ThingRef> meant = found.things.empty() ? found.candidates : found.things;
      return ask_back(asked.from, kind, "Nothing is called " + quoted(words) + ". Is this meant?", std::move(meant));
    }
    if (found.things.empty()) return which_one(asked.from, kind, words, std::move(found.candidates));
    things.insert(things.end(), found.things.begin(), found.things.end());
  }
  return ask_detail::answer_about(asked.from, kind, things, asked.question);
}

AskAnswer answer_notes(const Asked& asked) {
  const AskFrom& from = asked.from;
  const House& house = from.record.house;
  std::string words;
  for (const std::string& part : asked.question.about) words += (words.empty() ? "" : " ") + part;
  std::vector<std::size_t> notes;
  if (words.empty() && !asked.question.phone && !asked.question.that)
    for (std::size_t n = 0; n < house.notes.size(); ++n) notes.push_back(n);
  else
    notes = notes_with(house, from.names, asked.question.phone ? words + " phone" : words);
  if (notes.empty() && asked.question.phone) notes = notes_with(house, from.names, words.empty() ? "phone" : words);
  if (notes.empty() && asked.question.phone) notes = notes_with(house, from.names, "phone numbers");
  if (!words.empty() && !asked.question.phone) {  // what is noted about a thing itself comes first
    const FoundThings found = find_for(asked, QuestionKind::note, words);
    for (const ThingRef& thing : found.things)
      if (const std::vector<std::size_t> own = notes_about(house, thing); !own.empty())
        return answered(from, QuestionKind::note, "what is noted about", {thing}, words_of_notes(house, from.names, own));
  }
  if (notes.empty())
    return ask_back(from, QuestionKind::note,
                    words.empty() ? "Nothing is noted yet; `ohmstead note add` keeps it."
                                  : "Nothing is noted about " + quoted(words) + ". In what other words? `ohmstead note list` shows all.",
                    {});
  const bool all = words.empty() && !asked.question.phone;
  if (!all && notes.size() > kMostNotes) notes.resize(kMostNotes);
  std::vector<ThingRef> things;
  for (const std::size_t n : notes)
    if (house.notes[n].about.kind != ThingKind::house && std::ranges::find(things, house.notes[n].about) == things.end())
      things.push_back(house.notes[n].about);
  return answered(from, QuestionKind::note, all ? "all notes" : "what is noted, with " + quoted(words.empty() ? "phone" : words),
                  all ? std::vector<ThingRef>{} : things, words_of_notes(house, from.names, notes));
}

/// Questions that name nothing, or whose words are not names.
AskAnswer answer_danger(const Asked& asked) {
  std::vector<ThingRef> things;
  std::string left_out;  ///< words that are not surely one thing
  if (asked.question.danger == Danger::touch || asked.question.danger == Danger::shock)
    for (const std::string& words : asked.question.about) {
      const FoundThings found = find_for(asked, QuestionKind::isolate, words);
      if (found.by_slip || found.things.empty()) left_out += (left_out.empty() ? "" : ", ") + quoted(words);
      else things.insert(things.end(), found.things.begin(), found.things.end());
    }
  if (things.empty() && asked.question.that) things = asked.before.things;
  if (!std::ranges::all_of(things, [](const ThingRef& thing) { return thing.kind == ThingKind::point; })) things.clear();
  const AskAnswer open =
      things.empty() ? AskAnswer{.asks_back = true} : ask_detail::answer_about(asked.from, QuestionKind::isolate, things, asked.question);
  if (open.asks_back) things.clear();
  AskAnswer answer =
      answered(asked.from, QuestionKind::danger, "", things, ask_detail::danger_lines(asked.question.danger, open.lines, open.asks_back));
  if (!things.empty() && !left_out.empty())
    answer.lines.insert(answer.lines.begin() + 1, {LineKind::danger, "What is to be opened for " + left_out + " is not told here: it fits no one thing in the record. Ask for it alone.", {}});
  answer.yes = false;
  return answer;
}

/// The thing among `candidates` that was meant by the answer to the question which; null: none, or several.
const ThingRef* chosen(const AskFrom& from, const std::vector<ThingRef>& candidates, std::string_view words) {
  const std::string said = folded(words);
  const ThingRef* only = nullptr;
  std::size_t count = 0;
  if (said == "yes" || said == "y" || said == "yes please") return candidates.size() == 1 ? &candidates.front() : nullptr;
  for (const ThingRef& thing : candidates) {
    const std::vector<Word> name = words_of_text(from.names.name_of(thing));
    const auto in_name = [&](const Word& word) {
      return std::ranges::any_of(name, [&](const Word& own) { return own.text == word.text || own.meaning == word.meaning; });
    };
    std::vector<Word> answer = words_of_text(words);
    std::erase_if(answer, [](const Word& word) { return word.text == "one" || word.text == "that" || word.text == "it"; });
    if (!answer.empty() && std::ranges::all_of(answer, in_name)) only = &thing, ++count;
  }
  return count == 1 ? only : nullptr;
}

/// Only the name of a thing, and nothing that asks.
bool only_a_name(std::string_view words, const Question& question) {
  return question.about.size() == 1 && words_of_text(words).size() == words_of_text(question.about.front()).size();
}

AskAnswer answer_unknown(const Asked& asked) {
  const Question& question = asked.question;
  if (question.about.empty()) return not_understood(asked.from);
  if (question.goes_on && asked.before.kind != QuestionKind::unknown) return answer_named(asked, asked.before.kind);
  if (only_a_name(asked.words, question) && !ask_detail::says_handle(question.about.front()))
    if (AskAnswer answer = answer_named(asked, QuestionKind::feeds); !answer.asks_back || !answer.candidates.empty()) return answer;
  const bool what_is = folded(asked.words).starts_with("what");  // "what's 18"
  if ((what_is || only_a_name(asked.words, question)) && question.about.size() == 1 && ask_detail::says_handle(question.about.front()))
    if (AskAnswer answer = answer_named(asked, QuestionKind::carries); !answer.asks_back || answer.candidates.size() > 1) return answer;
  return not_understood(asked.from);
}

bool names_nothing(QuestionKind kind) { return kind == QuestionKind::open || kind == QuestionKind::left || kind == QuestionKind::outage; }

AskAnswer answer_known(const Asked& asked) {
  const Question& question = asked.question;
  const QuestionKind kind = question.kind;
  if (kind == QuestionKind::danger) return answer_danger(asked);
  if (kind == QuestionKind::note) return answer_notes(asked);
  if (names_nothing(kind) || kind == QuestionKind::may) return ask_detail::answer_now(asked.from, question);
  if (!question.about.empty()) {
    AskAnswer answer = answer_named(asked, kind);
    const bool may_be_noted = kind == QuestionKind::place || kind == QuestionKind::dead;
    if (answer.asks_back && may_be_noted)
      if (AskAnswer noted = answer_notes(asked); !noted.asks_back) return noted;
    return answer;
  }
  if (kind == QuestionKind::backup && !question.that) return ask_detail::answer_about(asked.from, kind, {}, question);
  if (!asked.before.things.empty() && (question.that || kind == QuestionKind::circuit))
    return ask_detail::answer_about(asked.from, kind, asked.before.things, question);
  return ask_back(asked.from, kind, "Of what? Name a thing, such as 'kitchen light', or a breaker, such as 'Main 12'.", {});
}

}  // namespace

AskAnswer answer_question(const AskFrom& from, Sitting& sitting, std::string_view words) {
  Question question = read_question(words);
  const Sitting before = sitting;
  AskAnswer answer;
  const ThingRef* meant = before.candidates.empty() || question.kind != QuestionKind::unknown ? nullptr : chosen(from, before.candidates, words);
  if (meant != nullptr)
    answer = ask_detail::answer_about(from, before.waiting, {*meant}, question);
  else
    answer = question.kind == QuestionKind::unknown ? answer_unknown({from, question, before, words}) : answer_known({from, question, before, words});
  sitting.candidates.clear();
  if (answer.asks_back) {
    sitting.waiting = answer.kind, sitting.candidates = answer.candidates;
  } else {
    sitting.kind = answer.kind;
    if (!answer.things.empty()) sitting.things = answer.things;
  }
  return answer;
}

}  // namespace ohmstead
