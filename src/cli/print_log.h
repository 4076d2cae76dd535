#pragma once
// What was printed is written down, so that a sheet or label can be told from one that is no longer true. Linked into
// `ohmstead-print` only.

#include "cli/command.h"
#include "db/house_file.h"
#include "print/check_code.h"

namespace ohmstead {

/// In a session that only asks what would be printed: keeps the items there and is true. A printing command then ends at once.
[[nodiscard]] bool only_asked(Session& session, const std::vector<PrintedItem>& items);

/// The words that print the same again, without the file to write, the picture and the date: {"paper", "wall", "--sheet", "a4"}.
[[nodiscard]] std::vector<std::string> words_again(const std::string& command, const Arguments& arguments);

/// An option with its value as words, also if the value looks like an option itself: {"--shift=-1,0"}.
void add_option(std::vector<std::string>& words, const std::string& name, const std::string& value);

/// Writes down that these items were printed now by this command; a row that says the same of an earlier day gives way, so that printing
/// the same again does not make the record, and its paper copy, longer. A house file that cannot be written to is told in a note: the
/// print itself is good. `revision` is that of the record that was printed.
void log_printed(Session& session, const HouseFile& file, const std::vector<std::string>& again, const std::vector<PrintedItem>& items);

/// What some words would print now.
struct ItemsNow {
  std::vector<PrintedItem> items;
  std::string refused;  ///< why nothing; empty: they can be printed
};
/// Nothing is written. At the revision `session.as_of`, if it names one. Words that are not of a printing command, or name a file, are refused: they may come from a stranger's house file.
[[nodiscard]] ItemsNow items_now(const Session& session, const std::vector<std::string>& words);

/// The same, for what was printed of the record as it was at `session.as_of` if that names a revision. Throws what log_printed tells in a note.
void keep_printed(const Session& session, const HouseFile& file, const std::vector<std::string>& again, const std::vector<PrintedItem>& items);

/// What a printing command prints: the house now; or, for a session that only asks, as it was at the revision `as_of`. Throws
/// Error{not_found} where that is not kept any more.
[[nodiscard]] House house_to_print(const Session& session, const HouseFile& file);
[[nodiscard]] std::int64_t revision_to_print(const Session& session, const HouseFile& file);

/// The words as they are kept in the record, and back; none for what is not such a list.
[[nodiscard]] std::string kept_words(const std::vector<std::string>& words);
[[nodiscard]] std::vector<std::string> words_kept(const std::string& text);

}  // namespace ohmstead
