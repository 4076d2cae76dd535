#pragma once
// What most commands begin and end with.

#include "ask/answer_words.h"
#include "cli/command.h"
#include "db/house_file.h"

namespace ohmstead {

[[nodiscard]] HouseFile open_house(const Session& session, Access access);
/// The house of the session, or as it was with --as-of: then a line on `note` says so. Throws Error{not_found} for a revision or a
/// date of which nothing is kept.
[[nodiscard]] House load_house(const Session& session, const HouseFile& file, std::ostream& note);
/// The same with what follows from it.
[[nodiscard]] Record load_record(const Session& session);

/// Words of several arguments as one phrase.
[[nodiscard]] std::string phrase(const std::vector<std::string>& words);

/// How the house is supplied, from `--on-backup` (its source, where there are several).
[[nodiscard]] Supplied supplied_by(const Record& record, const Names& names, const Arguments& arguments);

/// Shows an answer: lines, or JSON with --json.
void show(Session& session, const Lines& lines);

/// Place of a point in house.points.
[[nodiscard]] std::size_t point_place(const House& house, Id<Point> id);

/// Bytes of a file, or of standard input for "-". Throws Error{storage}.
[[nodiscard]] std::string read_all(Session& session, const std::string& path, std::size_t most_bytes);

}  // namespace ohmstead
