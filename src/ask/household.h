#pragma once
// What the household should know, as a sheet: shut-offs, where things are kept, how the generator is started, whom to call, and what is
// noted about things. It hangs where strangers see it, so private notes are not on it.

#include <cstddef>
#include <string>
#include <vector>

#include "ask/names.h"

namespace ohmstead {

struct HouseholdItem {
  std::string head;  ///< the topic, or the name of the thing; may be empty
  std::string text;
};

struct HouseholdSheet {
  std::vector<HouseholdItem> facts;   ///< about the house, in the order of the record
  std::vector<HouseholdItem> things;  ///< about things of it
  std::size_t left_out = 0;           ///< private notes
};

[[nodiscard]] HouseholdSheet household_sheet(const House& house, const Names& names);

/// The same as plain text for a code, one note a line.
[[nodiscard]] std::vector<std::string> text_of(const HouseholdSheet& sheet);

}  // namespace ohmstead
