#include "ask/search_words.h"

#include <algorithm>

#include "ask/words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostBytes = 2000, kLongestWord = 60;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80; }

SearchWord with_synonyms(const std::string& word) {
  SearchWord all{word};
  const auto take = [&](std::string_view other) {
    if (other.size() > 1 && std::ranges::find(all, other) == all.end()) all.emplace_back(other);
  };
  for (const Word& one : words_of_text(word)) {
    if (one.number) continue;
    take(one.text), take(one.meaning);
    for (const std::string_view other : said_for(one.meaning)) take(other);
  }
  // What begins with another word of the list is found with it.
  std::erase_if(all, [&](const std::string& one) {
    return std::ranges::any_of(all,
                               [&](const std::string& other) { return one.size() > other.size() && other.size() > 2 && one.starts_with(other); });
  });
  return all;
}

}  // namespace

std::vector<SearchWord> search_words(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto flush = [&] {
    if (!word.empty() && word.size() <= kLongestWord && std::ranges::find(words, word) == words.end()) words.push_back(word);
    word.clear();
  };
  for (const char c : folded(text.substr(0, kMostBytes))) {
    if (is_letter(c))
      word += c;
    else if (c != '\'')
      flush();
  }
  flush();
  if (!std::ranges::all_of(words, is_loose_word)) std::erase_if(words, is_loose_word);
  if (words.size() > kMostSearchWords) words.resize(kMostSearchWords);
  std::vector<SearchWord> all;
  for (const std::string& one : words) all.push_back(with_synonyms(one));
  return all;
}

}  // namespace ohmstead
