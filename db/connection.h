#pragma once
// Opening a house file as SQLite: what may lie at the path, and the settings of a connection.

#include <cstdint>
#include <filesystem>
#include <memory>

#include "db/house_file.h"

namespace ohmstead {

/// Milliseconds that a writer waits for another.
inline constexpr int kBusyTimeoutMs = 5000;

/// Throws Error{storage} unless a regular, non-empty file lies at `path`. Does not open it.
void require_regular_file(const std::filesystem::path& path);

/// An open, checked and current database: ours (application_id), not newer than this program, and
/// set as every connection is. Throws Error{storage} or {conflict}.
[[nodiscard]] std::unique_ptr<SQLite::Database> open_database(const std::filesystem::path& path, Access access);

/// journal_mode DELETE, synchronous EXTRA, foreign keys on; each set and read back.
void set_up_for_writing(SQLite::Database& db);

/// Throws Error{storage} if application_id is not ours, or the version is newer than `newest`.
void require_our_file(SQLite::Database& db, const std::filesystem::path& path, int newest);

/// A copy of the file as it is, made by VACUUM INTO; `to` must not exist. Written through a file
/// beside it, so `to` is whole or not there. Throws Error{storage}.
void copy_database(SQLite::Database& db, const std::filesystem::path& to);

}  // namespace ohmstead
