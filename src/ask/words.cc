#include "ask/words.h"

#include <algorithm>
#include <array>
#include <unordered_map>
#include <unordered_set>

#include "ask/synonyms.h"
#include "ask/utf8.h"

namespace ohmstead {

namespace {

using ask_detail::CodePoint;

/// U+00C0..U+017F without accents, in small letters; '_' where the letter is kept as it is.
constexpr std::string_view kPlainLetters =
    "aaaaaa_ceeeeiiii"  // U+00C0
    "_nooooo_ouuuuy__"
    "aaaaaa_ceeeeiiii"
    "_nooooo_ouuuuy_y"
    "aaaaaaccccccccdd"  // U+0100
    "ddeeeeeeeeeegggg"
    "gggghhhhiiiiiiii"
    "ii__jjkk_lllllll"
    "lllnnnnnnn__oooo"  // U+0140
    "oo__rrrrrrssssss"
    "ssttttttuuuuuuuu"
    "uuuuwwyyyzzzzzzs";

bool is_space(std::uint32_t c) {
  return c == ' ' || c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000;
}

/// Small letters of other scripts whose capitals stand at a fixed distance.
std::uint32_t small_letter(std::uint32_t c) {
  if (c >= 0x391 && c <= 0x3A9) return c + 0x20;  // Greek
  if (c >= 0x410 && c <= 0x42F) return c + 0x20;  // Cyrillic
  return c;
}

void append_utf8(std::string& out, std::uint32_t c) {
  if (c < 0x80) {
    out += static_cast<char>(c);
  } else if (c < 0x800) {
    out += static_cast<char>(0xC0 | c >> 6);
    out += static_cast<char>(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    out += static_cast<char>(0xE0 | c >> 12);
    out += static_cast<char>(0x80 | (c >> 6 & 0x3F));
    out += static_cast<char>(0x80 | (c & 0x3F));
  } else {
    out += static_cast<char>(0xF0 | c >> 18);
    out += static_cast<char>(0x80 | (c >> 12 & 0x3F));
    out += static_cast<char>(0x80 | (c >> 6 & 0x3F));
    out += static_cast<char>(0x80 | (c & 0x3F));
  }
}

void append_folded(std::string& out, std::uint32_t c) {
  if (c >= 'A' && c <= 'Z') {
    out += static_cast<char>(c - 'A' + 'a');
  } else if (c == 0xDF) {
    out += "ss";
  } else if (c == 0xC6 || c == 0xE6) {
    out += "ae";
  } else if (c == 0x2018 || c == 0x2019) {
    out += '\'';
  } else if (c >= 0x2010 && c <= 0x2015) {
    out += '-';
  } else if (c >= 0xC0 && c < 0xC0 + kPlainLetters.size() && kPlainLetters[c - 0xC0] != '_') {
    out += kPlainLetters[c - 0xC0];
  } else {
    append_utf8(out, small_letter(c));
  }
}

bool is_accent(std::uint32_t c) { return c >= 0x300 && c <= 0x36F; }  // combining
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80; }

std::string singular(std::string word) {
  const auto ends = [&](std::string_view end) { return word.ends_with(end); };
  if (word.size() < 4 || is_digit(word[0]) || !ends("s") || ends("ss") || ends("us") || ends("is")) return word;
  if (ends("ies") && word.size() > 4) return word.substr(0, word.size() - 3) + "y";
  if (ends("sses") || ends("xes") || ends("ches") || ends("shes")) return word.substr(0, word.size() - 2);
  return word.substr(0, word.size() - 1);
}

/// Raw words: runs of letters and digits; an apostrophe and what follows it is dropped.
std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto flush = [&] {
    if (!word.empty()) words.push_back(singular(word));
    word.clear();
  };
  for (const char c : folded(text)) {
    if (is_letter(c) || is_digit(c)) word += c;
    else flush();
  }
  flush();
  return words;
}

const std::unordered_map<std::string_view, std::string_view>& meanings() {
  static const auto kMap = [] {
    std::unordered_map<std::string_view, std::string_view> map;
    for (const Synonyms& line : synonyms()) {
      map.emplace(line.meaning, line.meaning);
      std::string_view rest = line.also;
      while (!rest.empty()) {
        const std::size_t end = std::min(rest.find(' '), rest.size());
        map.emplace(rest.substr(0, end), line.meaning);
        rest.remove_prefix(std::min(end + 1, rest.size()));
      }
    }
    return map;
  }();
  return kMap;
}

std::vector<std::string> split_phrase(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

struct SplitPhrase {
  std::vector<std::string> said, read_as;
};

const std::vector<SplitPhrase>& split_phrases() {
  static const auto kPhrases = [] {
    std::vector<SplitPhrase> all;
    for (const Phrase& phrase : phrases()) all.push_back({split_phrase(phrase.said), split_phrase(phrase.read_as)});
    return all;
  }();
  return kPhrases;
}

/// Replaces phrases from left to right; what came out of one is not looked at again.
std::vector<std::string> with_phrases(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < words.size();) {
    const auto fits = [&](const SplitPhrase& phrase) {
      return words.size() - at >= phrase.said.size() &&
             phrase.said[0] == words[at] && std::equal(phrase.said.begin(), phrase.said.end(), words.begin() + static_cast<std::ptrdiff_t>(at));
    };
    const auto found = std::ranges::find_if(split_phrases(), fits);
    if (found == split_phrases().end()) {
      out.push_back(words[at++]);
      continue;
    }
    out.insert(out.end(), found->read_as.begin(), found->read_as.end());
    at += found->said.size();
  }
  return out;
}

bool is_number(std::string_view word) {
  return std::ranges::all_of(word, is_digit) ||
         (is_digit(word[0]) && (word.back() == 'a' || word.back() == 'b') &&
          std::ranges::all_of(word.substr(0, word.size() - 1), is_digit));
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  bool space = false;
  while (!text.empty()) {
    const char c = text.front();
    if (c > ' ' && c < 0x7f) {  // most text is ASCII
      if (space) out += ' ';
      space = false;
      out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      text.remove_prefix(1);
      continue;
    }
    const CodePoint next = ask_detail::first_code_point(text);
    const bool blank = next.bytes == 0 || is_space(next.value) || ask_detail::is_control(next.value);
    if (blank) {
      space = !out.empty();
    } else if (!is_accent(next.value)) {
      if (space) out += ' ';
      space = false;
      append_folded(out, next.value);
    }
    text.remove_prefix(next.bytes == 0 ? 1 : next.bytes);
  }
  return out;
}

std::vector<Word> words_of_text(std::string_view text) {
  if (text.size() > kLongestQuery) return {};
  std::vector<std::string> raw = with_phrases(split(text));
  if (!std::ranges::all_of(raw, is_loose_word)) std::erase_if(raw, is_loose_word);
  std::vector<Word> words;
  for (std::string& word : raw) {
    const auto meaning = meanings().find(word);
    std::string stands_for(meaning == meanings().end() ? std::string_view(word) : meaning->second);
    const bool number = is_number(word);
    words.push_back({std::move(word), std::move(stands_for), number});
  }
  return words;
}

bool is_loose_word(std::string_view folded_word) {
  static constexpr std::array<std::string_view, 21> kLoose{"all", "every", "a",  "an", "the", "of",   "in", "on",     "at", "to",  "for", "by",
                                                           "my", "our", "and", "with", "near", "please", "s", "under", "is"};
  return std::ranges::find(kLoose, folded_word) != kLoose.end();
}

const std::vector<std::string_view>& said_for(std::string_view meaning) {
  static const auto kSaid = [] {
    std::unordered_map<std::string_view, std::vector<std::string_view>> said;
    for (const auto& [word, means] : meanings()) said[means].push_back(word);
    return said;
  }();
  static const std::vector<std::string_view> kNone;
  const auto found = kSaid.find(meaning);
  return found == kSaid.end() ? kNone : found->second;
}

bool is_known_word(std::string_view folded_singular) { return meanings().contains(folded_singular); }

int slips_between(std::string_view a, std::string_view b, int most) {
  const auto longer = std::max(a.size(), b.size()), shorter = std::min(a.size(), b.size());
  if (longer - shorter > static_cast<std::size_t>(most)) return most + 1;
  std::vector<int> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({changed, last[j] + 1, now[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(now);
  }
  return std::min(last[b.size()], most + 1);
}

int slips_forgiven(std::size_t letters) { return letters < 4 ? 0 : letters < 8 ? 1 : 2; }

}  // namespace ohmstead
