#include "rules/plain_words.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "house/utf8.h"

namespace ohmstead {

namespace {

/// Characters that would move, hide or break what is printed around them.
bool is_control(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0xAD || (c >= 0x2028 && c <= 0x202E) ||
         (c >= 0x2066 && c <= 0x2069) || c == 0x200E || c == 0x200F || c == 0xFEFF || c == 0x200B ||
         (c >= 0xE0000 && c <= 0xE007F) || (c & 0xFFFE) == 0xFFFE;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_small(char c) { return c >= 'a' && c <= 'z'; }
bool is_large(char c) { return c >= 'A' && c <= 'Z'; }
char small(char c) { return is_large(c) ? static_cast<char>(c - 'A' + 'a') : c; }

std::vector<std::string_view> words_in(std::string_view text) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (end > 0) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

std::string joined(const std::vector<std::string_view>& words) {
  std::string text;
  for (const std::string_view word : words) text.append(text.empty() ? "" : " ").append(word);
  return text;
}

bool is_possessive(std::string_view word) {
  constexpr std::string_view kAfter = ".,:!)";
  while (!word.empty() && kAfter.find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  for (const std::string_view end : {"'s", "s'", "\u2019s", "s\u2019"})
    if (word.size() > end.size() && word.ends_with(end)) return true;
  return false;
}

}  // namespace

std::string printable(std::string_view text) {
  std::string out;
  bool space = false;
  while (!text.empty()) {
    const CodePoint next = first_code_point(text);
    const std::size_t bytes = std::max<std::size_t>(next.bytes, 1);
    if (next.bytes != 0 && (is_control(next.value) || next.value == ' ' || next.value == 0xA0)) {
      space = !out.empty();
    } else {
      if (space) out += ' ';
      space = false;
      out += next.bytes == 0 ? std::string_view("\uFFFD") : text.substr(0, bytes);
    }
    text.remove_prefix(bytes);
  }
  return out;
}

std::size_t character_count(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string whole_words(std::string_view text, std::size_t most) {
  std::vector<std::string_view> kept;
  const auto words = words_in(text);
  std::size_t used = 0;
  for (const std::string_view word : words) {
    const std::size_t more = character_count(word) + (kept.empty() ? 0 : 1);
    if (used + more > most) break;
    used += more;
    kept.push_back(word);
  }
  constexpr std::array<std::string_view, 14> kLoose{"and", "or", "of", "the", "in", "with", "&", "+", "und", "et", "y", "e", "\u0438", "\u0438\u043B\u0438"};
  if (kept.size() < words.size())
    while (!kept.empty() && std::ranges::find(kLoose, kept.back()) != kLoose.end()) kept.pop_back();
  return joined(kept);
}

std::string without_person(std::string_view name) {
  auto words = words_in(name);
  std::erase_if(words, is_possessive);
  return joined(words);
}

std::string label_name(std::string_view name, std::size_t most) {
  std::string text = printable(name);
  std::ranges::replace_if(text, [](char c) { return c == '?' || c == ';'; }, ' ');
  return whole_words(without_person(printable(text)), most);
}

std::string without_number(std::string_view name) {
  std::size_t end = name.size();
  while (end > 0 && is_digit(name[end - 1])) --end;
  while (end > 0 && (name[end - 1] == ' ' || name[end - 1] == '#')) --end;
  return std::string(name.substr(0, end));
}

std::string number_at_end(std::string_view name) {
  std::size_t start = name.size();
  while (start > 0 && is_digit(name[start - 1])) --start;
  return std::string(name.substr(start));
}

std::string plural(const std::string& noun) {
  if (noun.empty() || !(is_small(noun.back()) || is_large(noun.back()))) return noun;
  const auto ends = [&](std::string_view end) { return noun.ends_with(end); };
  if (ends("ss") || ends("x") || ends("ch") || ends("sh")) return noun + "es";
  if (ends("s")) return noun;
  constexpr std::string_view kVowels = "aeiou";
  if (ends("y") && noun.size() > 1 && kVowels.find(noun[noun.size() - 2]) == std::string_view::npos)
    return noun.substr(0, noun.size() - 1) + "ies";
  return noun + "s";
}

std::string with_capital(std::string text) {
  if (!text.empty() && is_small(text[0])) text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string without_capital(std::string text) {
  if (text.size() > 1 && is_large(text[0]) && is_small(text[1])) text[0] = small(text[0]);
  return text;
}

bool holds_word(std::string_view text, std::string_view part) {
  return std::ranges::search(text, part, [](char a, char b) { return small(a) == small(b); }).begin() != text.end();
}

}  // namespace ohmstead
