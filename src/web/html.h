#pragma once
// Text as HTML: names of the record may hold anything, and are text wherever they stand.

#include <string>
#include <string_view>

namespace ohmstead::web {

/// With what means something in HTML escaped, for text and for attributes in double quotes. Control characters and direction overrides
/// are shown by their code points (ask/printable.h).
[[nodiscard]] std::string escaped(std::string_view text);

/// `<name attributes>text</name>`; `inner` is HTML already.
[[nodiscard]] std::string element(std::string_view name, std::string_view attributes, std::string_view inner);

/// JSON as the inside of a script element of another type than a script: `<` is escaped, so that nothing in it can end it.
[[nodiscard]] std::string json_in_html(std::string_view json);

}  // namespace ohmstead::web
