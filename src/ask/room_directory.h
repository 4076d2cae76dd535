#pragma once
// The reverse of a panel's directory: room by room what feeds each point, and which backup position carries it.

#include <string>
#include <vector>

#include "ask/record.h"

namespace ohmstead {

/// Points of a room that are fed alike.
struct RoomDirectoryRow {
  std::string what;     ///< "Receptacles 1-4", "Dishwasher"
  std::string breaker;  ///< "12", "9-11 and 14", "12?" where it is not to be relied on; "not found yet"
  std::string panel;    ///< "Panel Main"; "12 of Panel Main, 3 of Panel Workshop" where several feed it; "" where it is not established
  std::string backup;   ///< "G3", "none"; "" where nothing can be said
};

struct RoomDirectoryPart {
  std::string room;   ///< "Kitchen"
  std::string floor;  ///< "Main floor", "Upper floor, Workshop"; may be empty
  std::vector<RoomDirectoryRow> rows;
};

struct RoomDirectory {
  std::vector<RoomDirectoryPart> parts;  ///< rooms with points, in the order of the record
  std::vector<std::string> key;          ///< a sentence for each sign that is used, and what is not known
  bool several_panels = false;           ///< a breaker is told by its panel, too
  bool has_backup = false;               ///< something is said of backup
};

[[nodiscard]] RoomDirectory room_directory(const Record& record);

/// The same as plain text for codes, one sentence a line: "Kitchen, receptacles 1-4, breaker 12, backup G3."
[[nodiscard]] std::vector<std::string> text_of(const RoomDirectory& directory);

}  // namespace ohmstead
