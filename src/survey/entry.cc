#include "survey/entry.h"

#include <algorithm>

#include "survey/line_kinds.h"

namespace ohmstead {

namespace entry_detail {

LineKind kind_of(const Line& line) {
  const std::size_t colon = split(line.text, ":").front().size();
  const std::string first = lower(line.text.substr(0, line.text.find_first_of(" :\n\t")));
  const bool has_colon = colon < line.text.size();
  if (first == "room" && has_colon) return LineKind::room;
  struct Known { std::string_view word; LineKind kind; };
  constexpr Known kKnown[] = {
      {"house", LineKind::house}, {"floor", LineKind::floor}, {"building", LineKind::building},
      {"template", LineKind::template_}, {"panel", LineKind::panel}, {"generator", LineKind::source},
      {"battery", LineKind::source}, {"transfer", LineKind::transfer}, {"interlock", LineKind::interlock},
      {"walk", LineKind::walk}, {"by", LineKind::by}, {"through", LineKind::through}, {"rated", LineKind::rated}, {"note", LineKind::note},
      {"private", LineKind::note}};
  for (const Known& known : kKnown)
    if (first == known.word) return known.kind;
  if (has_colon) return LineKind::room;
  if (split(line.text, "<").size() > 1 && line.text.find("<-") != std::string::npos) return LineKind::feed;
  throw refusal(line.number, shown(line.text) + " is not understood: a room needs ':' behind its name, as in 'Kitchen: 4 receptacles'.");
}

namespace {

/// Enters a text stage by stage.
class Entry {
 public:
  Entry(const House& before, std::string_view text) : draft_(before), lines_(lines_of(text)) {
    rooms_.resize(lines_.size());
    for (const Line& line : lines_) kinds_.push_back(kind_of(line));
  }

  EntryResult run() {
    for (int stage = 0; stage < kStages; ++stage)
      for (std::size_t i = 0; i < lines_.size(); ++i) {
        draft_.line = lines_[i].number;
        enter(static_cast<Stage>(stage), i);
        draft_.rows_belong_to_line();
      }
    draft_.require_sound_lines();
    return {std::move(draft_.house), std::move(draft_.said)};
  }

 private:
  void enter(Stage stage, std::size_t i) {
    const Line& line = lines_[i];
    switch (stage) {
      case Stage::places: return enter_place(i);
      case Stage::sources: if (kinds_[i] == LineKind::source) enter_source(draft_, line); return;
      case Stage::panels: if (kinds_[i] == LineKind::panel) enter_panel(draft_, line); return;
      case Stage::transfers: if (kinds_[i] == LineKind::transfer) enter_transfer(draft_, line); return;
      case Stage::supplies:
        if (kinds_[i] == LineKind::panel) enter_panel_supply(draft_, line);
        if (kinds_[i] == LineKind::interlock) enter_interlock(draft_, line);
        return;
      case Stage::contents: return enter_content(i);
    }
  }

  void enter_place(std::size_t i) {
    switch (kinds_[i]) {
      case LineKind::house: return enter_house(draft_, lines_[i]);
      case LineKind::floor: return enter_floor(draft_, lines_[i]);
      case LineKind::building: return enter_building(draft_, lines_[i]);
      case LineKind::room: rooms_[i] = enter_room_head(draft_, lines_[i]); return;
      default: return;
    }
  }

  void enter_content(std::size_t i) {
    switch (kinds_[i]) {
      case LineKind::room: for (const Id<Room> room : rooms_[i]) enter_room_items(draft_, lines_[i], room);
        return;
      case LineKind::template_: return enter_template(draft_, lines_[i]);
      case LineKind::walk: return enter_walk(draft_, lines_[i]);
      case LineKind::by: return enter_by(draft_, lines_[i]);
      case LineKind::feed: return enter_feed(draft_, lines_[i]);
      case LineKind::through: return enter_through(draft_, lines_[i]);
      case LineKind::rated: return enter_rated(draft_, lines_[i]);
      case LineKind::note: return enter_note(draft_, lines_[i]);
      default: return;
    }
  }

  Draft draft_;
  std::vector<Line> lines_;
  std::vector<LineKind> kinds_;
  std::vector<std::vector<Id<Room>>> rooms_;  ///< of room lines
};

}  // namespace

}  // namespace entry_detail

EntryResult enter_text(const House& before, std::string_view text) { return entry_detail::Entry(before, text).run(); }

EntryResult enter_answer(const House& before, std::string_view text) {
  try {
    return enter_text(before, text);
  } catch (const Error& error) {
    std::string message = error.what();
    if (message.starts_with("line ")) message.erase(0, std::min(message.size(), message.find(": ") + 2));
    throw Error(error.kind, message);
  }
}

}  // namespace ohmstead
