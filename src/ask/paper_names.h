#pragma once
// A house with names that may stand on paper for strangers: what is handed out, or hangs where anybody reads it.

#include "ask/record.h"

namespace ohmstead {

/// The same record with the names of rooms, floors, points, loads, boxes, panels, devices and sources made printable, short and
/// without persons (rules/plain_words.h); none is empty, and points of one room keep names of their own. Notes, old labels and
/// settings are left out. Feeds and graph stay as they are.
[[nodiscard]] Record with_paper_names(const Record& record);

}  // namespace ohmstead
