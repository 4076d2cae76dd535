#include "web/terminal_code.h"

#include "print/code.h"

namespace ohmstead::web {

std::string terminal_code(const std::string& text, bool colours) {
  const QrCode code = make_code(text, Correction::medium);
  const auto is_light = [&](int x, int y) {
    const bool inside = x >= 0 && y >= 0 && x < code.modules && y < code.modules;
    return !inside || !code.is_dark(x, y);
  };
  // Each character is two squares, one above the other: both light, the upper, the lower, none.
  constexpr const char* kBlocks[] = {" ", "▄", "▀", "█"};
  std::string lines;
  for (int y = -kQuietModules; y < code.modules + kQuietModules; y += 2) {
    if (colours) lines += "\x1b[97;40m";  // white on black: the blocks are the light squares
    for (int x = -kQuietModules; x < code.modules + kQuietModules; ++x)
      lines += kBlocks[(is_light(x, y) ? 2 : 0) + (is_light(x, y + 1) ? 1 : 0)];
    lines += colours ? "\x1b[0m\n" : "\n";
  }
  return lines;
}

}  // namespace ohmstead::web
