#include "ask/notes.h"

#include <algorithm>

#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/words.h"
#include "house/invariants.h"
#include "house/utf8.h"

namespace ohmstead {

using sentence::say;

namespace {

constexpr std::size_t kLongestTopic = 40, kBeginning = 4, kMostShown = 3;

/// Words of shut-offs are one word, however they are written.
std::vector<Word> note_words(std::string_view text) {
  std::vector<Word> words;
  for (std::size_t at = 0; at < text.size(); at += kLongestQuery)
    for (Word& word : words_of_text(text.substr(at, kLongestQuery))) {
      const bool shut = word.text == "shut" || word.text == "valve" || word.text == "shutoff" || word.text == "cutoff" || word.text == "main";
      if (shut) word.meaning = "shutoff";
      words.push_back(std::move(word));
    }
  return words;
}

bool fits(const Word& said, const Word& noted) {
  if (said.text == noted.text || said.meaning == noted.meaning) return true;
  if (said.number || noted.number) return false;
  const std::size_t shorter = std::min(said.text.size(), noted.text.size());
  return shorter >= kBeginning && (noted.text.starts_with(said.text) || said.text.starts_with(noted.text));
}

std::size_t hits(const std::vector<Word>& said, const std::vector<Word>& noted) {
  return static_cast<std::size_t>(std::ranges::count_if(
      said, [&](const Word& word) { return std::ranges::any_of(noted, [&](const Word& other) { return fits(word, other); }); }));
}

}  // namespace

std::string topic_of(const Note& note) {
  const std::size_t colon = note.text.find(": ");
  return note.about.kind != ThingKind::house || colon == std::string::npos || colon > kLongestTopic ? "" : note.text.substr(0, colon);
}

std::string body_of(const Note& note) {
  const std::string topic = topic_of(note);
  return topic.empty() ? note.text : note.text.substr(std::min(note.text.find_first_not_of(' ', topic.size() + 1), note.text.size()));
}

std::vector<std::size_t> notes_about(const House& house, const ThingRef& thing) {
  std::vector<ThingRef> same{thing};
  if (thing.kind == ThingKind::point) {
    for (const Point& point : house.points)
      if (point.id.value == thing.id && point.box) same.push_back({ThingKind::box, point.box.value});
    for (const Load& load : house.loads)
      if (load.point.value == thing.id) same.push_back({ThingKind::load, load.id.value});
    for (const Device& device : house.devices)
      if (device.at_point.value == thing.id) same.push_back({ThingKind::device, device.id.value});
  }
  if (thing.kind == ThingKind::breaker)
    for (const Circuit& circuit : house.circuits)
      if (circuit.breaker.value == thing.id) same.push_back({ThingKind::circuit, circuit.id.value});
  std::vector<std::size_t> notes;
  for (std::size_t n = 0; n < house.notes.size(); ++n)
    if (std::ranges::find(same, house.notes[n].about) != same.end()) notes.push_back(n);
  return notes;
}

std::vector<std::size_t> notes_with(const House& house, const Names& names, std::string_view words) {
  const std::vector<Word> said = note_words(words.substr(0, kLongestQuery));
  std::vector<std::pair<std::size_t, std::size_t>> found;  // words in topic or name, place
  for (std::size_t n = 0; n < house.notes.size() && !said.empty(); ++n) {
    const Note& note = house.notes[n];
    const bool of_house = note.about.kind == ThingKind::house;
    const std::vector<Word> head = note_words(of_house ? topic_of(note) : names.name_of(note.about));
    std::vector<Word> all = note_words(body_of(note));
    all.insert(all.end(), head.begin(), head.end());
    if (hits(said, all) == said.size()) found.emplace_back(hits(said, head), n);
  }
  std::ranges::stable_sort(found, [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::size_t> notes;
  for (const auto& [score, n] : found) notes.push_back(n);
  return notes;
}

std::string note_text(const Names& names, const Note& note) {
  std::string text = note.about.kind == ThingKind::house ? note.text : names.name_of(note.about) + ": " + note.text;
  std::vector<std::string> more;
  if (note.is_private) more.emplace_back("private");
  if (!note.who.empty()) more.push_back(note.who);
  if (note.at.size() >= 10 && !note.who.empty()) more.push_back(note.at.substr(0, 10));
  for (std::size_t i = 0; i < more.size(); ++i) text += (i == 0 ? " (" : ", ") + more[i];
  return text + (more.empty() ? "" : ")");
}

Lines words_of_notes(const House& house, const Names& names, const std::vector<std::size_t>& notes) {
  Lines lines;
  for (const std::size_t n : notes) say(lines, LineKind::detail, "Noted: " + note_text(names, house.notes[n]));
  return lines;
}

House with_note(House house, Note note) {
  const auto refuse = [](const std::string& why) { throw Error(ErrorKind::invalid_input, "The note " + why + "; nothing was changed."); };
  if (note.text.find_first_not_of(' ') == std::string::npos) refuse("has no words");
  if (note.text.size() > kLongestNote)
    refuse("has " + std::to_string(note.text.size()) + " bytes; at most " + std::to_string(kLongestNote) + " are kept");
  if (!is_utf8(note.text) || terminal::printable(note.text) != note.text)
    refuse("has signs that are no text, such as a line break or a control character; write it in one line");
  if (!note.id) note.id = Id<Note>::fresh();
  const auto at = std::ranges::find(house.notes, note.id, &Note::id);
  if (at == house.notes.end())
    house.notes.push_back(std::move(note));
  else
    *at = std::move(note);
  return house;
}

std::size_t one_note(const House& house, const Names& names, std::string_view words) {
  const bool number = !words.empty() && words.size() < 7 && words.find_first_not_of("0123456789") == std::string_view::npos;
  const std::size_t place = number ? std::stoul(std::string(words)) : 0;
  if (number && place >= 1 && place <= house.notes.size()) return place - 1;
  std::vector<std::size_t> found = number ? std::vector<std::size_t>{} : notes_with(house, names, words);
  const std::string said = "'" + terminal::printable(words.substr(0, 60)) + "'";
  if (found.empty()) throw Error(ErrorKind::not_found, "There is no note " + said + "; `ohmstead note list` shows them with their numbers.");
  if (found.size() == 1) return found.front();
  std::string list;
  for (std::size_t i = 0; i < std::min(found.size(), kMostShown); ++i)
    list += (i == 0 ? "" : "; ") + std::to_string(found[i] + 1) + " " + note_text(names, house.notes[found[i]]).substr(0, 80);
  throw Error(ErrorKind::ambiguous, said + " fits " + std::to_string(found.size()) + " notes: " + list + ". Give the number of one.");
}

}  // namespace ohmstead
