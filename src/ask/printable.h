#pragma once
// Names from the record, made safe for a terminal or a log, with what was wrong left visible.

#include <string>
#include <string_view>

namespace ohmstead::terminal {

/// The text with every C0 and C1 control, DEL, direction override, invisible mark and line or
/// paragraph separator replaced by its code point in angle brackets, such as "<U+001B>", and every
/// byte that is not UTF-8 by "<byte FF>". Ordinary text comes back as it is. The result is always
/// UTF-8 on one line. (rules/plain_words.h has one for labels that hides what was wrong.)
[[nodiscard]] std::string printable(std::string_view text);

}  // namespace ohmstead::terminal
