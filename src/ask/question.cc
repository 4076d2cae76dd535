#include "ask/question.h"

#include <algorithm>
#include <array>

#include "ask/question_cues.h"
#include "ask/words.h"

namespace ohmstead {

namespace {

using ask_detail::Cue;

using Words = std::vector<std::string>;

constexpr std::pair<std::string_view, std::string_view> kShortForms[] = {
    {"n't", " not"}, {"'s", " is"}, {"'re", " are"}, {"'m", " am"}, {"'ll", " will"}, {"'d", " would"}, {"'ve", " have"},
};
constexpr std::pair<std::string_view, std::string_view> kWrittenOut[] = {
    {"whats", "what is"},
    {"wheres", "where is"},
    {"whos", "who is"},
    {"doesnt", "does not"},
    {"dont", "do not"},
    {"isnt", "is not"},
    {"arent", "are not"},
    {"cant", "can not"},
    {"wont", "will not"},
    {"ca not", "can not"},
    {"wo not", "will not"},
    {"cannot", "can not"},
    {"hasnt", "has not"},
    {"didnt", "did not"},
    {"im", "i am"},
    {"thats", "that is"},
    {"gfi", "gfci"},
    {"shut offs", "shutoff"},
    {"4 the", "for the"},
    {"u", "you"},
    {"r", "are"},
    {"pls", "please"},
    {"ur", "your"},
    {"hot water heater", "waterheater"},
    {"hot water tank", "waterheater"},
    {"hot water", "waterheater"},
    {"hot tub", "hottub"},
    {"power strip", "powerstrip"},
    {"smoke alarm", "smokealarm"},
    {"smoke alarms", "smokealarms"},
    {"smoke detector", "smokealarm"},
    {"smoke detectors", "smokealarms"},
    {"that circuit", "that"},
    {"this circuit", "this"},
    {"that breaker", "that"},
    {"this breaker", "this"},
    {"that fuse", "that"},
    {"that one", "that"},
    {"this one", "this"},
    {"that thing", "that"},
    {"the same one", "that"},
    {"turn it off", "turn off it"},
    {"shut it off", "shut off it"},
    {"switch it off", "switch off it"},
    {"turn that off", "turn off that"},
    {"lights out", "lights went out"},
};
/// Words by which a question is known, as they are misspelled most.
constexpr std::string_view kOftenMisspelled[] = {"which",       "what",    "where",   "breaker", "breakers",  "circuit",  "generator",
                                                 "switch",      "traced",  "safe",    "touch",   "outage",    "blackout", "power",
                                                 "electrician", "replace", "working", "phone",   "dangerous", "burning"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_word_letter(char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || static_cast<unsigned char>(c) >= 0x80; }

void replace_words(std::string& text, std::string_view said, std::string_view with) {
  const std::string from = " " + std::string(said) + " ", to = with.empty() ? std::string(" ") : " " + std::string(with) + " ";
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size() - 1)) text.replace(at, from.size(), to);
}

Words split(std::string_view text) {
  Words words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    if (end > at) words.emplace_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

/// A word of a question that is spelled wrong, and no word for anything else.
std::string spelled(const std::string& word) {
  if (word.size() < 4 || ask_detail::is_asking_word(word) || is_known_word(word)) return word;
  for (const std::string_view right : kOftenMisspelled)
    if (slips_between(word, right, 1) == 1) return std::string(right);
  return word;
}

/// One sentence: small letters, one space around every word, short forms written out; "," and "and" as " , ".
std::string plain(std::string_view folded_text) {
  std::string spaced = " ";
  for (std::size_t i = 0; i < folded_text.size(); ++i) {
    const char c = folded_text[i];
    const bool between =
        (c == '-' || c == '+') && i > 0 && i + 1 < folded_text.size() && is_digit(folded_text[i - 1]) && is_word_letter(folded_text[i + 1]);
    if (is_word_letter(c) || between || c == '\'')
      spaced += c;
    else
      spaced += c == ',' || c == ';' || c == '&' ? " , " : " ";
  }
  for (const auto& [said, full] : kShortForms)
    for (std::size_t at = spaced.find(said); at != std::string::npos; at = spaced.find(said, at + full.size()))
      if (at + said.size() >= spaced.size() || !is_word_letter(spaced[at + said.size()])) spaced.replace(at, said.size(), full);
  std::erase(spaced, '\'');
  std::string text = " ";
  spaced += " ";
  for (const auto& [said, full] : kWrittenOut) replace_words(spaced, said, full);
  for (const std::string& word : split(spaced)) text += spelled(word) + " ";
  for (const auto& [said, full] : kWrittenOut) replace_words(text, said, full);
  return text;
}

/// Does one alternative stand in the text? '^': at its beginning; '$': at its end.
bool stands(const std::string& text, std::string_view alternative) {
  const bool begins = alternative.starts_with('^'), ends = alternative.ends_with('$');
  if (begins) alternative.remove_prefix(1);
  if (ends) alternative.remove_suffix(1);
  const std::string word = " " + std::string(alternative) + " ";
  if (begins && ends) return text == word;
  return begins ? text.starts_with(word) : ends ? text.ends_with(word) : text.find(word) != std::string::npos;
}

template <class F>
bool any_part(std::string_view list, char between, const F& fits) {
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(between), list.size());
    std::string_view part = list.substr(0, end);
    while (part.starts_with(' ')) part.remove_prefix(1);
    while (part.ends_with(' ')) part.remove_suffix(1);
    if (fits(part)) return true;
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return false;
}

bool has_one_of(const std::string& text, std::string_view alternatives) {
  return any_part(alternatives, '|', [&](std::string_view one) { return stands(text, one); });
}

const Cue* cue_of(const std::string& text) {
  for (const Cue& cue : ask_detail::cues()) {
    const bool lacks = any_part(cue.all, ';', [&](std::string_view group) { return !has_one_of(text, group); });
    if (!lacks && (cue.none.empty() || !has_one_of(text, cue.none))) return &cue;
  }
  return nullptr;
}

/// The words for things in one sentence: what is left without the words that only ask, cut at ',' and 'and'.
void add_things(std::string text, bool two_compared, std::vector<std::string>& about) {
  if (two_compared)
    for (const std::string_view as : {"the same breaker as", "the same circuit as", "same breaker as", "same circuit as", "the same breaker with",
                                      "same circuit with", "the same fuse as", "as"})
      replace_words(text, as, ",");
  for (const std::string_view phrase : ask_detail::asking_phrases()) replace_words(text, phrase, "");
  std::string thing;
  const auto flush = [&] {
    if (thing.ends_with(" back")) thing.resize(thing.size() - 5);  // "bring the freezer back"
    if (!thing.empty()) about.push_back(thing);
    thing.clear();
  };
  for (const std::string& word : split(text)) {
    if (word == "," || word == "and" || word == "plus") {
      flush();
    } else if (!ask_detail::is_asking_word(word)) {
      thing += (thing.empty() ? "" : " ") + word;
    }
  }
  flush();
}

/// The sentences of a text; a '.' between digits is none.
std::vector<std::string> sentences(const std::string& folded_text) {
  std::vector<std::string> all;
  std::string one;
  for (std::size_t i = 0; i < folded_text.size(); ++i) {
    const char c = folded_text[i];
    const bool end = c == '?' || c == '!' || (c == '.' && (i + 1 >= folded_text.size() || folded_text[i + 1] == ' '));
    if (!end) one += c;
    if ((end || i + 1 == folded_text.size()) && one.find_first_not_of(' ') != std::string::npos) all.push_back(plain(one));
    if (end) one.clear();
  }
  return all;
}

}  // namespace

Question read_question(std::string_view text) {
  Question question;
  if (text.size() > kLongestQuestion) return question;
  const std::vector<std::string> parts = sentences(folded(text));
  std::string whole = " ";
  for (const std::string& part : parts) whole += part.substr(1);
  const Cue* cue = cue_of(whole);
  if (cue != nullptr) question.kind = cue->kind, question.danger = cue->danger;
  const bool compared = question.kind == QuestionKind::circuit;
  for (auto part = parts.rbegin(); part != parts.rend() && question.about.empty(); ++part) {
    const Cue* own = parts.size() == 1 ? cue : cue_of(*part);
    if (own != nullptr && own->kind == question.kind) add_things(*part, compared, question.about);
  }
  for (auto part = parts.begin(); part != parts.end() && question.about.empty(); ++part) add_things(*part, compared, question.about);
  question.that = question.about.empty() && has_one_of(whole, "that|it|this|these|those|there|them|its|the circuit|one");
  question.goes_on = cue == nullptr && has_one_of(whole, "^and|^what about|^how about|^also");
  question.yes_or_no = has_one_of(whole, "^is|^are|^does|^do|^can|^will|^would|^was|^has");
  question.many = has_one_of(whole, "lights|outlets|receptacles|plugs|sockets|smokealarms|alarms|all|every|everything|lamps|fans|things|everywhere");
  question.phone = question.kind == QuestionKind::note && has_one_of(whole, "phone|telephone|call|number|numbers|ring|reach");
  return question;
}

}  // namespace ohmstead
