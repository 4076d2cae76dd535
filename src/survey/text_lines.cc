#include "survey/text_lines.h"

#include <algorithm>
#include <charconv>

#include "house/utf8.h"
#include "survey/entry.h"

namespace ohmstead::entry_detail {

namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n'; }

char lower_char(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

void require_readable(int line, std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text.substr(at));
    if (length == 0) throw refusal(line, "it holds bytes that are not UTF-8; save the text as UTF-8.");
    const auto byte = static_cast<unsigned char>(text[at]);
    const bool c1 = length == 2 && byte == 0xC2 && static_cast<unsigned char>(text[at + 1]) < 0xA0;
    if ((byte < 0x20 && byte != '\t') || byte == 0x7F || c1)
      throw refusal(line, "it holds a control character; take it out.");
    at += length;
  }
}

/// The line without its comment: '#' first on the line, or with a space on both sides.
std::string_view without_comment(std::string_view line) {
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"') quoted = !quoted;
    if (line[i] != '#' || quoted) continue;
    const bool first = trimmed(line.substr(0, i)).empty();
    const bool spaced = i > 0 && is_space(line[i - 1]) && (i + 1 == line.size() || is_space(line[i + 1]));
    if (first || spaced) return line.substr(0, i);
  }
  return line;
}

}  // namespace

Error refusal(int line, const std::string& message) {
  return Error(ErrorKind::invalid_input, "line " + std::to_string(line) + ": " + message);
}

std::string shown(std::string_view word) {
  constexpr std::size_t kMost = 40;
  if (word.size() <= kMost) return "'" + std::string(word) + "'";
  std::size_t end = kMost;
  while (end > 0 && (static_cast<unsigned char>(word[end]) & 0xC0) == 0x80) --end;
  return "'" + std::string(word.substr(0, end)) + "...'";
}

std::vector<Line> lines_of(std::string_view text) {
  if (text.size() > kLongestEntry)
    throw refusal(1, "the text is longer than " + std::to_string(kLongestEntry) + " bytes; enter it in parts.");
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::vector<Line> lines;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    ++number;
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.size() > kLongestEntryLine)
      throw refusal(number, "it is longer than " + std::to_string(kLongestEntryLine) + " bytes; write several lines.");
    require_readable(number, line);
    line = without_comment(line);
    const std::string content = trimmed(line);
    if (content.empty()) continue;
    if (is_space(line.front()) && !lines.empty())
      lines.back().text += "\n" + content;
    else
      lines.push_back({number, content});
    if (lines.back().text.size() > kLongestEntryLine)
      throw refusal(number, "it is longer than " + std::to_string(kLongestEntryLine) + " bytes; write several lines.");
    if (lines.size() > kMostEntryLines)
      throw refusal(number, "there are more than " + std::to_string(kMostEntryLines) + " lines; enter them in parts.");
  }
  return lines;
}

std::string Word::lower() const { return entry_detail::lower(text); }

std::vector<std::string> split(std::string_view text, std::string_view separators) {
  std::vector<std::string> parts;
  bool quoted = false;
  std::size_t first = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i < text.size() && text[i] == '"') quoted = !quoted;
    if (i < text.size() && (quoted || separators.find(text[i]) == std::string_view::npos)) continue;
    parts.push_back(trimmed(text.substr(first, i - first)));
    first = i + 1;
  }
  return parts;
}

std::vector<Word> words_of(int line, std::string_view text, std::string_view alone) {
  std::vector<Word> words;
  bool open = false;  // is a word being read?
  const auto own_word = [&](std::string_view word) {
    words.push_back({std::string(word), false});
    open = false;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') {
      const std::size_t close = text.find('"', i + 1);
      if (close == std::string_view::npos)
        throw refusal(line, "a quote is not closed after " + shown(text.substr(i)) + "; put another \" at its end.");
      words.push_back({trimmed(text.substr(i + 1, close - i - 1)), true});
      i = close;
      open = false;
    } else if (is_space(c)) {
      open = false;
    } else if (text.substr(i, 2) == "<-") {
      own_word("<-");
      ++i;
    } else if (alone.find(c) != std::string_view::npos) {
      own_word(text.substr(i, 1));
    } else if (open) {
      words.back().text += c;
    } else {
      words.push_back({std::string(1, c), false});
      open = true;
    }
  }
  return words;
}

std::string joined(const std::vector<Word>& words, std::size_t first, std::size_t end) {
  std::string text;
  for (std::size_t i = first; i < std::min(end, words.size()); ++i) {
    if (!text.empty()) text += ' ';
    text += words[i].text;
  }
  return text;
}

std::string lower(std::string_view text) {
  std::string result(text);
  std::ranges::transform(result, result.begin(), lower_char);
  return result;
}

std::string trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return std::string(text);
}

std::optional<int> whole_number(std::string_view text) {
  if (text.empty() || text.size() > 9) return std::nullopt;
  if (!std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; })) return std::nullopt;
  int value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

std::optional<double> decimal_number(std::string_view text) {
  const std::size_t dot = text.find('.');
  const std::string_view before = text.substr(0, dot);
  const auto whole = before.empty() && dot != std::string_view::npos ? std::optional(0) : whole_number(before);
  if (!whole) return std::nullopt;
  if (dot == std::string_view::npos) return *whole;
  const std::string_view after = text.substr(dot + 1);
  const auto part = whole_number(after);
  if (!part) return std::nullopt;
  double value = *part;
  for (std::size_t i = 0; i < after.size(); ++i) value /= 10;
  return *whole + value;
}

int slips_between(std::string_view a, std::string_view b) {
  std::vector<int> before, last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    before = last;
    last = now;
  }
  return last[b.size()];
}

}  // namespace ohmstead::entry_detail
