// The written set of questions (phrasings.txt) asked of the traced sample house: how many are answered as they should be, how many
// are asked back, and that none is answered wrongly.

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <map>
#include <set>
#include <sstream>

#include "ask/ask.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

struct Phrasing {
  std::string half, question, kind;
  std::set<std::string> things;
  std::vector<std::string> words;
  bool same_sitting = false;
  int line = 0;
};

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(' '), last = text.find_last_not_of(' ');
  return first == std::string::npos ? "" : text.substr(first, last - first + 1);
}

std::vector<std::string> parts_of(const std::string& text, char between) {
  std::vector<std::string> parts;
  std::istringstream in(text);
  for (std::string part; std::getline(in, part, between);) parts.push_back(trimmed(part));
  return parts;
}

std::vector<Phrasing> read_phrasings() {
  std::vector<Phrasing> all;
  std::istringstream in(source_file("tests/ask/phrasings.txt"));
  std::string half;
  int number = 0;
  for (std::string line; std::getline(in, line);) {
    ++number;
    if (line.starts_with("== ")) half = line.substr(3);
    if (line.empty() || line[0] == '#' || line[0] == '=') continue;
    Phrasing made{.half = half, .same_sitting = line[0] == '+', .line = number};
    std::vector<std::string> fields = parts_of(line.substr(made.same_sitting ? 1 : 0), '|');
    fields.resize(4);
    made.question = fields[0], made.kind = fields[1];
    for (const std::string& thing : parts_of(fields[2], ';'))
      if (!thing.empty()) made.things.insert(thing);
    for (const std::string& word : parts_of(fields[3], ';'))
      if (!word.empty()) made.words.push_back(word);
    all.push_back(made);
  }
  return all;
}

/// The sample house as if traced, what the household should know, and one look at the freezer on record.
Record asked_house() {
  Record record = traced_sample();
  House& house = record.house;
  house.notes = enter_text(house, source_file("sample-house/household.txt")).house.notes;
  const auto freezer = std::ranges::find(house.points, std::string("freezer"), &Point::name);
  const Id<Round> round = Id<Round>::fresh();
  house.rounds.push_back({.id = round, .at = "2026-03-02T09:00:00Z", .who = "Ana", .finished = true});
  house.observations.push_back(
      {.id = Id<Observation>::fresh(), .round = round, .point = freezer->id, .seen = Seen::dead, .at = "2026-03-02T09:01:00Z"});
  return record;
}

std::string text_of_lines(const Lines& lines) {
  std::string text;
  for (const Line& line : lines) {
    text += line.text + "\n";
    for (const std::string& item : line.items) text += item + "\n";
  }
  return text;
}

std::set<std::string> names_of(const Names& names, const std::vector<ThingRef>& things) {
  std::set<std::string> set;
  for (const ThingRef& thing : things) set.insert(names.name_of(thing));
  return set;
}

std::string joined_set(const std::set<std::string>& set) {
  std::string text;
  for (const std::string& one : set) text += (text.empty() ? "" : "; ") + one;
  return text;
}

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

enum class Outcome { hit, asked_back, wrong };

Outcome judge(const Names& names, const Phrasing& asked, const AskAnswer& answer, std::string& why) {
  const std::string said = text_of_lines(answer.lines);
  why = std::string(text_of(answer.kind)) + (answer.asks_back ? ", asks back" : "") + " | " +
        joined_set(names_of(names, answer.asks_back ? answer.candidates : answer.things)) + " | " + said.substr(0, 300);
  const bool any = asked.things.contains("*");
  if (asked.kind == "ask_back") {
    if (!answer.asks_back) return Outcome::wrong;
    const std::set<std::string> candidates = names_of(names, answer.candidates);
    return any || std::ranges::includes(candidates, asked.things) ? Outcome::hit : Outcome::asked_back;
  }
  if (answer.asks_back) return Outcome::asked_back;
  if (text_of(answer.kind) != asked.kind || (!any && names_of(names, answer.things) != asked.things)) return Outcome::wrong;
  for (const std::string& word : asked.words)
    if (lower(said).find(lower(word)) == std::string::npos) return Outcome::wrong;
  if (asked.kind == "danger" && (said.starts_with("Yes") || said.find(" yes") != std::string::npos || answer.yes)) return Outcome::wrong;
  return Outcome::hit;
}

TEST(Phrasings, none_is_answered_wrongly_and_most_are_answered) {
  const Record record = asked_house();
  const Names names(record.house);
  std::map<std::string, std::map<Outcome, int>> counts;
  Sitting sitting;
  for (const Phrasing& asked : read_phrasings()) {
    if (!asked.same_sitting) sitting = {};
    const AskAnswer answer = answer_question({record, names, "2026-03-05T12:00:00Z"}, sitting, asked.question);
    std::string why;
    const Outcome outcome = judge(names, asked, answer, why);
    ++counts[asked.half][outcome];
    if (outcome == Outcome::wrong) ADD_FAILURE() << "line " << asked.line << ", wrong: " << asked.question << "\n  " << why;
    if (outcome == Outcome::asked_back && asked.kind == "danger")
      ADD_FAILURE() << "line " << asked.line << ", a danger is not seen: " << asked.question;
    if (outcome == Outcome::asked_back) std::cout << "asked back, line " << asked.line << ": " << asked.question << "\n    " << why << "\n";
  }
  EXPECT_EQ(counts.size(), 3U) << "two halves and what was written after them";
  for (auto& [half, count] : counts) {
    const int all = count[Outcome::hit] + count[Outcome::asked_back] + count[Outcome::wrong];
    std::cout << half << ": " << all << " questions, hit " << count[Outcome::hit] << ", asked back " << count[Outcome::asked_back] << ", wrong "
              << count[Outcome::wrong] << "\n";
    EXPECT_GE(all, half.starts_with("third") ? 50 : 150) << half;
    EXPECT_GE(count[Outcome::hit] * 100, all * 80) << half;
  }
}

}  // namespace
}  // namespace ohmstead
