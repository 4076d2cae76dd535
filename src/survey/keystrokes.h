#pragma once
// How much typing an entry text is: one keystroke a character, one for each Enter. Comments and
// empty lines say nothing to the program and are not counted; Shift is not counted.

#include <cstddef>
#include <string_view>

namespace ohmstead {

/// Keystrokes by what they were for.
struct Keystrokes {
  std::size_t rooms = 0;   ///< room lines, without their rectangles; templates
  std::size_t plan = 0;    ///< rectangles, floors, buildings, walking times, the house's own line
  std::size_t panels = 0;
  std::size_t backup = 0;  ///< sources, transfer devices, interlocks
  std::size_t record = 0;  ///< declared feeds, who said so, passing conductors, notes
  [[nodiscard]] std::size_t total() const { return rooms + plan + panels + backup + record; }
};

/// Throws Error{invalid_input} where enter_text would for lines it cannot tell apart.
[[nodiscard]] Keystrokes keystrokes_of(std::string_view text);
/// All of them.
[[nodiscard]] std::size_t count_keystrokes(std::string_view text);

}  // namespace ohmstead
