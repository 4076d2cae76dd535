#pragma once
// A QR code as text, for a phone's camera in front of the terminal.

#include <string>

namespace ohmstead::web {

/// Lines of half blocks, quiet zone included. With `colours` black on white by terminal colours, whatever the terminal's own are; without
/// them light squares are drawn, which is right on a dark terminal (most phones read the reverse as well).
[[nodiscard]] std::string terminal_code(const std::string& text, bool colours);

}  // namespace ohmstead::web
