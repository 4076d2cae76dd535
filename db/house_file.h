#pragma once
// The house file: one SQLite file that holds one house and the list of its changes. It is complete
// at rest, and a change is on disk when `change` returns.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "house/house.h"

namespace SQLite {
class Database;
}

namespace ohmstead {

enum class Access {
  read,    ///< never writes; a file of an older version is brought up to date in memory only
  change,  ///< an older file is copied beside itself (NAME.before-vN), then brought up to date
};

inline constexpr std::size_t kLongestKey = 64, kKeptKeys = 10'000;

/// One line of the file's list of changes.
struct FileChange {
  std::int64_t revision = 0;
  std::string at;    ///< UTC
  std::string what;  ///< what was done
};

/// An open house file. Not for use by several threads at once, nor across a fork.
class HouseFile {
 public:
  /// Makes a new file with revision 1. Refuses an existing path; nothing is left behind on failure.
  /// A dwelling without an id is given one. Throws Error{storage}, or {invalid_input} if unsound.
  static HouseFile create(const std::filesystem::path& path, const Dwelling& dwelling);
  static HouseFile create(const std::filesystem::path& path, const House& house);

  /// Throws Error{storage} with one sentence for whatever is not a house file of ours: nothing
  /// there, a folder, a link, an empty or foreign or newer file, a file that may not be written.
  static HouseFile open(const std::filesystem::path& path, Access access);

  HouseFile(HouseFile&&) noexcept;
  HouseFile& operator=(HouseFile&&) noexcept;
  ~HouseFile();

  /// The house, all of one moment. Throws Error{storage} if what the file holds is not sound.
  [[nodiscard]] House load() const;

  /// 1 after create, one more with each change.
  [[nodiscard]] std::int64_t revision() const;
  /// A number that is another one whenever another connection has written into the file since. Says nothing of this one's own changes.
  [[nodiscard]] std::int64_t version_of_others() const;
  /// UTC of the last change, `2026-11-25T09:30:00Z`.
  [[nodiscard]] std::string changed_at() const;
  /// Every change, oldest first.
  [[nodiscard]] std::vector<FileChange> changes() const;

  /// One change, all or nothing: takes the file (waiting up to 5 s for another writer), loads the
  /// house, lets `edit` change it, checks it, writes the rows that differ and one row that says
  /// `what` was done, commits. What was printed is no change of the record: if nothing else differs, it is written and the
  /// revision stays. Returns the new revision, or the old one if nothing differs (then
  /// nothing is written). What `edit` throws goes through, and nothing is changed. Throws
  /// Error{conflict} if another program holds the file, {invalid_input} if the edited house is not
  /// sound, {storage} if it cannot be written.
  /// With a `key` (kLongestKey bytes at most), which its sender drew for this request: it is kept with the change, and a change
  /// with a key that was taken before is not done again. The newest kKeptKeys are known.
  std::int64_t change(const std::string& what, const std::function<void(House&)>& edit, const std::string& key = "");
  /// Was a change with this key made?
  [[nodiscard]] bool taken(const std::string& key) const;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  HouseFile(std::filesystem::path path, std::unique_ptr<SQLite::Database> db);

  std::filesystem::path path_;
  std::unique_ptr<SQLite::Database> db_;
};

}  // namespace ohmstead
