#pragma once
// Internal to Names: collects what every thing of a house is called.

#include <initializer_list>
#include <map>

#include "ask/name_table.h"
#include "house/index.h"

namespace ohmstead::ask_detail {

class TableBuilder {
 public:
  TableBuilder(const House& house, NameTable& table);
  /// Fills the table, in the order of the house; with `numbered_only` just what numbers name
  /// (panels, breakers, positions) and what they stand in.
  void build(bool numbered_only);

 private:
  void add_places();
  void add_panels();
  void add_breakers();
  void add_backup();
  void add_points();
  void add_devices();
  void add_boxes();
  void tell_apart();
  void serves(Called& called, const Device& device, const std::vector<std::string>& points);

  /// Adds a thing called `own` (first of its alternatives) in `room`, of a kind said as `kind`.
  Called& add(const ThingRef& thing, std::string_view own, std::string_view kind);
  void put_in_room(Called& thing, Id<Room> room);
  void also_called(Called& thing, std::string_view own) { thing.own.push_back(words_in(own)); }
  [[nodiscard]] std::vector<WordNo> words_in(std::string_view text);
  [[nodiscard]] std::string in_room(Id<Room> room, const std::string& name) const;
  [[nodiscard]] Id<Room> room_of_device(const Device& device) const;

  const House& house_;
  NameTable& table_;
  Index<Room> room_at_;
  Index<Floor> floor_at_;
  Index<Panel> panel_at_;
  Index<Breaker> breaker_at_;
  Index<Point> point_at_;
  Index<TransferDevice> transfer_at_;
  std::unordered_map<std::uint64_t, std::vector<WordNo>> room_words_;
  std::unordered_map<std::string, std::vector<WordNo>> read_;  ///< texts already turned into words
  std::vector<std::string> details_;  ///< of each thing: what tells it from others of its name
};

}  // namespace ohmstead::ask_detail
