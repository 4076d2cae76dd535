// What the disk, the power, other programs and missing rights can do to a house file: nothing that
// was acknowledged is lost, and no file is left damaged.

#include <fcntl.h>
#include <gmock/gmock.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <SQLiteCpp/SQLiteCpp.h>

#include <functional>

#include "db/check.h"
#include "db/house_file.h"
#include "shim_vfs.h"
#include "temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

/// Change number `i` of a long session: rows are added, changed and taken away in several tables.
void edit(House& house, int i) {
  house.settings.push_back({Id<Setting>::fresh(), "setting " + std::to_string(i), std::string(150, 'v')});
  house.rooms[static_cast<std::size_t>(i) % house.rooms.size()].name = "Room " + std::to_string(i) + " renamed";
  if (i % 5 == 4) house.settings.erase(house.settings.begin(), house.settings.begin() + 3);
}

/// Runs `act` in a process of its own; its number comes back (128 + signal if it was killed).
int in_child(const std::function<int()>& act) {
  const pid_t child = ::fork();
  if (child == 0) {
    begin_ids_anew();
    int code = 99;
    try {
      code = act();
    } catch (const std::exception& e) {
      std::fprintf(stderr, "%s\n", e.what());
    }
    ::_exit(code);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/// Gives up the rights of root, which ignore the modes of files. True if modes now count.
bool become_nobody() { return ::geteuid() != 0 || (::setgid(65534) == 0 && ::setuid(65534) == 0); }

struct Outcome {
  bool threw = false;
  bool changed = false;  ///< as the file says afterwards
  bool reached = false;  ///< the planned failure happened
};

Outcome change_with_fault(const fs::path& path, ShimVfs& shim, const FaultPlan& plan) {
  Outcome outcome;
  shim.set_plan(plan);
  try {
    HouseFile::open(path, Access::change).change("edited", [](House& h) { edit(h, 1); });
  } catch (const Error& e) {
    EXPECT_EQ(e.kind, ErrorKind::storage) << e.what();
    outcome.threw = true;
  }
  outcome.reached = shim.acts_seen() >= plan.at;
  shim.set_plan({});
  EXPECT_THAT(check_house_file(path), ::testing::IsEmpty());
  outcome.changed = HouseFile::open(path, Access::read).revision() == 2;
  EXPECT_TRUE(outcome.reached || outcome.changed);
  return outcome;
}

TEST(Faults, the_nth_failing_write_loses_nothing_and_damages_nothing) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  HouseFile::create(path, random_house(5, 4));
  const std::string start = read_file(path);
  ShimVfs shim;
  int points = 0, kept_although_refused = 0;
  for (const bool sticky : {false, true})
    for (const int code : {SQLITE_IOERR_WRITE, SQLITE_FULL})
      for (int n = 1;; ++n) {
        write_file(path, start);
        fs::remove(path.string() + "-journal");
        const Outcome outcome = change_with_fault(path, shim, {n, code, sticky});
        EXPECT_TRUE(outcome.threw || outcome.changed) << n;
        kept_although_refused += outcome.threw && outcome.changed;
        if (!outcome.reached) break;
        ++points;
      }
  std::printf("%d points of failure, %d changes kept although an error was reported\n", points, kept_although_refused);
  EXPECT_GT(points, 40);
  EXPECT_EQ(kept_although_refused, 0);
}

/// A session of changes under a shim, and every state that was acknowledged.
struct Recorded {
  DiskImage start;
  std::vector<DiskAct> log;
  std::vector<House> states;  ///< at revision 1, 2, ...
};

Recorded record_session(const TempFolder& folder, int changes) {
  Recorded recorded;
  const fs::path path = folder / "a.house";
  HouseFile::create(path, random_house(5, 4));
  recorded.start["a.house"] = read_file(path);
  ShimVfs shim;
  HouseFile file = HouseFile::open(path, Access::change);
  recorded.states.push_back(file.load());
  for (int i = 0; i < changes; ++i) {
    shim.acknowledge(file.change("edited", [&](House& h) { edit(h, i); }));
    recorded.states.push_back(file.load());
  }
  recorded.log = shim.log();
  return recorded;
}

struct Damage {
  int damaged = 0, missing = 0;
};

Damage cut_power(const Recorded& recorded, Disk disk, int images) {
  Damage damage;
  std::mt19937_64 random(11);
  for (int i = 0; i < images; ++i) {
    const std::size_t count = random() % (recorded.log.size() + 1);
    std::int64_t acknowledged = 1;
    for (std::size_t k = 0; k < count; ++k)
      if (recorded.log[k].kind == DiskAct::acknowledged) acknowledged = recorded.log[k].at;
    const TempFolder folder;
    for (const auto& [name, bytes] : after_power_cut(recorded.start, recorded.log, count, disk, random)) write_file(folder / name, bytes);
    try {
      const HouseFile file = HouseFile::open(folder / "a.house", Access::change);
      const House house = file.load();
      const std::int64_t revision = file.revision();
      const bool whole = check_house_file(folder / "a.house").empty() && recorded.states.at(static_cast<std::size_t>(revision) - 1) == house;
      damage.damaged += !whole;
      damage.missing += revision < acknowledged;
    } catch (const std::exception&) {
      ++damage.damaged;
    }
  }
  std::printf("%d power cuts: %d damaged, %d without an acknowledged change\n", images, damage.damaged, damage.missing);
  return damage;
}

TEST(Faults, a_power_cut_damages_nothing_and_loses_no_acknowledged_change) {
  const TempFolder folder;
  const Damage damage = cut_power(record_session(folder, 12), Disk::honest, 600);
  EXPECT_EQ(damage.damaged, 0);
  EXPECT_EQ(damage.missing, 0);
}

/// Without these the test above would prove nothing: the same method finds the damage that missing
/// syncs do (synchronous OFF), and the lost change where the folder is not synced (synchronous FULL).
TEST(Faults, the_power_cut_method_finds_what_missing_syncs_do) {
  const TempFolder folder;
  const Recorded recorded = record_session(folder, 12);
  EXPECT_GT(cut_power(recorded, Disk::forgets_syncs, 200).damaged, 20);
  const Damage no_folder_sync = cut_power(recorded, Disk::forgets_folder_syncs, 600);
  EXPECT_GT(no_folder_sync.missing, 0);
}

TEST(Faults, a_killed_writer_loses_no_acknowledged_change) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  HouseFile::create(path, random_house(5, 4));
  std::mt19937_64 random(5);
  std::int64_t last = 1;
  unsigned window = 60'000;  // microseconds; longer on a slow machine, where nothing is acknowledged in it
  for (int kill_number = 0; kill_number < 60 || (last <= 5 && kill_number < 300); ++kill_number) {
    int ends[2];
    ASSERT_EQ(::pipe2(ends, O_CLOEXEC), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      begin_ids_anew();
      HouseFile file = HouseFile::open(path, Access::change);
      for (int i = 0;; ++i) {
        const std::int64_t revision = file.change("edited", [&](House& h) { h.dwelling.name = "Name " + std::to_string(i % 7); });
        if (::write(ends[1], &revision, sizeof revision) != sizeof revision) ::_exit(1);
      }
    }
    ::close(ends[1]);
    ::usleep(static_cast<useconds_t>(5000 + random() % window));
    ::kill(child, SIGKILL);
    const std::int64_t before = last;
    ::waitpid(child, nullptr, 0);
    for (std::int64_t revision = 0; ::read(ends[0], &revision, sizeof revision) == sizeof revision;) last = revision;
    ::close(ends[0]);
    if (last == before && window < 1'000'000) window += window / 4;
    ASSERT_GE(HouseFile::open(path, Access::read).revision(), last);
    ASSERT_TRUE(check_house_file(path).empty());
  }
  std::printf("kills within %u microseconds, %ld changes acknowledged\n", window, static_cast<long>(last - 1));
  EXPECT_GT(last, 5);  // else the kills came before anything was acknowledged
}

/// A change that is refused because another program is writing is made again, as the message asks.
void change_in_turn(HouseFile& file, const std::function<void(House&)>& edit_house) {
  constexpr int kMostTries = 10;
  for (int tries = 1;; ++tries) try {
      file.change("added", edit_house);
      return;
    } catch (const Error& error) {
      if (error.kind != ErrorKind::conflict || tries == kMostTries) throw;
    }
}

TEST(Faults, several_writers_at_once_all_get_their_changes_in) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  HouseFile::create(path, random_house(5, 3));
  const std::size_t before = HouseFile::open(path, Access::read).load().settings.size();
  const int failed = in_child([&] {
    std::vector<pid_t> children;
    for (int writer = 0; writer < 4; ++writer) {
      const pid_t child = ::fork();
      if (child != 0) {
        children.push_back(child);
        continue;
      }
      begin_ids_anew();
      HouseFile file = HouseFile::open(path, Access::change);
      for (int i = 0; i < 10; ++i)
        change_in_turn(file, [&](House& h) {
          h.settings.push_back({Id<Setting>::fresh(), "w" + std::to_string(writer) + "-" + std::to_string(i), "x"});
        });
      ::_exit(0);
    }
    int bad = 0;
    for (const pid_t child : children) {
      int status = 1;
      ::waitpid(child, &status, 0);
      bad += status != 0;
    }
    return bad;
  });
  EXPECT_EQ(failed, 0);
  const HouseFile file = HouseFile::open(path, Access::read);
  EXPECT_EQ(file.revision(), 41);
  EXPECT_EQ(file.load().settings.size(), before + 40);
}

TEST(Faults, a_writer_that_waits_too_long_says_so_and_changes_nothing) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  HouseFile file = HouseFile::create(path, random_house(5, 3));
  SQLite::Database other(path, SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  EXPECT_THAT(message_of(ErrorKind::conflict, [&] { file.change("late", [](House& h) { edit(h, 1); }); }), HasSubstr("Another program is writing"));
  EXPECT_EQ(file.load(), HouseFile::open(path, Access::read).load());
  other.exec("ROLLBACK");
  EXPECT_EQ(file.change("now", [](House& h) { edit(h, 1); }), 2);
}

TEST(Faults, a_file_or_folder_without_the_right_to_write_can_be_read_and_says_so) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  const House house = random_house(5, 3);
  HouseFile::create(path, house);
  const std::string bytes = read_file(path);
  fs::permissions(path, fs::perms(0444));
  fs::permissions(folder.path(), fs::perms(0555));
  const auto read_and_fail = [&](const char* words) {
    return in_child([&] {
      if (!become_nobody()) return 10;
      if (HouseFile::open(path, Access::read).load() != house) return 11;
      try {
        HouseFile::open(path, Access::change).change("edited", [](House& h) { edit(h, 1); });
        return 12;
      } catch (const Error& e) {
        return e.kind == ErrorKind::storage && std::string(e.what()).find(words) != std::string::npos ? 0 : (std::puts(e.what()), 13);
      }
    });
  };
  EXPECT_EQ(read_and_fail("the file is read-only"), 0);
  fs::permissions(path, fs::perms(0666));  // now only the folder forbids it
  EXPECT_EQ(read_and_fail("cannot be"), 0);
  fs::permissions(folder.path(), fs::perms(0755));
  EXPECT_EQ(read_file(path), bytes);
}

TEST(Faults, a_file_size_limit_is_reported_and_everything_before_it_is_kept) {
  const TempFolder folder;
  const fs::path path = folder / "a.house";
  HouseFile::create(path, random_house(5, 3));
  const auto limit = static_cast<rlim_t>(fs::file_size(path) + 60'000);  // a note is in the index, too
  EXPECT_EQ(in_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit size{limit, limit};
    if (::setrlimit(RLIMIT_FSIZE, &size) != 0) return 10;
    HouseFile file = HouseFile::open(path, Access::change);
    const auto grow = [](House& h) { h.notes.push_back({Id<Note>::fresh(), {}, std::string(9000, 'n')}); };
    for (int i = 0; i < 20; ++i) {
      try {
        file.change("grown", grow);
      } catch (const Error& e) {
        return e.kind == ErrorKind::storage && file.revision() == 1 + i && i > 0 ? 0 : 11;
      }
    }
    return 12;
  }), 0);
  EXPECT_TRUE(check_house_file(path).empty());
  EXPECT_GT(HouseFile::open(path, Access::read).revision(), 1);
}

TEST(Faults, a_full_disk_is_reported_and_everything_before_it_is_kept) {
  const TempFolder folder;
  const int code = in_child([&] {
    if (::unshare(CLONE_NEWNS) != 0 || ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) return 77;
    if (::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=900k") != 0) return 77;
    HouseFile file = HouseFile::create(folder / "a.house", random_house(5, 3));
    for (int i = 0; i < 60; ++i) {
      try {
        file.change("grown", [](House& h) { h.notes.push_back({Id<Note>::fresh(), {}, std::string(9000, 'n')}); });
      } catch (const Error& e) {
        const bool said = std::string(e.what()).find("is full") != std::string::npos;
        return said && i > 0 && file.revision() == 1 + i && check_house_file(folder / "a.house").empty() ? 0 : 11;
      }
    }
    return 12;
  });
  if (code == 77) GTEST_SKIP() << "a small disk can be mounted by root only";
  EXPECT_EQ(code, 0);
}

}  // namespace
}  // namespace ohmstead
