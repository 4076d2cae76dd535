#pragma once
// A copy of a house file that is whole, whatever is being written at the same moment.

#include <filesystem>

namespace ohmstead {

/// Copies the house file `from` to `to`, which must not exist. Never copy the file itself while a
/// program has it open: such copies are torn. Throws Error{storage} or {conflict}; `to` is whole or
/// not there.
void back_up(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace ohmstead
