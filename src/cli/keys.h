#pragma once
// Keys and lines from a person: single keys as they are pressed where standard input is a terminal,
// else the first letter of each line.

#include <termios.h>

#include <iosfwd>
#include <optional>
#include <string>

namespace ohmstead {

inline constexpr char kEnterKey = '\n', kInputEnded = '\0', kNoKeyYet = '\x01';

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
  /// function key ' '. With single keys and `seconds` above 0: kNoKeyYet when none was pressed for so long.
  [[nodiscard]] char key(int seconds = 0);
  /// A line without its end and the spaces around it; nothing at the end of the input. What is longer
  /// than a name may be is cut just behind that, so that it is refused.
  [[nodiscard]] std::optional<std::string> line();

  /// Columns that a line of text may take, 38..78.
  [[nodiscard]] std::size_t columns() const;

 private:
  [[nodiscard]] char pressed(int seconds);
  void swallow_function_key();

  std::istream& in_;
  std::ostream& out_;
  termios before_{};
  termios keys_{};
  bool single_;
};

/// How a session driven by keys came to its end.
enum class KeysEnd { over, stopped, input_ended };

/// Shows steps and takes keys until the session is over, until p or q, or until the input ends. `handle` takes every other key,
/// and says whether the step is to be shown again; kNoKeyYet, too, when none was pressed for `seconds` (0: it waits).
template <class IsOver, class ShowStep, class Handle>
KeysEnd run_by_keys(Keys& keys, const IsOver& is_over, const ShowStep& show_step, const Handle& handle, int seconds = 0) {
  for (bool show = true;;) {
    if (is_over()) return KeysEnd::over;
    if (show) show_step();
    const char key = keys.key(seconds);
    if (key == kInputEnded) return KeysEnd::input_ended;
    if (key == 'p' || key == 'q') return KeysEnd::stopped;
    show = handle(key);
  }
}

}  // namespace ohmstead
