// Which row of the table a person's words mean.

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "backup/typical_loads.h"

namespace ohmstead {

namespace {

/// Words that change nothing about what a thing takes.
constexpr std::string_view kNeutral[] = {
    "a", "an", "the", "my", "our", "your", "his", "her", "their", "this", "that", "one", "other", "old", "new", "big", "little", "small", "large", "main", "second",
    "third", "first", "spare", "extra", "white", "black", "red", "blue", "green", "left", "right", "upper", "lower", "middle", "north", "south", "east", "west", "nw",
    "ne", "sw", "se", "n", "s", "e", "w", "front", "back", "rear", "side", "kitchen", "pantry", "garage", "basement", "cellar", "attic", "bedroom", "bed", "bath",
    "bathroom", "hall", "hallway", "living", "dining", "family", "guest", "kid", "utility", "laundry", "storage", "workshop", "shop", "shed", "barn", "porch",
    "patio", "deck", "yard", "office", "den", "study", "nursery", "entry", "mudroom", "closet", "room", "floor", "upstairs", "downstairs", "outdoor", "outside",
    "indoor", "inside", "wall", "ceiling", "corner", "counter", "door", "window", "sink", "stair", "step", "house", "home", "mother", "father", "mom", "dad",
    "grandma", "grandpa", "ladder", "table", "desk", "bench", "bedside", "reading", "night", "standing", "led", "and"};
/// Words after which a place follows: what is named stands before them.
constexpr std::string_view kPlaceFollows[] = {"in", "at", "by", "on", "over", "under", "near", "beside", "behind", "above", "below", "next", "to", "from"};
/// Words after which a purpose follows: "heater for the fish tank" is no space heater.
constexpr std::string_view kPurposeFollows[] = {"for", "of", "with"};

bool among(std::span<const std::string_view> words, std::string_view word) { return std::ranges::find(words, word) != words.end(); }

struct Word {
  std::string text;
  bool owner = false;   ///< "Joe's"
  bool number = false;
  bool aside = false;   ///< the first one after a bracket or comma
};
using Words = std::vector<Word>;

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80; }

/// Lower case, parted at what is no letter or digit; "Joe's" is one word.
Words words_of(std::string_view name) {
  Words words;
  std::string text;
  bool owner = false, aside = false;
  const auto end_word = [&] {
    if (text.empty()) return;
    words.push_back({text, owner, std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; }), aside && !words.empty()});
    text.clear(), owner = aside = false;
  };
  for (std::size_t i = 0; i < name.size(); ++i) {
    const char c = name[i] >= 'A' && name[i] <= 'Z' ? static_cast<char>(name[i] + 'a' - 'A') : name[i];
    const bool apostrophe = c == '\'' && !text.empty();
    const bool curly = !text.empty() && name.substr(i).starts_with("\xE2\x80\x99");
    if (apostrophe || curly) owner = true, i += curly ? 2 : 0;
    else if (letter(c)) text += c;
    else end_word(), aside = aside || std::string_view("(,;:[").find(c) != std::string_view::npos;
  }
  end_word();
  return words;
}

/// Forms of a word without the ending of a plural.
std::array<std::string, 3> singular(const std::string& word) {
  std::array<std::string, 3> forms{word, word, word};
  if (word.size() > 2 && word.ends_with('s')) forms[1].pop_back();
  if (word.size() > 4 && word.ends_with("es")) forms[2].resize(word.size() - 2);
  return forms;
}

bool says(const Word& said, const std::string& listed, bool last) {
  if (!last) return said.text == listed;
  const auto forms = singular(said.text);
  return std::ranges::find(forms, listed) != forms.end();
}

struct Phrase {
  Words words;
  const TypicalLoad* row = nullptr;
};

/// All names of all rows, longest first.
const std::vector<Phrase>& phrases() {
  static const std::vector<Phrase> made = [] {
    std::vector<Phrase> all;
    for (const TypicalLoad& row : typical_loads()) {
      all.push_back({words_of(row.name), &row});
      for (std::string_view rest = row.other_words; !rest.empty();) {
        const std::size_t bar = std::min(rest.find('|'), rest.size());
        all.push_back({words_of(rest.substr(0, bar)), &row});
        rest.remove_prefix(std::min(bar + 1, rest.size()));
      }
    }
    std::ranges::stable_sort(all, [](const Phrase& a, const Phrase& b) { return a.words.size() > b.words.size(); });
    return all;
  }();
  return made;
}

bool ends_with(std::span<const Word> head, const Words& phrase) {
  if (phrase.size() > head.size()) return false;
  const auto tail = head.last(phrase.size());
  for (std::size_t i = 0; i < phrase.size(); ++i)
    if (!says(tail[i], phrase[i].text, i + 1 == phrase.size())) return false;
  return true;
}

bool neutral(const Word& word) {
  if (word.owner || word.number || among(kPlaceFollows, word.text)) return true;
  const auto forms = singular(word.text);
  return std::ranges::any_of(forms, [](const std::string& form) { return among(kNeutral, form); });
}

}  // namespace

TypicalMatch find_typical_load(std::string_view name) {
  if (name.size() > 200) return {};
  const Words words = words_of(name);
  const auto cut = std::ranges::find_if(words, [](const Word& w) { return w.aside || among(kPlaceFollows, w.text) || among(kPurposeFollows, w.text); });
  std::span<const Word> head(words.begin(), cut);
  const std::span<const Word> tail(cut, words.end());
  TypicalMatch match;
  const bool plural = !head.empty() && head.back().text.ends_with('s');
  const bool counted = head.size() > 1 && head.front().number && plural && head.front().text.size() <= 2;
  if (counted) {
    match.pieces = std::max(1, std::stoi(head.front().text));
    head = head.subspan(1);
  }
  while (head.size() > 1 && (head.back().number || among(std::array<std::string_view, 2>{"left", "right"}, head.back().text))) head = head.first(head.size() - 1);
  for (const Phrase& phrase : phrases()) {
    if (!ends_with(head, phrase.words)) continue;
    const auto before = head.first(head.size() - phrase.words.size());
    if (!phrase.row->any_kind && !(std::ranges::all_of(before, neutral) && std::ranges::all_of(tail, neutral))) return {};
    match.row = phrase.row;
    if (phrase.row->name == "light" && plural && !counted) match.pieces = kLightsOfARoom;
    return match;
  }
  return {};
}

}  // namespace ohmstead
