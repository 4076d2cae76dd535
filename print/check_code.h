#pragma once
// The check code of a sheet or label: six signs that follow from what it says. The date and the revision are left out, so that a
// sheet that would be printed the same again has the same code, and one that would not has another (once in 10^9 by chance not).

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

class Canvas;

/// A sheet or label that is put on paper, and how the record knows it.
struct PrintedItem {
  std::string key;   ///< the same at each printing: "directory:PANEL", "paper:wall:SOURCE"
  std::string name;  ///< as people call it: "directory of Main"
  std::string code;  ///< without the dash
  bool operator==(const PrintedItem&) const = default;
};

/// For draws with this date and revision 0 the code is made.
inline constexpr const char* kNoDate = "2000-01-01";

/// The code of what these texts say in this order, on the item `key` of this house.
[[nodiscard]] std::string check_code(const House& house, const std::string& key, const std::vector<std::string>& texts);

/// The same of everything that `draw` writes on a canvas; it must be given kNoDate, revision 0 and no code.
[[nodiscard]] std::string check_code_of_drawn(const House& house, const std::string& key, const std::function<void(Canvas&)>& draw);

/// "7Q2K9D" as it is printed: "7Q2-K9D".
[[nodiscard]] std::string printed_check_code(const std::string& code);

/// A code as somebody types it: any case, with or without dash and spaces; O is read as 0, I and L as 1. None if it is not six signs.
[[nodiscard]] std::optional<std::string> read_check_code(const std::string& typed);

}  // namespace ohmstead
