#pragma once
// Keys and lines from a person: single keys as they are pressed where standard input is a terminal,
// else the first letter of each line.

#include <termios.h>

#include <iosfwd>
#include <optional>
#include <string>

namespace ohmstead {

inline constexpr char kEnterKey = '\n', kInputEnded = '\0';

class Keys {
 public:
  /// With `single`, standard input gives its keys as they are pressed for as long as this lives.
  Keys(std::istream& in, std::ostream& out, bool single);
  ~Keys();
  Keys(const Keys&) = delete;
  Keys& operator=(const Keys&) = delete;

  /// Is the answer shown on a terminal that can set a line off from the others?
  [[nodiscard]] bool can_be_bold() const;

  /// One key in small letters; kEnterKey for an empty line, kInputEnded at the end; Ctrl-C is 'p', an arrow or
  /// function key ' '.
  [[nodiscard]] char key();
  /// A line without its end and the spaces around it; nothing at the end of the input. What is longer
  /// than a name may be is cut just behind that, so that it is refused.
  [[nodiscard]] std::optional<std::string> line();

  /// Columns that a line of text may take, 38..78.
  [[nodiscard]] std::size_t columns() const;

 private:
  [[nodiscard]] char pressed();
  void swallow_function_key();

  std::istream& in_;
  std::ostream& out_;
  termios before_{};
  termios keys_{};
  bool single_;
};

}  // namespace ohmstead
