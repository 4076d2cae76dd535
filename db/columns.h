#pragma once
// The interchange document turned on its side: one column a field instead of one object a row, and the ids apart,
// because random ids do not compress. It takes a tenth of the room. docs/paper-copy.md describes it.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

/// Longest text of columns that is read, and longest document that is made of one, in bytes.
inline constexpr std::size_t kLongestColumns = 2'000'000;
inline constexpr std::size_t kLongestFromColumns = 24'000'000;

struct Columns {
  std::vector<std::uint64_t> ids;  ///< of every row, table after table, in the order of the document
  std::string text;                ///< JSON without a single id
};

/// The columns of a document as house_to_json writes it for a sound house.
[[nodiscard]] Columns columns_of_document(const std::string& document);

/// The same document again, byte for byte. Throws Error{invalid_input} for columns that nothing can be made of. Whatever they
/// say, the document does not grow over kLongestFromColumns.
[[nodiscard]] std::string document_of_columns(const Columns& columns);

}  // namespace ohmstead
