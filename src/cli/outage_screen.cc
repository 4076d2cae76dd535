#include "cli/outage_screen.h"

#include <algorithm>
#include <ostream>

#include "ask/printable.h"
#include "cli/wrapped.h"
#include "house/error.h"

namespace ohmstead {

std::string outage_answers_text(const OutageStep& step) {
  using enum OutageStepKind;
  switch (step.kind) {
    case ask_away:
    case ask_back: return "Enter  yes     n  no";
    case move: return std::string("Enter  done     n  it cannot be moved") + (fits(step, OutageAnswerKind::no_effect) ? "\nd  done, but nothing came on" : "");
    case start_source: return "Enter  it runs     n  it will not start";
    case switch_off: return step.loads.empty() ? "Enter  it is off" : "Enter  off     n  it cannot be switched off";
    case switch_on: return "Enter  it is on     n  not wanted\nd  it did not come on";
    case no_source: return "Enter  try again";
    case look_over: return "Enter  try again     n  leave it as it is";
    case refuel: return "Enter  it is full     n  go on without filling it";
    case running: return "Enter  show this again";
    case end: return "Enter  yes, it is over";
    case no_safe_way:
    case no_outage: return "";
    default: return "Enter  done";
  }
}

namespace {

/// Lists in the lines that they belong to, so that the step does not scroll away; the key s shows them one under the other.
Lines on_one_screen(Lines lines) {
  for (Line& line : lines) {
    for (std::size_t i = 0; i < line.items.size(); ++i) line.text += (i == 0 ? " " : "; ") + line.items[i];
    line.items.clear();
  }
  return lines;
}

}  // namespace

OutageScreen::OutageScreen(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options)
    : board_(board), names_(board.house()), out_(out), keep_(keep), options_(options), keys_(in, out, options.single_keys),
      lines_kept_(board.house().outage_events.size()) {}

void OutageScreen::say(std::string_view text, std::size_t indent) { out_ << wrapped(text, indent, keys_.columns()) << '\n'; }
void OutageScreen::prompt() { out_ << "> " << std::flush; }
void OutageScreen::say_lines(const Lines& lines) {
  bool first = true;
  for (const Line& line : lines) {
    const bool bold = keys_.can_be_bold() && (line.kind == LineKind::danger || (line.kind == LineKind::answer && first));
    if (line.kind == LineKind::answer) first = false;
    const std::string mark = line.kind == LineKind::danger ? "! " : line.kind == LineKind::caution ? "Caution: " : "";
    out_ << (bold ? "\x1b[1m" : "");
    say(mark + terminal::printable(line.text));
    out_ << (bold ? "\x1b[0m" : "");
    for (const std::string& item : line.items) say("- " + terminal::printable(item), kItems);
  }
}

void OutageScreen::show_step() {
  out_ << '\n' << std::string(keys_.columns(), '-') << '\n';
  Lines urgent, rest;
  for (const Line& line : status_words()) (line.kind == LineKind::danger ? urgent : rest).push_back(line);
  warned_ = warnings();
  say_lines(urgent);
  if (!urgent.empty()) out_ << '\n';
  say_lines(words_of_outage_step(board_.view(), names_, board_.step()));
  if (is_settled(board_.step().kind)) say_lines(on_one_screen(std::move(rest)));
  out_ << '\n';
  say(outage_answers_text(board_.step()) + "\n" + kOutageKeys);
  prompt();
}

Lines OutageScreen::status_words() const { return words_of_outage_status(board_.view(), outage_status(board_.view(), options_.now()), options_.local); }

std::vector<std::pair<LineKind, std::string>> OutageScreen::warnings() const {
  std::vector<std::pair<LineKind, std::string>> all;
  for (const Line& line : status_words()) {
    if (line.kind != LineKind::danger && line.kind != LineKind::caution) continue;
    all.emplace_back(line.kind, line.text);
    std::erase_if(all.back().second, [](char c) { return c >= '0' && c <= '9'; });
  }
  return all;
}

bool OutageScreen::look_again() {
  if (others_went_on()) return true;
  return warnings() != warned_;
}

bool OutageScreen::others_went_on() {
  std::optional<OutageBoard> theirs = options_.others ? options_.others() : std::nullopt;
  if (!theirs) return false;
  const std::size_t known = std::exchange(lines_kept_, theirs->house().outage_events.size());
  board_ = std::move(*theirs);
  names_ = Names(board_.house());
  out_ << '\n';
  say("Somebody else has gone on with this outage. This was written down meanwhile:");
  if (board_.house().outage_events.size() > known) say_lines(words_of_outage_log(board_.house(), names_, options_.local, known));
  else say("- something was taken back, or the record of the house was changed", kItems);
  return true;
}

bool OutageScreen::kept(const std::string& what) {
  try {
    keep_(what, board_.house());
    lines_kept_ = board_.house().outage_events.size();
    return true;
  } catch (const Error& error) {
    if (error.kind != ErrorKind::conflict) throw;
    say("Your last answer was not taken.");
    if (!others_went_on()) throw;
    return false;
  }
}

std::optional<HandleRef> OutageScreen::choose(const std::string& question, const std::vector<HandleRef>& handles) {
  say(question);
  for (std::size_t i = 0; i < handles.size(); ++i) say(std::to_string(i + 1) + "  " + outage_handle_text(board_.house(), names_, handles[i]), kItems);
  const auto given = ask("Type its number and Enter; only Enter: none.");
  if (!given || given->empty() || given->size() > 3 || given->find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
  const std::size_t number = std::stoul(*given);
  return number >= 1 && number <= handles.size() ? std::optional(handles[number - 1]) : std::nullopt;
}

std::optional<std::string> OutageScreen::ask(const std::string& question) {
  say(question);
  prompt();
  return keys_.line();
}

bool OutageScreen::tell(OutageEvent event, const std::string& what) {
  event.at = options_.now();
  event.who = options_.who;
  const OutageStep before = board_.step();
  try {
    board_.tell(std::move(event));
  } catch (const Error& error) {
    return answered(error.what());
  }
  if (!kept("Outage: " + what)) return true;
  return board_.step() != before || answered("Written down.");
}

bool OutageScreen::answered(const std::string& text) {
  if (!text.empty()) say(terminal::printable(text));
  return prompt(), false;
}

}  // namespace ohmstead
