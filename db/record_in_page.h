#pragma once
// The record inside a saved page: written there by `hand-over`, and taken out again, from a file that anybody may have changed.

#include <string>
#include <string_view>

#include "house/house.h"

namespace ohmstead {

/// The interchange document as an element of a page, on one line; `<` is escaped, so that no name can end it.
[[nodiscard]] std::string record_element(const House& house);

/// SHA-256 of the record's interchange document, in hexadecimal: it stands on the page, too.
[[nodiscard]] std::string record_digest(const House& house);

/// Does the text look like a page? (Its first sign is '<'; a document of the record begins with '{'.)
[[nodiscard]] bool is_page(std::string_view text);

/// The house of a saved page, all or nothing. Throws Error{invalid_input}: there is no record in it, or several; it is cut off; it
/// was changed since it was written; or as house_from_json.
[[nodiscard]] House house_from_page(std::string_view page);

}  // namespace ohmstead
