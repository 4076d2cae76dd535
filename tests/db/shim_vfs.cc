#include "shim_vfs.h"

#include <sqlite3.h>

#include <cstring>
#include <filesystem>
#include <new>

namespace ohmstead {

namespace {

struct Shared {
  sqlite3_vfs vfs = {};
  sqlite3_vfs* real = nullptr;
  FaultPlan plan;
  int acts = 0;
  std::vector<DiskAct> log;
} shared;

struct ShimFile {
  sqlite3_file base;
  std::string* name;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

ShimFile* shim(sqlite3_file* file) { return reinterpret_cast<ShimFile*>(file); }
sqlite3_file* real(sqlite3_file* file) { return shim(file)->real(); }

/// Must the act that is about to happen fail?
bool must_fail() {
  ++shared.acts;
  return shared.plan.at != 0 && (shared.acts == shared.plan.at || (shared.plan.sticky && shared.acts > shared.plan.at));
}

int close_file(sqlite3_file* file) {
  const int code = real(file)->pMethods->xClose(real(file));
  delete shim(file)->name;
  return code;
}
int read_bytes(sqlite3_file* f, void* to, int n, sqlite3_int64 at) { return real(f)->pMethods->xRead(real(f), to, n, at); }
int write_bytes(sqlite3_file* f, const void* from, int n, sqlite3_int64 at) {
  if (must_fail()) return shared.plan.code;
  shared.log.push_back({DiskAct::write, *shim(f)->name, at, {static_cast<const char*>(from), static_cast<std::size_t>(n)}});
  return real(f)->pMethods->xWrite(real(f), from, n, at);
}
int truncate_file(sqlite3_file* f, sqlite3_int64 size) {
  if (must_fail()) return shared.plan.code;
  shared.log.push_back({DiskAct::truncate, *shim(f)->name, size});
  return real(f)->pMethods->xTruncate(real(f), size);
}
int sync_file(sqlite3_file* f, int flags) {
  if (must_fail()) return shared.plan.code;
  shared.log.push_back({DiskAct::sync, *shim(f)->name});
  return real(f)->pMethods->xSync(real(f), flags);
}
int file_size(sqlite3_file* f, sqlite3_int64* size) { return real(f)->pMethods->xFileSize(real(f), size); }
int lock(sqlite3_file* f, int level) { return real(f)->pMethods->xLock(real(f), level); }
int unlock(sqlite3_file* f, int level) { return real(f)->pMethods->xUnlock(real(f), level); }
int reserved(sqlite3_file* f, int* out) { return real(f)->pMethods->xCheckReservedLock(real(f), out); }
int control(sqlite3_file* f, int op, void* arg) { return real(f)->pMethods->xFileControl(real(f), op, arg); }
int sector(sqlite3_file* f) { return real(f)->pMethods->xSectorSize(real(f)); }
int traits(sqlite3_file* f) { return real(f)->pMethods->xDeviceCharacteristics(real(f)); }

const sqlite3_io_methods kMethods = {1,         close_file, read_bytes, write_bytes, truncate_file, sync_file, file_size,
                                     lock,      unlock,     reserved,   control,     sector,        traits,
                                     nullptr, nullptr, nullptr, nullptr, nullptr, nullptr};

int open_file(sqlite3_vfs*, const char* path, sqlite3_file* file, int flags, int* out_flags) {
  ShimFile* opened = shim(file);
  opened->base.pMethods = nullptr;
  if ((flags & SQLITE_OPEN_MAIN_JOURNAL) != 0 && must_fail()) return SQLITE_CANTOPEN;
  const int code = shared.real->xOpen(shared.real, path, opened->real(), flags, out_flags);
  if (code != SQLITE_OK) return code;
  opened->name = new std::string(path == nullptr ? "" : std::filesystem::path(path).filename().string());
  shared.log.push_back({DiskAct::open, *opened->name});
  opened->base.pMethods = &kMethods;
  return SQLITE_OK;
}

int remove_file(sqlite3_vfs*, const char* path, int sync_folder) {
  if (must_fail()) return shared.plan.code == SQLITE_FULL ? SQLITE_IOERR_DELETE : shared.plan.code;
  shared.log.push_back({DiskAct::remove, std::filesystem::path(path).filename().string(), 0, {}, sync_folder != 0});
  return shared.real->xDelete(shared.real, path, sync_folder);
}

/// One file of a disk that may lose power: its bytes that are safe, and what is on the way to it.
struct Tracked {
  std::string safe;
  bool exists = false;         ///< safely
  std::vector<DiskAct> waiting;
};

void apply(std::string& bytes, const DiskAct& act, std::size_t length) {
  if (act.kind == DiskAct::truncate) return bytes.resize(static_cast<std::size_t>(act.at));
  const auto at = static_cast<std::size_t>(act.at);
  if (bytes.size() < at + length) bytes.resize(at + length);
  bytes.replace(at, length, act.bytes, 0, length);
}

void make_safe(Tracked& file) {
  for (const DiskAct& act : file.waiting) {
    if (act.kind == DiskAct::open) file.exists = true;
    else if (act.kind == DiskAct::remove) file.exists = false, file.safe.clear();
    else apply(file.safe, act, act.bytes.size());
  }
  file.waiting.clear();
}

/// Keeps, loses or tears each thing that was on the way.
void lose_power(Tracked& file, std::mt19937_64& random) {
  for (const DiskAct& act : file.waiting) {
    const auto fate = random() % 3;
    if (fate == 0) continue;
    if (act.kind == DiskAct::open) file.exists = true;
    else if (act.kind == DiskAct::remove) file.exists = false, file.safe.clear();
    else apply(file.safe, act, fate == 1 ? act.bytes.size() : random() % (act.bytes.size() / 512 + 1) * 512);
  }
}

}  // namespace

ShimVfs::ShimVfs() {
  shared.real = sqlite3_vfs_find(nullptr);
  shared.vfs = *shared.real;
  shared.vfs.pNext = nullptr;
  shared.vfs.zName = "shim";
  shared.vfs.szOsFile = static_cast<int>(sizeof(ShimFile)) + shared.real->szOsFile;
  shared.vfs.xOpen = open_file;
  shared.vfs.xDelete = remove_file;
  shared.log.clear();
  set_plan({});
  sqlite3_vfs_register(&shared.vfs, 1);
}

ShimVfs::~ShimVfs() {
  sqlite3_vfs_unregister(&shared.vfs);
  sqlite3_vfs_register(shared.real, 1);
}

void ShimVfs::set_plan(const FaultPlan& plan) { shared.plan = plan, shared.acts = 0; }
int ShimVfs::acts_seen() const { return shared.acts; }
void ShimVfs::acknowledge(std::int64_t number) { shared.log.push_back({DiskAct::acknowledged, {}, number}); }
const std::vector<DiskAct>& ShimVfs::log() const { return shared.log; }

DiskImage after_power_cut(const DiskImage& start, const std::vector<DiskAct>& log, std::size_t count, Disk disk,
                          std::mt19937_64& random) {
  std::map<std::string, Tracked> files;
  for (const auto& [name, bytes] : start) files[name] = {bytes, true, {}};
  for (std::size_t i = 0; i < count; ++i) {
    const DiskAct& act = log[i];
    if (act.kind == DiskAct::acknowledged) continue;
    Tracked& file = files[act.file];
    if (act.kind == DiskAct::sync) {
      if (disk != Disk::forgets_syncs) make_safe(file);
      continue;
    }
    if (act.kind == DiskAct::open && file.exists && file.waiting.empty()) continue;
    file.waiting.push_back(act);
    if (act.kind == DiskAct::remove && act.folder_synced && disk == Disk::honest) make_safe(file);
  }
  DiskImage image;
  for (auto& [name, file] : files) {
    lose_power(file, random);
    if (file.exists) image[name] = file.safe;
  }
  return image;
}

}  // namespace ohmstead
