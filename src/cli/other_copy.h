#pragma once
// A house from a file that somebody else may have made: a house file, a JSON record, or a saved page with one inside.

#include <string>

#include "cli/command.h"
#include "db/stranger.h"

namespace ohmstead {

/// A path that ends in .house is a house file; anything else is a document ("-": standard input). Throws as what reads them.
[[nodiscard]] OtherCopy read_other_copy(Session& session, const std::string& path);

}  // namespace ohmstead
