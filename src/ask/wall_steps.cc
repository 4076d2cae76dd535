#include "ask/wall_steps.h"

#include <algorithm>
#include <map>

#include "ask/outage_parts.h"
#include "ask/sentence.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/wording.h"

namespace ohmstead::wall_words {

namespace {

bool is_position(const HandleRef& handle) { return handle.kind == HandleKind::position; }

std::string stand_words(const HandleRef& handle, int to) {
  if (to == kOff) return "OFF";
  return !is_position(handle) ? "ON" : to == kBackupSide ? "BACKUP" : "UTILITY";
}

/// What the circuit of a position feeds, as on the directory; empty where nobody knows.
std::string circuit_words(const Record& record, const House& house, const HandleRef& handle) {
  const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr;
  const bool known = position != nullptr && position->breaker && find_row(house, position->breaker) != nullptr;
  return known ? circuit_description(house, record.feeds, position->breaker) + "." : "";
}

std::string panel_words(const House& house, const HandleRef& handle) {
  const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr;
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  return panel == nullptr || house.panels.size() < 2 ? "" : "In panel " + panel->name + ".";
}

/// Facts in a text get the mark of who says so instead of the citation; paper needs not be told.
std::string with_marks(std::string text, const Cite& cite) {
  constexpr std::string_view kTold = " and say so";
  if (const std::size_t at = text.find(kTold); at != std::string::npos) text.erase(at, kTold.size());
  for (const OutageFact& fact : outage_facts())
    if (const std::size_t at = text.find(cited(fact.fact)); at != std::string::npos)
      text.replace(at, cited(fact.fact).size(), std::string(fact.sentence) + cite(fact.fact));
  return text;
}

/// An item before its sentences are joined.
struct Draft {
  WallItem item;
  std::vector<std::string> sentences;
};

constexpr std::size_t kLongList = 110;  ///< bytes of a sentence that is still read at a glance

std::string sentence_of(const Line& line) {
  std::string text = line.text;
  for (std::size_t i = 0; i < line.items.size(); ++i) text += (i == 0 ? " " : "; ") + line.items[i];
  return line.items.empty() ? text : text + ".";
}

/// A long list of what comes on: its loads, and the circuit as the directory has it.
void keep_short(const Record& record, const House& house, const OutageStep& step, Lines& lines) {
  const std::string circuit = circuit_words(record, house, step.handles.front());
  for (Line& line : lines) {
    if (line.items.empty() || circuit.empty() || sentence_of(line).size() <= kLongList) continue;
    line.items = outage_words::load_names(house, step.loads);
    line.items.push_back((line.items.empty() ? "" : "the whole circuit: ") + circuit.substr(0, circuit.size() - 1));
  }
}

Draft draft_of(const Record& record, const Names& names, const OutageScript& script, const ScriptStep& one) {
  Draft draft;
  Lines lines = words_of_outage_step(script.view(one), names, one.step);
  if (one.step.kind == OutageStepKind::move) {
    for (const HandleRef& handle : one.step.handles) draft.item.handle += (draft.item.handle.empty() ? "" : "  ") + handle_mark(script.house, handle);
    const HandleRef& first = one.step.handles.front();
    draft.item.to = stand_words(first, one.step.to);
    const bool said_large = one.step.handles.size() == 1 && (one.step.reason == OutageReason::in_order || (is_position(first) && one.step.reason == OutageReason::way_home));
    if (said_large) {
      std::erase_if(lines, [](const Line& line) { return line.kind == LineKind::answer; });  // "Move handle 3 to BACKUP."
      const std::string what = one.step.reason == OutageReason::way_home ? circuit_words(record, script.house, first) : panel_words(script.house, first);
      if (!what.empty()) draft.sentences.push_back(what);
      if (one.step.reason == OutageReason::in_order) keep_short(record, script.house, one.step, lines);
    }
    if (one.step.handles.size() > 1)
      for (Line& line : lines)
        if (line.kind == LineKind::answer && line.text.ends_with(':')) line.text.back() = '.', line.items.clear();  // the handles are in large print
  }
  if (one.step.kind == OutageStepKind::ask_away || one.step.kind == OutageStepKind::ask_back)
    lines.push_back({LineKind::detail, "If it has not, its directions say how to move it by hand.", {}});
  for (const Line& line : lines) draft.sentences.push_back(sentence::capital(sentence_of(line)));
  return draft;
}

constexpr int kSaidOnce = 3;      ///< what so many steps would say is said once
constexpr int kSaidAlready = -1;

}  // namespace

std::string handle_mark(const House& house, const HandleRef& handle) {
  if (handle.kind == HandleKind::main) return "MAIN";
  if (const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr) {
    const Panel* panel = find_row(house, breaker->panel);
    return panel == nullptr ? "?" : breaker_number(*panel, *breaker);
  }
  const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr;
  if (position == nullptr) return "?";
  std::vector<int> numbers;
  for (const Position& other : house.positions)
    if (other.id == position->id || (position->tie && other.tie == position->tie)) numbers.push_back(other.number);
  std::ranges::sort(numbers);
  std::string mark;
  for (const int number : numbers) mark += (mark.empty() ? "" : "-") + std::to_string(number);
  return mark;
}

WallPart step_part(const std::string& title, const OutageScript& script, const std::vector<ScriptStep>& steps, const Record& record, const Cite& cite) {
  WallPart part{WallPartKind::steps, title, "", {}};
  const Names names(script.house);
  std::vector<Draft> drafts;
  std::map<std::string, int> said;
  for (const ScriptStep& one : steps) {
    drafts.push_back(draft_of(record, names, script, one));
    for (const std::string& sentence : drafts.back().sentences) ++said[sentence];
  }
  for (Draft& draft : drafts) {
    for (const std::string& sentence : draft.sentences) {
      int& times = said[sentence];
      if (times == kSaidAlready) continue;
      const bool often = times >= kSaidOnce;
      std::string& into = often ? part.first : draft.item.text;
      into += (into.empty() ? "" : " ") + with_marks(sentence, cite);
      if (often) times = kSaidAlready;
    }
    part.items.push_back(std::move(draft.item));
  }
  return part;
}

}  // namespace ohmstead::wall_words
