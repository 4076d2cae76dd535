#pragma once
// Internal to quick entry: the house while a text is being entered, and names looked up in it.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "house/house.h"
#include "survey/item.h"
#include "survey/text_lines.h"

namespace ohmstead::entry_detail {

/// A breaker named in words, and the pole meant (0: none named).
struct BreakerAt {
  Id<Breaker> breaker;
  int pole = 0;
};

class Draft {
 public:
  explicit Draft(const House& before);

  House house;
  std::vector<std::string> said;
  int line = 0;  ///< being entered; for messages
  std::string who, at;  ///< of the last `By` line
  std::string room_name;  ///< of the room whose items are read; a bare '=' is the template that suits it
  std::map<std::string, std::vector<ItemSpec>> templates;  ///< of the text's own, by name in small letters
  std::map<std::string, std::vector<ItemSpec>> written;    ///< items of rooms of this text, by name as typed

  [[noreturn]] void fail(const std::string& message) const { throw refusal(line, message); }

  // Rooms. Where rooms of the lines below go is kept here.
  Id<Floor> floor;          ///< none: no floor line yet
  std::string building;
  Id<Room> room_for_line(const std::string& name);  ///< existing on this floor, or made
  Id<Floor> add_floor(const std::string& name, int level);
  /// The room called so ("Bath", "Upper Bath"). Throws when there is none, or several.
  [[nodiscard]] Id<Room> room(const std::string& name) const;
  [[nodiscard]] bool has_room(const std::string& name) const;
  /// The longest run of words from `first` that names a room; `first` is moved behind it.
  [[nodiscard]] Id<Room> room_at(const std::vector<Word>& words, std::size_t& first) const;
  [[nodiscard]] const std::string& name_of(Id<Room> room) const;

  // Points and devices.
  [[nodiscard]] bool point_name_taken(Id<Room> room, const std::string& name) const;
  Id<Point> add_point(Point point);
  Id<Box> add_box(Id<Room> room, const std::string& name);
  /// Box of this name in the room, made if there is none.
  Id<Box> shared_box(Id<Room> room, const std::string& name);
  [[nodiscard]] std::string free_handle_name(Id<Room> room, const std::string& base) const;
  Id<Device> add_device(Device device, const std::vector<Handle>& handles);
  /// A device of this name ("gfci", "Bath gfci", "east switch"), looked for in `here` first.
  [[nodiscard]] Id<Device> device(Id<Room> here, const std::string& name) const;
  [[nodiscard]] std::vector<Id<Device>> devices_named(Id<Room> room, const std::string& name) const;

  // Panels and sources.
  /// "Main 9", "Main 2+4 pole 2", "9" with one panel. Throws when there is no such breaker.
  [[nodiscard]] BreakerAt breaker(const std::string& words) const;
  /// The panel named by all words before the last one, and the last word; with one panel it may be left out.
  [[nodiscard]] const Panel& panel_before_last(const std::vector<Word>& words, const std::string& all) const;
  [[nodiscard]] Panel* panel(const std::string& name);
  /// The longest run of words from `first` that names a source; `first` is moved behind it.
  [[nodiscard]] Id<Source> source_at(const std::vector<Word>& words, std::size_t& first) const;
  /// A main or a breaker: "Main main", "Main 2+4", "main".
  [[nodiscard]] HandleRef handle(const std::string& words) const;

  /// Rows added since the last call belong to the present line.
  void rows_belong_to_line();
  /// Throws the first contradiction in the house, with the line that brought it.
  void require_sound_lines() const;

 private:
  void know_room(const Room& made);
  [[nodiscard]] std::vector<Id<Room>> rooms_named(const std::string& name) const;

  std::map<std::string, std::vector<Id<Room>>> rooms_;            ///< by name, and by floor and name; small letters
  std::map<Id<Room>, std::string> room_names_;
  std::set<std::pair<Id<Room>, std::string>> point_names_;         ///< small letters
  std::map<std::pair<Id<Room>, std::string>, Id<Box>> boxes_;      ///< small letters
  std::map<std::pair<Id<Room>, std::string>, std::vector<Id<Device>>> devices_;  ///< by room and name of a handle
  std::map<std::string, std::vector<int>> lines_of_rows_;          ///< by table
};

}  // namespace ohmstead::entry_detail
