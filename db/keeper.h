#pragma once
// Keeps a session's house on disk: every answer is written before the next question is shown. Other programs may write into the same
// file meanwhile. What was printed belongs to the file and not to the session: it is neither a change nor ever lost.

#include <cstdint>
#include <memory>
#include <string>

#include "db/house_file.h"

namespace ohmstead {

class Keeper {
 public:
  /// Keep the file alive.
  explicit Keeper(HouseFile& file);
  [[nodiscard]] const House& house() const { return *kept_; }
  /// The same, for who shows it to others; it stays as it is.
  [[nodiscard]] std::shared_ptr<const House> shared() const { return kept_; }
  /// Of this house, never a later one: another program may have changed it since.
  [[nodiscard]] std::int64_t revision() const { return revision_; }

  /// Has another program changed the house since the last time? Then house() is theirs. Costs next to nothing while nobody writes.
  [[nodiscard]] bool changed_by_others();

  /// Writes `next`; `key` as in HouseFile::change. Throws Error{conflict} if another program changed the house since the last
  /// time: the answer is then not saved, and theirs is not lost.
  void operator()(const std::string& what, const House& next, const std::string& key = "");

 private:
  void load();

  HouseFile& file_;
  std::int64_t version_ = 0, revision_ = 0;
  std::shared_ptr<const House> kept_;
};

}  // namespace ohmstead
