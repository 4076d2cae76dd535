#include "cli/wrapped.h"

#include <algorithm>

namespace ohmstead {

std::string wrapped(std::string_view text, std::size_t indent, std::size_t width) {
  std::string result;
  std::size_t hanging = 0;
  bool begins = true;  // a line of the text, not one broken off it
  for (std::size_t from = 0; from <= text.size();) {
    if (begins) hanging = 0;
    const std::size_t margin = indent + hanging;
    const std::size_t room = margin < width ? width - margin : 1;
    const std::size_t line_end = std::min(text.find('\n', from), text.size());
    std::size_t end = line_end;
    if (end - from > room) {
      const std::size_t space = text.rfind(' ', from + room);
      if (space != std::string_view::npos && space > from) end = space;
    }
    if (from > 0) result += '\n';
    result.append(margin, ' ').append(text.substr(from, end - from));
    if (begins && text.substr(from).starts_with("- ")) hanging = 2;
    begins = end == line_end;
    from = end + 1;
  }
  return result;
}

}  // namespace ohmstead
