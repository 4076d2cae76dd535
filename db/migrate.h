#pragma once
// The schema of the house file as numbered steps, and how a file is brought to the newest of them.

#include <cstdint>
#include <span>

namespace SQLite {
class Database;
}

namespace ohmstead {

/// "Ohms": stands in every house file, so that a file is known before its tables are looked at.
inline constexpr std::int32_t kApplicationId = 0x4F686D73;

/// One step. A released step is never edited; a change of the schema is a new step.
struct Migration {
  int to_version = 0;        ///< `user_version` after it; steps ascend by one
  const char* sql = nullptr;
};

/// The steps in db/schema, in order.
[[nodiscard]] std::span<const Migration> schema_steps();
/// `user_version` of a file that has had all of them.
[[nodiscard]] int newest_version();
/// `user_version` of the file.
[[nodiscard]] int version_of(SQLite::Database& db);
/// Throws Error{storage}, naming both numbers, if the file is newer than this program.
void refuse_newer(int have, int newest);

/// Brings `db` to the last of `steps`, one transaction for each step with its version inside it.
/// Throws Error{storage}; a step that fails leaves the file at the version before it.
void migrate(SQLite::Database& db, std::span<const Migration> steps);

}  // namespace ohmstead
