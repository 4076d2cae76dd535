#pragma once
// The house as the page sees it: one JSON object, made from the record and the answers of src/ask, which is served, or stands in
// the file that is handed over. docs/page-api.md describes every field; nothing of the house is computed in the page.

#include <cstdint>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "ask/names.h"
#include "ask/record.h"

namespace ohmstead::web {

struct HouseViewOptions {
  std::int64_t revision = 0;
  std::string changed_at;       ///< UTC of the last change
  bool is_private = true;       ///< private notes are in it
  bool for_file = false;        ///< with the answers in sentences and the sheet for an outage, for there is no server to ask
};

/// `names` are those of the record's house. Throws Error{invalid_input} where the wiring has no diagrams (feed/diagrams.h).
[[nodiscard]] nlohmann::ordered_json house_view(const Record& record, const Names& names, const HouseViewOptions& options);
/// As text on one line, without an end of line.
[[nodiscard]] std::string house_view_text(const Record& record, const Names& names, const HouseViewOptions& options);

}  // namespace ohmstead::web
