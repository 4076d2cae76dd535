#include "print/directory_text.h"

#include <algorithm>
#include <set>

#include "house/numbering.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

std::string entry(const Panel& panel, const Breaker& breaker, const CircuitWords& words) {
  std::string line = breaker_number(panel, breaker);
  if (breaker.amps > 0) line += " (" + std::to_string(breaker.amps) + " A)";
  line += " " + words.text;
  if (!words.mark.empty()) line += " [" + words.mark + "]";
  return line + ";\n";
}

std::string explained(const std::vector<CircuitWords>& words) {
  std::string foot;
  if (std::ranges::any_of(words, &CircuitWords::uncertain)) foot += "? = not proved. ";
  std::set<char> letters;
  for (const CircuitWords& one : words)
    if (!one.mark.empty()) letters.insert(one.mark[0]);
  for (const char letter : letters) foot += std::string("[") + letter + "1] = backup position 1. ";
  if (!foot.empty()) foot.pop_back();
  return foot;
}

/// Spaces that no breaker is in.
std::vector<int> empty_spaces(const Panel& panel, const std::vector<const Breaker*>& breakers) {
  std::set<int> taken;
  for (const Breaker* breaker : breakers)
    for (const PolePlace& place : pole_places(panel, *breaker)) taken.insert(place.space);
  std::vector<int> empty;
  for (int space = 1; space <= panel.spaces; ++space)
    if (!taken.contains(space)) empty.push_back(space);
  return empty;
}

bool has_empty(const DirectoryText& directory, int first, int last) {
  return std::ranges::any_of(directory.empty_spaces, [&](int space) { return first <= space && space <= last; });
}

std::string piece(const DirectoryText& directory, int first, int last, const std::string& lines) {
  const std::string range = first == last ? std::to_string(first) : std::to_string(first) + "-" + std::to_string(last);
  std::string text = directory.panel + ", spaces " + range + ".\n" + lines;
  if (lines.empty()) text += "No breakers. ";
  else if (has_empty(directory, first, last)) text += "Others are empty spaces. ";
  text += directory.foot + (directory.foot.empty() ? "" : " ");
  return text + "As of " + directory.date + ".";
}

}  // namespace

DirectoryText directory_text(const House& house, const Panel& panel, const std::vector<CircuitWords>& words,
                             const std::string& date_and_revision) {
  std::vector<const Breaker*> breakers;
  for (const Breaker& breaker : house.breakers)
    if (breaker.panel == panel.id) breakers.push_back(&breaker);
  std::ranges::sort(breakers, {}, [](const Breaker* b) { return std::pair{b->space, b->half}; });
  DirectoryText text{panel_title(panel), date_and_revision, explained(words), panel.spaces, {}, empty_spaces(panel, breakers)};
  // "Panel: ..." at the very start could be taken for an address; a name may not bring that in.
  std::erase(text.panel, ':');
  for (const Breaker* breaker : breakers) {
    const auto found = std::ranges::find(words, breaker->id, &CircuitWords::breaker);
    if (found == words.end()) continue;
    if (text.entries.empty() || text.entries.back().space != breaker->space) text.entries.push_back({breaker->space, ""});
    text.entries.back().lines += entry(panel, *breaker, *found);
  }
  return text;
}

std::vector<CodeText> code_texts(const DirectoryText& directory, std::size_t most_bytes) {
  std::vector<CodeText> pieces;
  std::string lines;
  int first = 1;
  const auto close = [&](int last) {
    pieces.push_back({piece(directory, first, last, lines), first, last});
    first = last + 1;
    lines.clear();
  };
  for (const SpaceLines& one : directory.entries) {
    if (!lines.empty() && piece(directory, first, directory.spaces, lines + one.lines).size() > most_bytes) close(one.space - 1);
    lines += one.lines;
  }
  close(directory.spaces);
  return pieces;
}

std::vector<CodeText> code_texts_in(const DirectoryText& directory, std::size_t pieces) {
  constexpr std::size_t kStep = 8;
  std::size_t total = 0;
  for (const SpaceLines& one : directory.entries) total += one.lines.size();
  for (std::size_t most = std::min(total / pieces, kMostCodeBytes); most <= kMostCodeBytes; most += kStep) {
    auto texts = code_texts(directory, most);
    if (texts.size() <= pieces) return texts;
  }
  return {};
}

}  // namespace ohmstead
