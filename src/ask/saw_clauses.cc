#include "ask/saw_clauses.h"

#include <algorithm>
#include <span>

#include "ask/words.h"

namespace ohmstead {

namespace {

using Tokens = std::vector<std::string>;
constexpr std::string_view kCut = ";";

/// A way of saying how something was, at the end of a clause.
struct StateWords {
  std::string_view said;
  SawKind kind;
  bool of_light = false;  ///< somebody who looks into a room says so when its lights are off or on
};

/// Longer ones first where one ends with another.
constexpr StateWords kStates[] = {
    {"turned off", SawKind::handle_off},    {"switched off", SawKind::handle_off}, {"tripped off", SawKind::handle_off},
    {"tripped", SawKind::handle_off},       {"trips", SawKind::handle_off},        {"popped", SawKind::handle_off},
    {"blew", SawKind::handle_off},          {"not working", SawKind::dead},        {"isn't working", SawKind::dead},
    {"aren't working", SawKind::dead},      {"wasn't working", SawKind::dead},     {"weren't working", SawKind::dead},
    {"stopped working", SawKind::dead},     {"does not work", SawKind::dead},      {"doesn't work", SawKind::dead},
    {"do not work", SawKind::dead},         {"don't work", SawKind::dead},         {"did not work", SawKind::dead},
    {"didn't work", SawKind::dead},         {"lost power", SawKind::dead},         {"has no power", SawKind::dead},
    {"have no power", SawKind::dead},       {"had no power", SawKind::dead},       {"without power", SawKind::dead},
    {"no power", SawKind::dead},            {"dark", SawKind::dead, true},         {"dead", SawKind::dead},
    {"died", SawKind::dead},                {"has power", SawKind::live},          {"have power", SawKind::live},
    {"had power", SawKind::live},           {"kept power", SawKind::live},         {"on", SawKind::live, true},
    {"live", SawKind::live},                {"works", SawKind::live},              {"work", SawKind::live},
    {"worked", SawKind::live},              {"working", SawKind::live},            {"off", SawKind::off_or_dead, true},
    {"out", SawKind::off_or_dead, true},
};
constexpr std::string_view kBeforeState[] = {"went", "goes", "go",   "gone",   "is",    "are",    "was",   "were", "be",
                                             "been", "has",  "have", "had",    "still", "stayed", "stays", "all",  "both",
                                             "also", "kept", "just", "stay", "remained"};
constexpr std::string_view kAfterState[] = {"too", "also", "again", "as", "well"};
constexpr std::string_view kBeforeName[] = {"when", "then", "with", "after", "because", "since", "once", "the", "all", "of", "in",
                                            "whole", "entire", "everything", "every", "both", "also", "only", "that"};
/// Words that turn a statement round or make it doubtful: no clause with one is guessed at.
constexpr std::string_view kDoubt[] = {"not", "no", "never", "nothing", "none", "neither", "nor", "or", "either", "without", "except",
                                       "maybe", "perhaps", "probably", "might", "could", "think", "if", "until", "before", "unless",
                                       "some", "most", "part", "partly", "partially", "almost", "nearly", "cannot", "than", "came"};
constexpr std::string_view kCuts[] = {"and", "but", "while", "so", "&"};

bool is_one_of(std::span<const std::string_view> words, std::string_view word) { return std::ranges::find(words, word) != words.end(); }

bool is_doubt(std::string_view word) { return is_one_of(kDoubt, word) || word.ends_with("n't") || word.ends_with('?'); }

std::string together(std::span<const std::string> tokens) {
  std::string text;
  for (const std::string& token : tokens) text += (text.empty() ? "" : " ") + token;
  return text;
}

Tokens tokens_of(std::string_view text) {
  std::string spaced;
  for (const char c : text) {
    if (c == '\n' || c == ';' || c == ',' || c == ':' || c == '&') spaced += " ; ";
    else spaced += c;
  }
  const std::string plain = folded(spaced);
  Tokens tokens;
  for (std::size_t at = 0; at < plain.size();) {
    const std::size_t end = std::min(plain.find(' ', at), plain.size());
    std::string word = plain.substr(at, end - at);
    const bool ends = word.ends_with('.') || word.ends_with('!');
    while (word.ends_with('.') || word.ends_with('!')) word.pop_back();
    if (!word.empty()) tokens.push_back(word);
    if (ends) tokens.emplace_back(kCut);
    at = end + 1;
  }
  return tokens;
}

/// One part between two cuts: what it names, and how that was, if it says so.
struct Part {
  Tokens name;
  std::optional<SawKind> kind;
  bool of_light = false, went_off = false, tripped = false, doubtful = false;
};

std::span<const std::string> without_tail(std::span<const std::string> words, std::span<const std::string_view> tail) {
  while (!words.empty() && is_one_of(tail, words.back())) words = words.first(words.size() - 1);
  return words;
}

Part part_of(std::span<const std::string> words) {
  Part part;
  words = without_tail(words, kAfterState);
  const std::string said = " " + together(words);
  for (const StateWords& state : kStates) {
    if (!said.ends_with(" " + std::string(state.said))) continue;
    part.kind = state.kind, part.of_light = state.of_light;
    words = words.first(words.size() - 1 - static_cast<std::size_t>(std::ranges::count(state.said, ' ')));
    part.tripped = state.kind == SawKind::handle_off && !state.said.ends_with("ed off") ? true : state.said == "tripped off";
    part.went_off = state.said == "off" && !words.empty() && (words.back() == "went" || words.back() == "goes");
    words = without_tail(words, kBeforeState);
    break;
  }
  while (!words.empty() && is_one_of(kBeforeName, words.front())) words = words.subspan(1);
  part.name.assign(words.begin(), words.end());
  part.doubtful = std::ranges::any_of(words, is_doubt);
  return part;
}

}  // namespace

SawClauses saw_clauses(std::string_view text) {
  SawClauses clauses;
  Tokens tokens = tokens_of(text);
  tokens.emplace_back(kCut);
  std::vector<std::string> waiting;  // names for which the next clause says how they were
  std::string waiting_words;
  bool doubtful = false;
  for (std::size_t from = 0, at = 0; at < tokens.size(); ++at) {
    if (tokens[at] != kCut && !is_one_of(kCuts, tokens[at])) continue;
    const std::span<const std::string> words(tokens.data() + from, at - from);
    from = at + 1;
    if (words.empty()) continue;
    const Part part = part_of(words);
    doubtful = doubtful || part.doubtful;
    if (!part.name.empty()) waiting.push_back(together(part.name));
    waiting_words += (waiting_words.empty() ? "" : ", ") + together(words);
    if (!part.kind) continue;
    if (waiting.empty() || doubtful) clauses.not_understood.push_back(waiting_words);
    else clauses.understood.push_back({*part.kind, waiting, part.of_light, part.went_off, part.tripped});
    waiting.clear(), waiting_words.clear(), doubtful = false;
  }
  if (!waiting_words.empty()) clauses.not_understood.push_back(waiting_words);
  return clauses;
}

std::optional<SawClause> one_saw_clause(std::string_view text) {
  Tokens tokens = tokens_of(text);
  while (!tokens.empty() && tokens.back() == kCut) tokens.pop_back();
  const Part part = part_of(tokens);
  if (!part.kind || part.name.empty() || part.doubtful) return std::nullopt;
  return SawClause{*part.kind, {together(part.name)}, part.of_light, part.went_off, part.tripped};
}

}  // namespace ohmstead
