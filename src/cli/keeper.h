#pragma once
// Keeps a session's house on disk: every answer is written before the next question is shown.

#include <cstdint>
#include <string>

#include "db/house_file.h"

namespace ohmstead {

class Keeper {
 public:
  explicit Keeper(HouseFile& file) : file_(file), revision_(file.revision()), kept_(file.load()) {}
  [[nodiscard]] const House& house() const { return kept_; }
  /// Of this house, never a later one: another program may have changed it since.
  [[nodiscard]] std::int64_t revision() const { return revision_; }

  /// Reads the house again. Has another program changed it since the last time?
  [[nodiscard]] bool changed_by_others();

  /// Writes `next`. Throws Error{conflict} if another program changed the house since the last
  /// time: the answer is then not saved, and theirs is not lost.
  void operator()(const std::string& what, const House& next);

 private:
  HouseFile& file_;
  std::int64_t revision_;
  House kept_;
};

}  // namespace ohmstead
