#pragma once
// What is said on a card, from the record: the head, the main breaker, the key and the caution.

#include "feed/feeds.h"
#include "print/directory.h"
#include "print/directory_page.h"

namespace ohmstead {

/// Throws Error{not_found} if the house has no such panel.
[[nodiscard]] CardContent card_content(const House& house, const Feeds& feeds, const DirectoryOptions& options);

}  // namespace ohmstead
