#pragma once
// Internal to quick entry: one item of a room line ("4 counter receptacles", "dishwasher 1200 W"),
// understood but not yet part of a house.

#include <optional>
#include <string>
#include <vector>

#include "house/house.h"
#include "survey/kind_words.h"
#include "survey/text_lines.h"

namespace ohmstead::entry_detail {

class Draft;

struct LoadSpec {
  std::string name;
  std::optional<int> running_watts, starting_watts, duty_percent;
  std::optional<Importance> importance;
  std::optional<FigureBasis> basis;
  bool hurt = false;
  const KindWord* kind = nullptr;  ///< fills in what is not given
};

/// A wall switch, or the two or more of a 3-way or 4-way group.
struct SwitchSpec {
  int handles = 0;              ///< 0: none
  std::string name;             ///< given in quotes, or empty
  std::vector<Id<Room>> rooms;  ///< of the handles; no id: the room of the item
};

struct Downstream {
  int count = 1;
  const KindWord* kind = nullptr;
  Id<Room> room;  ///< none: the room of the item
};

struct DeclaredSpec {
  std::string breaker;  ///< words as typed; empty: nothing declared
  std::string who, at;
};

enum class Halves { none, split, upper_switched, lower_switched };

struct ItemSpec {
  int count = 1;
  int first_number = 0;      ///< chosen by the user; 0: the next free one
  const KindWord* kind = nullptr;  ///< none: an appliance known by its watts only
  std::string name;          ///< without number
  bool exact_name = false;   ///< given in quotes
  Halves halves = Halves::none;
  bool gfci = false;
  std::vector<Downstream> downstream;
  SwitchSpec on_switch;
  std::string behind;        ///< device, as typed
  bool disconnect = false;
  std::optional<int> hots;
  int rating_amps = 0;       ///< of receptacles; 0: not given
  LoadSpec load;
  std::vector<LoadSpec> plugged;
  std::string box, place;
  DeclaredSpec declared;
};

/// Understands one item. Throws a refusal at the draft's line.
[[nodiscard]] ItemSpec parse_item(const Draft& draft, const std::vector<Word>& words);

/// All items of a room line, with templates and glued counts ("4r 2l") spelled out.
[[nodiscard]] std::vector<ItemSpec> parse_items(const Draft& draft, const std::string& text);

/// Puts them into the room.
void add_items(Draft& draft, Id<Room> room, const std::vector<ItemSpec>& items);

/// "Main 9 pole 2 by J. on 2026-11-25", from word `at` to the end.
[[nodiscard]] DeclaredSpec parse_declared(const Draft& draft, const std::vector<Word>& words, std::size_t at);

/// Declares what feeds a point (or the outermost device before it).
void declare_feed(Draft& draft, Id<Point> point, Id<Device> device, const DeclaredSpec& said);

}  // namespace ohmstead::entry_detail
