#pragma once
// Text in lines that a terminal of 80 columns does not break in the middle of a word.

#include <string>
#include <string_view>

namespace ohmstead {

/// `text` with every line `indent` columns in and at most `width` bytes long where its words allow it.
/// A line that begins with "- " goes on two columns further in. A line of parts that are three spaces or more apart, such as keys with what
/// they do, ends between these. No line break at the end.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t indent, std::size_t width = 78);

}  // namespace ohmstead
