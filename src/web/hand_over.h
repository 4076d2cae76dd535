#pragma once
// The house as one file that needs nothing else: a page that can be read without scripts, the page's script for what-if and search,
// and the whole record, to be imported again. docs/hand-over.md says what is in it and how it is opened.

#include <cstdint>
#include <string>

#include "house/house.h"

namespace ohmstead::web {

struct HandOverOptions {
  std::int64_t revision = 0;
  std::string changed_at;       ///< UTC of the last change
  std::string date;             ///< YYYY-MM-DD, of this file
  bool without_private = false; ///< ask/without_private.h
  std::string style, script;    ///< of the page; without a script the file is read as it stands
  Pictures pictures = {};       ///< of photos; those that are not private are shown, smaller
};

/// Throws Error{invalid_input} where the wiring has no diagrams (feed/diagrams.h), or the script would end its own element.
[[nodiscard]] std::string hand_over_page(const House& house, const HandOverOptions& options);

}  // namespace ohmstead::web
