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

/// The frames at the top of the sheet say how far the wiring may be relied on, and the foot of every page who decides.
bool is_said_elsewhere(const Line& line) { return line.text.starts_with("It is not proved that each handle") || line.text.starts_with("Local code and"); }

/// Facts in a text get the mark of who says so instead of the citation; paper needs not be told.
std::string with_marks(std::string text, const Cite& cite) {
  constexpr std::string_view kTold = " and say so";
  if (const std::size_t at = text.find(kTold); at != std::string::npos) text.erase(at, kTold.size());
  for (const OutageFact& fact : outage_facts())
    if (const std::size_t at = text.find(cited(fact.fact)); at != std::string::npos) {
      const auto mark = cite(fact.fact);
      text.replace(at, cited(fact.fact).size(), mark ? std::string(fact.sentence) + *mark : "");
    }
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

/// An item before its sentences are joined.
struct Draft {
  WallItem item;
  std::vector<std::string> sentences;
  const OutageStep* step = nullptr;
  std::string circuit;  ///< the first of the sentences, where it only says what hangs on the handle
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
  Draft draft{.item = {}, .sentences = {}, .step = &one.step, .circuit = ""};
  Lines lines = words_of_outage_step(script.view(one), names, one.step);
  if (one.step.kind == OutageStepKind::move) {
    for (const HandleRef& handle : one.step.handles) draft.item.handle += (draft.item.handle.empty() ? "" : ", ") + handle_mark(script.house, handle);
    draft.item.what = handle_kind_words(script.house, one.step.handles);
    const HandleRef& first = one.step.handles.front();
    draft.item.to = stand_words(first, one.step.to);
    const bool said_large = one.step.handles.size() == 1 && (one.step.reason == OutageReason::in_order || (is_position(first) && one.step.reason == OutageReason::way_home));
    if (said_large) {
      std::erase_if(lines, [](const Line& line) { return line.kind == LineKind::answer; });  // "Move handle 3 to BACKUP."
      const std::string what = one.step.reason == OutageReason::way_home ? circuit_words(record, script.house, first) : panel_words(script.house, first);
      if (!what.empty()) draft.sentences.push_back(what), draft.circuit = what;
      if (one.step.reason == OutageReason::in_order) keep_short(record, script.house, one.step, lines);
    }
    if (one.step.handles.size() > 1)
      for (Line& line : lines)
        if (line.kind == LineKind::answer && line.text.ends_with(':')) line.text.back() = '.', line.items.clear();  // the handles are in large print
  }
  if (one.step.kind == OutageStepKind::ask_away || one.step.kind == OutageStepKind::ask_back)
    lines.push_back({LineKind::detail, "If it has not, its directions say how to move it by hand.", {}});
  std::erase_if(lines, [&](const Line& line) { return is_said_elsewhere(line) || (one.step.reason == OutageReason::way_home && line.text.starts_with("On it: ")); });
  if (one.step.reason == OutageReason::in_order)  // first what comes on, then what to do about it
    std::ranges::stable_partition(lines, [](const Line& line) { return line.kind == LineKind::detail; });
  for (const Line& line : lines) draft.sentences.push_back(sentence::capital(sentence_of(line)));
  return draft;
}

/// "This comes on: freezer (Storage)." beside its handle.
std::string row_text(std::string text) {
  constexpr std::string_view kComesOn = "This comes on: ";
  if (const std::size_t at = text.find(kComesOn); at != std::string::npos) text.erase(at, kComesOn.size());
  return sentence::capital(text);
}

/// One handle alone, that goes where others of its device go.
bool is_one_of_many(const Draft& draft) {
  const OutageStep& step = *draft.step;
  return step.kind == OutageStepKind::move && step.handles.size() == 1 && !draft.item.what.empty() &&
         (step.reason == OutageReason::in_order || (step.reason == OutageReason::way_home && is_position(step.handles.front())));
}

/// What is switched off because it would start with the handle of the next step.
bool is_for(const Draft& draft, const Draft& next) {
  return draft.step->kind == OutageStepKind::switch_off && draft.step->reason == OutageReason::before_close && !draft.step->handles.empty() &&
         draft.step->handles.front() == next.step->handles.front();
}

/// "FIRST switch off: television (Living room). Then ..."
std::string with_first(const House& house, const Draft& off, const std::string& text) {
  return "FIRST switch off or unplug " + joined(outage_words::load_names(house, off.step->loads)) + ". " + text;
}

/// On the way home the handles stand in one line: what hangs on each is said above, where it went to backup.
void into_one_line(WallItem& item) {
  item.text = "One after another, in this order. After each look whether something on it has come on.";
  for (const WallRow& row : item.rows) {
    item.handle += (item.handle.empty() ? "" : ", ") + row.handle;
    if (!row.text.empty()) item.text += " " + row.handle + ": " + row.text;
  }
  item.rows.clear();
}

/// What is beside a handle in a row; on the way home only what else is to be known.
std::string row_text_of(const Draft& move) {
  std::string text = move.item.text;
  if (move.step->reason == OutageReason::way_home && text.starts_with(move.circuit)) text.erase(0, move.circuit.size());
  return row_text(text.substr(std::min(text.find_first_not_of(' '), text.size())));
}

bool go_together(const Draft& one, const Draft& other) {
  return one.item.to == other.item.to && one.item.what == other.item.what && one.step->reason == other.step->reason;
}

/// The moves from the place `at` on that go together, with what is switched off for each; `at` is then behind them.
WallItem rows_from(const House& house, const std::vector<Draft>& drafts, std::size_t& at) {
  const Draft* first = nullptr;
  WallItem item;
  for (std::size_t k = at; k < drafts.size(); ++k) {
    const bool off = k + 1 < drafts.size() && is_one_of_many(drafts[k + 1]) && is_for(drafts[k], drafts[k + 1]);
    const Draft& move = drafts[off ? k + 1 : k];
    if (!is_one_of_many(move) || (first != nullptr && !go_together(move, *first))) break;
    if (first == nullptr) first = &move;
    item.rows.push_back({move.item.handle, off ? with_first(house, drafts[k], row_text_of(move)) : row_text_of(move)});
    if (off) ++k;
    at = k + 1;
  }
  if (first == nullptr) return item;
  item.to = first->item.to, item.what = first->item.what, item.text = "One after another, in this order.";
  if (item.what.starts_with("Handle ")) item.what.replace(0, 6, "Handles");
  if (item.what.starts_with("Breaker ")) item.what.replace(0, 7, "Breakers");
  if (first->step->reason == OutageReason::way_home) into_one_line(item);
  return item;
}

/// Handles of one device that go the same way one after another become one item.
std::vector<WallItem> merged(const House& house, const std::vector<Draft>& drafts) {
  std::vector<WallItem> items;
  for (std::size_t i = 0; i < drafts.size();) {
    std::size_t behind = i;
    WallItem item = rows_from(house, drafts, behind);
    const bool several = behind > i + 1 && (item.rows.size() > 1 || item.handle.find(',') != std::string::npos);
    items.push_back(several ? std::move(item) : drafts[i].item);
    i = several ? behind : i + 1;
  }
  return items;
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

std::string handle_kind_words(const House& house, const std::vector<HandleRef>& handles) {
  std::string words;
  for (const HandleRef& handle : handles) {
    std::string one;
    if (const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr) {
      const TransferDevice* device = find_row(house, position->device);
      one = (handles.size() == 1 ? "Handle" : "Handles") + (device == nullptr ? std::string() : " of " + device->name);
    } else if (const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr) {
      const Panel* panel = find_row(house, breaker->panel);
      one = (handles.size() == 1 ? "Breaker" : "Breakers") + (panel == nullptr ? std::string() : " in " + panel->name);
    }
    if (!words.empty() && words != one) return "";
    words = one;
  }
  return words;
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
      const std::string words = with_marks(sentence, cite);
      into += (into.empty() || words.empty() ? "" : " ") + words;
      if (often) times = kSaidAlready;
    }
  }
  part.items = merged(script.house, drafts);
  return part;
}

}  // namespace ohmstead::wall_words
