// A panel's line: its heading, its breakers, and what feeds it.

#include <algorithm>

#include "house/index.h"
#include "survey/breaker_words.h"
#include "survey/line_kinds.h"
#include "survey/space_words.h"

namespace ohmstead::entry_detail {

namespace {

struct Heading {
  std::string name;
  Id<Room> room;
  std::optional<int> spaces, main_amps;
  std::optional<Numbering> numbering;
  std::vector<Word> from;  ///< empty: not said
};

bool glued(const Word& word, std::string_view unit, std::optional<int>& number) {
  const std::string text = word.lower();
  if (word.quoted || !text.ends_with(unit)) return false;
  number = whole_number(std::string_view(text).substr(0, text.size() - unit.size()));
  return number.has_value();
}

class HeadingParser {
 public:
  HeadingParser(const Draft& draft, const std::vector<Word>& words) : draft_(draft), words_(words) {}

  Heading run() {
    const std::size_t first = at_;
    if (is(",") || is("in") || is("from") || (at_ < words_.size() && whole_number(words_[at_].text) && (is("spaces", 1) || is("space", 1))))
      draft_.fail("behind 'Panel' its name is expected, as in 'Panel Main in Hall 30 spaces'.");
    if (at_ < words_.size()) ++at_;
    while (at_ < words_.size() && !key_at(at_)) ++at_;
    heading_.name = joined(words_, first, at_);
    if (heading_.name.empty()) draft_.fail("behind 'Panel' its name is expected, as in 'Panel Main 30 spaces'.");
    while (at_ < words_.size()) take_part();
    return heading_;
  }

 private:
  [[nodiscard]] bool is(std::string_view word, std::size_t ahead = 0) const {
    return at_ + ahead < words_.size() && words_[at_ + ahead].is(word);
  }
  [[nodiscard]] bool key_at(std::size_t i) const {
    const std::string text = words_[i].lower();
    return words_[i].is(",") || words_[i].is("in") || words_[i].is("from") || (!words_[i].quoted && text[0] >= '0' && text[0] <= '9') ||
           (words_[i].is("odd") && i + 1 < words_.size()) || words_[i].is("down") || words_[i].is("single") ||
           (words_[i].is("main") && i + 1 < words_.size() && words_[i + 1].is("lugs"));
  }

  void take_part() {
    std::optional<int> number;
    if (is(",")) ++at_;
    else if (is("in")) ++at_, heading_.room = draft_.room_at(words_, at_);
    else if (is("from")) take_from();
    else if (is("odd") && is("left", 1)) at_ += 2, heading_.numbering = Numbering::odd_left_even_right;
    else if (is("down")) ++at_, heading_.numbering = Numbering::sequential_down;
    else if (is("single")) at_ += is("column", 1) ? 2 : 1, heading_.numbering = Numbering::single_column;
    else if (is("main") && is("lugs", 1)) at_ += 2, heading_.main_amps = 0;
    else if (glued(words_[at_], "a", number)) ++at_, take_main(*number);
    else if (glued(words_[at_], "sp", number)) ++at_, heading_.spaces = number;
    else if ((number = whole_number(words_[at_].text))) take_number(*number);
    else
      draft_.fail("I do not understand " + shown(words_[at_].text) + " in the heading of panel " + shown(heading_.name) +
                  "; expected is 'in ROOM', '30 spaces', '200 A main', 'odd left', 'down', 'single column' or 'from ...'.");
  }

  void take_number(int number) {
    ++at_;
    if (is("a") || is("amp") || is("amps")) return ++at_, take_main(number);
    if (is("spaces") || is("space") || is("sp")) ++at_;
    heading_.spaces = number;
  }

  void take_main(int amps) {
    heading_.main_amps = amps;
    if (is("main") && !is("lugs", 1)) ++at_;
  }

  void take_from() {
    const std::size_t first = ++at_;
    while (at_ < words_.size() && !is(",")) ++at_;
    heading_.from.assign(words_.begin() + static_cast<std::ptrdiff_t>(first), words_.begin() + static_cast<std::ptrdiff_t>(at_));
    if (heading_.from.empty()) draft_.fail("behind 'from' a breaker or a transfer device is expected, as in 'from Main 14+16'.");
  }

  const Draft& draft_;
  const std::vector<Word>& words_;
  std::size_t at_ = 1;
  Heading heading_;
};

/// The line up to the colon, and behind it.
std::pair<std::string, std::string> halves_of(const Line& line) {
  const auto parts = split(line.text, ":");
  const std::size_t colon = parts.size() < 2 ? line.text.size() : line.text.find(':', parts.front().size());
  return {parts.front(), line.text.substr(std::min(line.text.size(), colon + 1))};
}

Heading heading_of(const Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, halves_of(line).first, ",");
  return HeadingParser(draft, words).run();
}

/// A transfer device that `from` begins with, or nullptr; `rest` is what stands behind its name.
const TransferDevice* transfer_in(const House& house, const std::vector<Word>& from, std::string& rest) {
  for (std::size_t end = from.size(); end > 0; --end)
    for (const TransferDevice& device : house.transfer_devices)
      if (lower(device.name) == lower(joined(from, 0, end))) {
        rest = joined(from, end, from.size());
        return &device;
      }
  return nullptr;
}

}  // namespace

void enter_panel(Draft& draft, const Line& line) {
  const Heading heading = heading_of(draft, line);
  Panel* panel = draft.panel(heading.name);
  if (panel == nullptr) {
    constexpr std::size_t kMostPanels = 60;
    if (draft.house.panels.size() >= kMostPanels) draft.fail("there are more than " + std::to_string(kMostPanels) + " panels.");
    if (!heading.spaces)
      draft.fail("panel " + shown(heading.name) + " needs its number of spaces behind its name, as in 'Panel " + "Main 30 spaces'; a room of this name is written 'Room Panel ...:'.");
    draft.house.panels.push_back({.id = Id<Panel>::fresh(), .name = heading.name});
    panel = &draft.house.panels.back();
    if (draft.house.panels.size() == 1) panel->supply = Supply::utility;
  }
  if (heading.room) panel->room = heading.room;
  if (heading.spaces) panel->spaces = *heading.spaces;
  if (heading.numbering) panel->numbering = *heading.numbering;
  if (heading.main_amps) panel->main_amps = *heading.main_amps;
  if (panel->spaces < 1 || panel->spaces > 200) draft.fail("a panel has 1 to 200 spaces, not " + std::to_string(panel->spaces) + ".");
  const Panel known = *panel;
  const std::size_t before = draft.house.breakers.size();
  for (const std::string& item : split(halves_of(line).second, ";\n")) {
    const std::vector<Word> words = words_of(line.number, item, "");
    if (words.empty()) continue;
    if (words.front().is("left") || words.front().is("right") || words.front().is("down")) enter_column(draft, known, words);
    else enter_numbered(draft, known, words);
  }
  const std::size_t made = draft.house.breakers.size() - before;
  draft.said.push_back("Panel " + known.name + ", " + std::to_string(known.spaces) + " spaces: " + std::to_string(made) +
                       (made == 1 ? " breaker." : " breakers."));
}

void enter_panel_supply(Draft& draft, const Line& line) {
  const Heading heading = heading_of(draft, line);
  if (heading.from.empty()) return;
  Panel& panel = *draft.panel(heading.name);
  std::string rest;
  panel.feeder = {};
  panel.position = {};
  if (heading.from.size() == 1 && heading.from.front().is("utility")) {
    panel.supply = Supply::utility;
  } else if (const TransferDevice* device = transfer_in(draft.house, heading.from, rest)) {
    const auto places = parse_places(rest.empty() ? "1" : rest);
    if (!places) draft.fail(shown(rest) + " is not a position of " + shown(device->name) + "; expected is one such as 3+4.");
    panel.supply = Supply::position;
    for (const Position& position : draft.house.positions)
      if (position.device == device->id && position.number == places->front().space) panel.position = position.id;
    if (!panel.position) draft.fail("transfer device " + shown(device->name) + " has no position " + shown(rest) + ".");
  } else {
    panel.supply = Supply::breaker;
    panel.feeder = draft.breaker(joined(heading.from, 0, heading.from.size())).breaker;
  }
}

}  // namespace ohmstead::entry_detail
