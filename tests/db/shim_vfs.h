#pragma once
// A file system layer for SQLite that passes everything on to the real one, writes down what was
// done to the disk, and can fail on demand. While a ShimVfs lives, every database that is opened by
// its path goes through it.

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace ohmstead {

/// One thing done to the disk. Names are those of the files without their folder.
struct DiskAct {
  enum Kind { open, write, truncate, sync, remove, acknowledged } kind;
  std::string file = {};
  std::int64_t at = 0;        ///< offset of a write, size after a truncate, number acknowledged
  std::string bytes = {};
  bool folder_synced = false; ///< of a removal
};

/// What is to go wrong: act number `at` (from 1) that changes the disk fails with `code`.
struct FaultPlan {
  int at = 0;  ///< 0: nothing
  int code = 0;
  bool sticky = false;  ///< everything after it fails too
};

class ShimVfs {
 public:
  ShimVfs();
  ~ShimVfs();
  ShimVfs(const ShimVfs&) = delete;
  ShimVfs& operator=(const ShimVfs&) = delete;

  void set_plan(const FaultPlan& plan);
  [[nodiscard]] int acts_seen() const;  ///< since set_plan
  void acknowledge(std::int64_t number);
  [[nodiscard]] const std::vector<DiskAct>& log() const;
};

/// Files as they may stand after the power went, by name.
using DiskImage = std::map<std::string, std::string>;

/// What the disk keeps of its promises.
enum class Disk { honest, forgets_syncs, forgets_folder_syncs };

/// A disk after `count` acts of the log: what was synced is there; of the rest each write is kept,
/// lost or torn at 512 bytes, each removal kept or undone, by chance.
[[nodiscard]] DiskImage after_power_cut(const DiskImage& start, const std::vector<DiskAct>& log, std::size_t count,
                                        Disk disk, std::mt19937_64& random);

}  // namespace ohmstead
