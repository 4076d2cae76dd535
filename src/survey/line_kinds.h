#pragma once
// Internal to quick entry: one handler for each kind of line. Each puts one line into the draft or
// throws a refusal. Lines are entered in stages, so that a room or a panel may be used before
// its line.

#include "survey/draft.h"

namespace ohmstead::entry_detail {

enum class Stage { places, sources, panels, transfers, supplies, contents };
inline constexpr int kStages = 6;

enum class LineKind { house, floor, building, room, template_, panel, source, transfer, interlock, walk, by, feed, through, rated, note };

/// What kind of line it is, by its first word, an arrow or a colon. Throws for none of them.
[[nodiscard]] LineKind kind_of(const Line& line);

/// A room line in two parts: "Kitchen 4x3.5 m at 0,0" and "4 receptacles, 2 lights".
struct RoomLine {
  std::string head, items;
};
[[nodiscard]] RoomLine room_line(const Line& line);

void enter_house(Draft& draft, const Line& line);
void enter_floor(Draft& draft, const Line& line);
void enter_building(Draft& draft, const Line& line);
/// Makes the room and its rectangle, or several ("Bath, Hall", "Bedroom 1-3"); gives their ids for
/// the stage of contents.
[[nodiscard]] std::vector<Id<Room>> enter_room_head(Draft& draft, const Line& line);
void enter_room_items(Draft& draft, const Line& line, Id<Room> room);
void enter_template(Draft& draft, const Line& line);
void enter_walk(Draft& draft, const Line& line);

void enter_source(Draft& draft, const Line& line);
/// Heading and breakers; what feeds the panel is entered by enter_panel_supply when all panels and
/// transfer devices are known.
void enter_panel(Draft& draft, const Line& line);
void enter_panel_supply(Draft& draft, const Line& line);
void enter_transfer(Draft& draft, const Line& line);
void enter_interlock(Draft& draft, const Line& line);

void enter_by(Draft& draft, const Line& line);
void enter_feed(Draft& draft, const Line& line);
void enter_through(Draft& draft, const Line& line);
/// "Rated Kitchen receptacles 1-4: 20 A".
void enter_rated(Draft& draft, const Line& line);
void enter_note(Draft& draft, const Line& line);

}  // namespace ohmstead::entry_detail
