#include "cli/wrapped.h"

#include <algorithm>

namespace ohmstead {

namespace {

constexpr std::size_t kNowhere = std::string_view::npos;

/// Where a line may end, at most `room` bytes on: between one key with its words and the next, three spaces or more apart, where it has such.
std::size_t last_gap(std::string_view line, std::size_t room) {
  const std::size_t wide = line.rfind("   ", room);
  const std::size_t before = wide == kNowhere ? kNowhere : line.find_last_not_of(' ', wide);
  return before == kNowhere ? line.rfind(' ', room) : before + 1;
}

}  // namespace

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
      const std::string_view line = text.substr(from, line_end - from);
      const std::size_t gap = last_gap(line, room);
      if (gap != kNowhere && gap > 0) end = from + gap;
    }
    if (from > 0) result += '\n';
    result.append(margin, ' ').append(text.substr(from, end - from));
    if (begins && text.substr(from).starts_with("- ")) hanging = 2;
    begins = end == line_end;
    from = begins ? end + 1 : std::min(text.find_first_not_of(' ', end), line_end);
  }
  return result;
}

}  // namespace ohmstead
