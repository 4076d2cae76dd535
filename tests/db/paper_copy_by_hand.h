#pragma once
// A second reader of paper copies, written from the page "How to read this without the program" alone: it shares no code with db.
// Only zlib (inflating) and a JSON library are used, as the page allows.

#include <string>
#include <vector>

namespace ohmstead::test {

/// The document, from the texts of at least K codes of one set; what is wrong as an exception of the standard library.
[[nodiscard]] std::string document_by_hand(const std::vector<std::string>& codes);

/// Product in the field of 256, by the rule of the page.
[[nodiscard]] unsigned product_by_hand(unsigned a, unsigned b);
/// CRC-32 by the rule of the page.
[[nodiscard]] unsigned crc32_by_hand(const std::string& bytes);

}  // namespace ohmstead::test
