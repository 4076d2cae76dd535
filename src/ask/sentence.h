#pragma once
// Internal to the words of answers: the small change of sentences.

#include <string>
#include <utility>
#include <vector>

#include "ask/answer_words.h"
#include "house/index.h"
#include "rules/record_names.h"

namespace ohmstead::sentence {

inline void say(Lines& lines, LineKind kind, std::string text, std::vector<std::string> items = {}) {
  lines.push_back({kind, std::move(text), std::move(items)});
}

inline std::string counted(std::size_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

inline std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

inline std::string point_name(const House& house, std::size_t point) { return point_label(house, point); }

/// That a handle trips often, if it does.
void say_often(Lines& lines, const House& house, const Names& names, const HandleRef& handle);

/// Splits points by whether their feed may be relied on.
inline std::pair<std::vector<std::size_t>, std::vector<std::size_t>> by_reliance(const Record& record,
                                                                          const std::vector<std::size_t>& points) {
  std::pair<std::vector<std::size_t>, std::vector<std::size_t>> split;
  for (const std::size_t p : points)
    (relied_on(record.feeds.of_point[p].standing) ? split.first : split.second).push_back(p);
  return split;
}

}  // namespace ohmstead::sentence
