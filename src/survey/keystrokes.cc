#include "survey/keystrokes.h"

#include <algorithm>

#include "survey/line_kinds.h"

namespace ohmstead {

namespace {

using entry_detail::LineKind;

/// Characters (code points), and one for Enter. A line joint in the text is an Enter and a space.
std::size_t strokes(std::string_view text) {
  const auto characters = std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
  return static_cast<std::size_t>(characters + std::ranges::count(text, '\n')) + 1;
}

/// The rectangle of a room's head, if it has one: from the blank before it to the end.
std::size_t rectangle_strokes(const std::string& head) {
  for (std::size_t blank = head.find(' '); blank != std::string::npos; blank = head.find(' ', blank + 1)) {
    const std::size_t x = head.find('x', blank + 1);
    const bool digit_first = blank + 1 < head.size() && head[blank + 1] >= '0' && head[blank + 1] <= '9';
    if (digit_first && x != std::string::npos && x < head.find(' ', blank + 1)) return head.size() - blank;
  }
  return 0;
}

}  // namespace

Keystrokes keystrokes_of(std::string_view text) {
  Keystrokes result;
  for (const entry_detail::Line& line : entry_detail::lines_of(text)) {
    const std::size_t all = strokes(line.text);
    switch (entry_detail::kind_of(line)) {
      case LineKind::room: {
        const std::size_t rectangle = rectangle_strokes(entry_detail::room_line(line).head);
        result.plan += rectangle;
        result.rooms += all - rectangle;
        break;
      }
      case LineKind::template_: result.rooms += all; break;
      case LineKind::house:
      case LineKind::floor:
      case LineKind::building:
      case LineKind::walk: result.plan += all; break;
      case LineKind::panel: result.panels += all; break;
      case LineKind::source:
      case LineKind::transfer:
      case LineKind::interlock: result.backup += all; break;
      case LineKind::by:
      case LineKind::feed:
      case LineKind::through:
      case LineKind::rated:
      case LineKind::note: result.record += all; break;
    }
  }
  return result;
}

std::size_t count_keystrokes(std::string_view text) { return keystrokes_of(text).total(); }

}  // namespace ohmstead
