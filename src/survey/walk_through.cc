#include "survey/walk_through.h"

#include <algorithm>
#include <utility>

#include "house/index.h"
#include "house/numbering.h"
#include "survey/kind_words.h"
#include "survey/space_words.h"
#include "survey/tap_entry.h"
#include "survey/text_lines.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostUndo = 500;

using entry_detail::lower;
using entry_detail::trimmed;

/// Rows of a column that are taken by breakers, counted from the top to the lowest of them.
std::size_t rows_taken(const House& house, const Panel& panel, int column) {
  int taken = 0;
  for (const Breaker& breaker : house.breakers) {
    if (breaker.panel != panel.id) continue;
    for (const PolePlace& pole : pole_places(panel, breaker))
      if (const auto at = place_of(panel, pole.space); at && at->column == column) taken = std::max(taken, at->row + 1);
  }
  return static_cast<std::size_t>(taken);
}

/// The space in this row of a column; 0 below the last one.
int space_in(const Panel& panel, int column, std::size_t row) {
  for (int space = 1; space <= panel.spaces; ++space)
    if (place_of(panel, space) == PanelPlace{column, static_cast<int>(row)}) return space;
  return 0;
}

/// Do these words name their own spaces ("2+4 30 dryer", "left 20"), so that no column is meant?
bool names_spaces(const std::string& words) {
  const std::string first = lower(words.substr(0, words.find(' ')));
  if (first == "left" || first == "right" || first == "down" || words.find(';') != std::string::npos) return true;
  if (first.find(',') != std::string::npos) return true;
  const auto places = entry_detail::parse_places(first);
  return places && (places->size() > 1 || places->front().half == Half::b);
}

void require_one_line(std::string_view words) {
  if (words.find('\n') != std::string_view::npos) throw Error(ErrorKind::invalid_input, "An answer is one line.");
}

}  // namespace

WalkThrough::WalkThrough(House house) { now_.house = std::move(house); }

WalkQuestion WalkThrough::question() const {
  switch (now_.stage) {
    case Stage::rooms:
      return {now_.house.rooms.empty() ? "Which rooms are there?" : "Which other rooms are there?",
              "Names with commas between: Kitchen, Hall, Bedroom 1. 'Floor Upper 1' or 'Building Workshop' in front of those that are there.",
              "no more rooms"};
    case Stage::contents: return ask_contents();
    case Stage::panels:
      return {now_.house.panels.empty() ? "What is the panel called, how many spaces has it, and which main breaker? For example: Main 30 200A"
                                        : "Is there another panel, and what feeds it?",
              now_.house.panels.empty() ? "Its name comes first, any word that tells it from others. Main 12 100A in Hall: the room it hangs in, too."
                                        : "For example: Workshop 12 from Main 14+16", now_.house.panels.empty() ? "no panel for now" : "no more panels"};
    case Stage::left_column:
    case Stage::right_column: return ask_column();
    case Stage::done: break;
  }
  return {"Nothing is left to ask.", "", ""};
}

WalkQuestion WalkThrough::ask_contents() const {
  const Room& room = row(now_.house, now_.left.back());
  const auto items = template_items(template_for_room(room.name));
  return {"What is in " + room.name + "?",
          "For example: 4 receptacles, 2 lights on switch, dishwasher; in short 4r, 2l sw, dw. '-' if there is nothing.",
          items ? std::string(*items) : "nothing for now"};
}

WalkQuestion WalkThrough::ask_column() const {
  const Panel& panel = row(now_.house, now_.panel);
  const int column = now_.stage == Stage::left_column ? 0 : 1;
  const int space = space_in(panel, column, rows_taken(now_.house, panel, column));
  const std::string side = column_count(panel) == 1 ? "the column" : column == 0 ? "the left column" : "the right column";
  return {"Which breakers are in " + side + " of panel " + panel.name + ", from space " + std::to_string(space) + " down?",
          "Ratings with their labels: 20 kitchen 15/15 hall / den 30x2 dryer - 20 (x2: 2-pole, 15/15: tandem, -: empty). "
          "A breaker out of order: 2+4 30 dryer.",
          "no more in this column"};
}

std::vector<std::string> WalkThrough::answer(std::string_view words) {
  if (done()) throw Error(ErrorKind::invalid_input, "Nothing is left to ask.");
  require_one_line(words);
  Moment next = now_;
  std::vector<std::string> said;
  const std::string text = trimmed(words);
  switch (now_.stage) {
    case Stage::rooms: answer_rooms(next, text, said); break;
    case Stage::contents: answer_contents(next, text, said); break;
    case Stage::panels: answer_panel(next, text, said); break;
    case Stage::left_column:
    case Stage::right_column: answer_column(next, text, said); break;
    case Stage::done: break;
  }
  if (before_.size() >= kMostUndo) before_.erase(before_.begin());
  before_.push_back(std::exchange(now_, std::move(next)));
  return said;
}

void WalkThrough::skip() {
  if (done()) return;
  Moment next = now_;
  go_on(next);
  before_.push_back(std::exchange(now_, std::move(next)));
}

bool WalkThrough::undo() {
  if (before_.empty()) return false;
  now_ = std::move(before_.back());
  before_.pop_back();
  return true;
}

void WalkThrough::enter(Moment& next, EntryResult result, std::vector<std::string>& said) {
  next.house = std::move(result.house);
  said.insert(said.end(), result.said.begin(), result.said.end());
}

void WalkThrough::answer_rooms(Moment& next, std::string_view words, std::vector<std::string>& said) const {
  if (words.empty()) return go_on(next);
  std::string text = next.building_line + next.floor_line;
  for (const std::string& name : entry_detail::split(words, ",")) {
    const std::string first = lower(name.substr(0, name.find(' ')));
    if (name.empty()) continue;
    if (name.find(':') != std::string::npos)
      throw Error(ErrorKind::invalid_input, "Only the names of the rooms are asked now; what is in them comes next.");
    if (first == "building") {
      next.building_line = name + "\n";
      next.floor_line.clear();
    }
    if (first == "floor") next.floor_line = name + "\n";
    text += first == "building" || first == "floor" ? name + "\n" : "Room " + name + ":\n";
  }
  std::vector<std::string> entered;
  enter(next, enter_answer(next.house, text), entered);
  said.push_back(std::to_string(next.house.rooms.size()) + (next.house.rooms.size() == 1 ? " room so far." : " rooms so far."));
}

void WalkThrough::answer_contents(Moment& next, const std::string& words, std::vector<std::string>& said) const {
  const Room& room = row(now_.house, now_.left.back());
  const std::string offered = template_for_room(room.name);
  std::string items = words;
  if (items.empty() && !offered.empty()) items = "=" + offered;
  if (!items.empty() && items != "-") enter(next, with_items(next.house, room.id, items), said);
  go_on(next);
}

void WalkThrough::answer_panel(Moment& next, const std::string& words, std::vector<std::string>& said) const {
  if (words.empty()) return go_on(next);
  const std::size_t panels = next.house.panels.size();
  enter(next, enter_answer(next.house, "Panel " + words), said);
  if (next.house.panels.size() == panels)
    throw Error(ErrorKind::invalid_input, "There is a panel of this name already; choose another name, or press Enter to go on.");
  next.panel = next.house.panels.back().id;
  next.stage = Stage::left_column;
}

void WalkThrough::answer_column(Moment& next, const std::string& words, std::vector<std::string>& said) const {
  if (words.empty()) return go_on(next);
  const Panel& panel = row(now_.house, now_.panel);
  const int column = now_.stage == Stage::left_column ? 0 : 1;
  std::string items = words;
  if (!names_spaces(words)) {
    items = column == 0 ? "left" : "right";
    for (std::size_t taken = rows_taken(now_.house, panel, column); taken > 0; --taken) items += " -";
    items += " " + words;
  }
  enter(next, with_breakers(next.house, panel.id, items), said);
  if (space_in(panel, column, rows_taken(next.house, panel, column)) == 0) go_on(next);
}

void WalkThrough::go_on(Moment& next) {
  const auto has_points = [&](const Room& room) { return std::ranges::find(next.house.points, room.id, &Point::room) != next.house.points.end(); };
  switch (next.stage) {
    case Stage::rooms:
      for (const Room& room : next.house.rooms)
        if (!has_points(room)) next.left.insert(next.left.begin(), room.id);
      next.stage = next.left.empty() ? Stage::panels : Stage::contents;
      return;
    case Stage::contents:
      next.left.pop_back();
      if (next.left.empty()) next.stage = Stage::panels;
      return;
    case Stage::left_column:
      next.stage = column_count(row(next.house, next.panel)) == 2 ? Stage::right_column : Stage::panels;
      return;
    case Stage::right_column: next.stage = Stage::panels; return;
    case Stage::panels: next.stage = Stage::done; return;
    case Stage::done: return;
  }
}

}  // namespace ohmstead
