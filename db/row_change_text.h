#pragma once
// One row change as the text that the file keeps of it (JSON, docs/file-format.md), and back.

#include <string>
#include <string_view>

#include "db/row_change.h"

namespace ohmstead {

/// Of kind, place, fields and order; table and id are columns of their own.
[[nodiscard]] std::string text_of_row_change(const RowChange& change);

/// Throws Error{storage} for what is no such text: the history of the file is damaged.
[[nodiscard]] RowChange row_change_of_text(const std::string& table, std::uint64_t id, std::string_view text);

}  // namespace ohmstead
