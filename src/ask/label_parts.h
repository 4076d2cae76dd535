#pragma once
// What the makers of labels and signs share.

#include <algorithm>
#include <string>
#include <vector>

#include "ask/label_items.h"

namespace ohmstead::label_parts {

/// Sentences in one text for a code. Without colons: a phone may take "word: more" for an address.
[[nodiscard]] inline std::string code_text(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences)
    if (!sentence.empty()) text += (text.empty() ? "" : " ") + sentence;
  std::erase(text, ':');
  return text;
}

/// Adds a text to the codes if it is short enough and none of them yet.
inline void offer_code(LabelItem& item, const std::vector<std::string>& sentences) {
  std::string text = code_text(sentences);
  if (text.size() <= kMostLabelCodeBytes && std::ranges::find(item.codes, text) == item.codes.end()) item.codes.push_back(std::move(text));
}

/// Adds a line unless it is empty; a way that is empty or longer than the one before it is left out.
inline void add_line(LabelItem& item, const std::vector<std::string>& ways, bool required = false) {
  LabelLine line{{}, required};
  for (const std::string& way : ways)
    if (!way.empty() && (line.ways.empty() || way.size() < line.ways.back().size())) line.ways.push_back(way);
  if (!line.ways.empty()) item.lines.push_back(std::move(line));
}

}  // namespace ohmstead::label_parts
