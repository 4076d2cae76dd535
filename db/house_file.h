#pragma once
// The house file: one SQLite file that holds one house and the list of its changes. It is complete
// at rest, and a change is on disk when `change` returns.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "db/history.h"
#include "db/pictures.h"
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

/// What the history says of a change, besides what it did.
struct ChangeNote {
  std::string what;
  std::string key = {};  ///< see HouseFile::change
  std::vector<std::int64_t> undoes = {}, redoes = {};
  std::vector<std::string> merged = {};   ///< marks of the changes that came with a merge, the other file's last one first
  const House* theirs = nullptr;          ///< with `merged`: the house that was merged in
  std::int64_t keep_bytes = kKeptHistoryBytes;
  Pictures pictures = {};  ///< that photos of the edited house name: kept with the change, or not at all
};

/// An open house file. Not for use by several threads at once, nor across a fork.
class HouseFile {
 public:
  /// Makes a new file with revision 1. Refuses an existing path; nothing is left behind on failure.
  /// A dwelling without an id is given one. Throws Error{storage}, or {invalid_input} if unsound.
  static HouseFile create(const std::filesystem::path& path, const Dwelling& dwelling);
  /// With the pictures of its photos, as far as they are there (require_pictures).
  static HouseFile create(const std::filesystem::path& path, const House& house, const Pictures& pictures = {});

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
  std::int64_t change(const ChangeNote& note, const std::function<void(House&)>& edit);
  /// Was a change with this key made?
  [[nodiscard]] bool taken(const std::string& key) const;
  /// This much of the file stays in memory when it was read, and no more (SQLite's own measure: 2 MiB). For who keeps a file open for
  /// hours; a change that touches more pages than that is slower.
  void hold_at_most(int kib);
  /// Who makes the changes from now on; empty: whom the rows that a change adds name, where it is one.
  void made_by(const std::string& who) { who_ = who; }

  /// The oldest revision that the house can be led back to: history is kept since version 5 of the file, and so far back as there is room.
  [[nodiscard]] std::int64_t oldest_kept() const;
  /// The house after that change; what was printed is as it is now. Throws Error{not_found} where there is no such revision or it
  /// is older than oldest_kept(), {storage} if the history is damaged.
  [[nodiscard]] House as_of(std::int64_t revision) const;
  /// What a change did; empty where that is not kept.
  [[nodiscard]] std::vector<RowChange> row_changes(std::int64_t revision) const;
  /// What every change did that names this id; 0: every change. Newest first.
  [[nodiscard]] std::vector<RowsOfChange> rows_naming(std::uint64_t id) const;
  /// What came in with merges, oldest first, and the house that such a one brought.
  [[nodiscard]] std::vector<MergedIn> merged() const;
  [[nodiscard]] House merged_house(std::int64_t revision) const;

  /// Bytes of the picture with this SHA-256, sound; nothing: it is not here. Throws Error{storage} if it is damaged.
  [[nodiscard]] std::optional<std::string> picture(const std::string& sha256) const;
  /// Those that photos of the house name and that are here.
  [[nodiscard]] Pictures pictures(const House& house) const;
  /// Drops the bytes that no photo names any more, for good. No change of the house.
  DroppedPictures forget_pictures();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  HouseFile(std::filesystem::path path, std::unique_ptr<SQLite::Database> db);

  template <class F>
  auto asked(const F& ask) const;
  [[nodiscard]] House back_to(std::int64_t revision) const;

  std::filesystem::path path_;
  std::unique_ptr<SQLite::Database> db_;
  std::string who_;
};

}  // namespace ohmstead
