#pragma once
// The house as one JSON document, for other programs and for keeping. docs/interchange.md describes
// it; docs/interchange.schema.json says the same to a machine.

#include <string>
#include <string_view>

#include "db/pictures.h"
#include "house/house.h"

namespace ohmstead {

/// Value of "version" in the document.
inline constexpr int kInterchangeVersion = 5;
/// Longest document that is read, in bytes, and how deeply its values may be nested.
inline constexpr std::size_t kLongestDocument = 64'000'000;
inline constexpr int kDeepestRecord = 32;

/// Every row and every field, in the order of the tables and fields; two spaces of indent; ends in a
/// newline. The same house always gives the same bytes. Throws Error{invalid_input} for a text that
/// is not UTF-8.
/// With pictures of its photos: they stand behind the tables, in base 64.
[[nodiscard]] std::string house_to_json(const House& house, const Pictures& pictures = {});

/// The house of a document, all or nothing. A field that is left out has its usual value; a row's id
/// may not be left out. Throws Error{invalid_input} that names the place of the bad value, such as
/// `breaker[4].space`: not JSON, another format or version, too long, too deep, a key twice, an
/// unknown key, a wrong value, or a house that cannot be (require_sound), or pictures that are not those of its photos (require_pictures). The pictures come back in
/// `pictures`, if that is given.
[[nodiscard]] House house_from_json(std::string_view text, Pictures* pictures = nullptr);

}  // namespace ohmstead
