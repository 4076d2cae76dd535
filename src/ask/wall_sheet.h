#pragma once
// The sheet that hangs beside the transfer device, for a family in the dark: what to do when the power fails, what
// may be switched on, fuel, food, what to do when the source gives up, and the way home. Plain values in plain words.
//
// Its steps are those of the outage board (backup/outage_board.h): the board is played through from the first minute to
// the last on a copy of the house that is wired as the kept plan says, so that wall and board say the same.

#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead {

/// One handle of several that are moved one after another, in this order.
struct WallRow {
  std::string handle;  ///< as marked on it: "3", "5-6"
  std::string text;    ///< what comes on with it; may be empty
};

/// One thing to do or to know.
struct WallItem {
  std::string handle;  ///< what is moved, as marked on it: "3", "5-6", "MAIN"; several: "1, 2, 3"; empty: nothing
  std::string to;      ///< where it goes: "BACKUP", "OFF"; empty where there is no handle
  std::string text;    ///< sentences
  std::string what;    ///< what is marked so, and where: "Handle of T", "Breakers in Main"; empty: one reads it in the text
  std::vector<WallRow> rows;  ///< instead of `handle`, where several go the same way one after another and each has its own text
};

enum class WallPartKind {
  urgent,    ///< in a frame, above everything else
  steps,     ///< done in this order
  facts,     ///< to know
  to_fill,   ///< lines to write on by hand
};

struct WallPart {
  WallPartKind kind = WallPartKind::facts;
  std::string title;
  std::string first;  ///< to be read before the items; may be empty
  std::vector<WallItem> items;
};

struct WallSheet {
  std::string source;   ///< "Generator, for Hillside"
  std::vector<WallPart> parts;
  std::vector<std::string> sources;  ///< who says so: the first is [1] in the texts
  bool complete = true;  ///< false: the steps did not come to an end and must be asked of the outage board
};

/// Throws as outage_gear does (backup/outage_gear.h).
[[nodiscard]] WallSheet wall_sheet(const Record& record, const PlanAnswer& answer);

/// The same as plain text for a code, one sentence or step a line.
[[nodiscard]] std::vector<std::string> text_of(const WallSheet& sheet);

}  // namespace ohmstead
