#include "web/child.h"

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>
#include <thread>

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds;

const std::atomic<bool> kGoOn{false};

ChildResult shell(const std::string& script, const ChildLimits& limits = {}, const std::atomic<bool>& stop = kGoOn) { return run_child({"/bin/sh", "-c", script}, limits, stop); }

TEST(Child, what_it_says_is_kept_byte_for_byte) {
  const ChildResult result = run_child({"/usr/bin/printf", "%s|%s\\n", "a b", "$HOME; `id`"}, {}, kGoOn);
  EXPECT_EQ(result.end, ChildEnd::done);
  EXPECT_EQ(result.code, 0);
  EXPECT_EQ(result.out, "a b|$HOME; `id`\n") << "no shell reads the words";
  EXPECT_EQ(shell("head -c 300000 /dev/zero").out, std::string(300'000, '\0'));
}

TEST(Child, a_program_that_fails_is_told_from_one_that_is_not_there) {
  const ChildResult failed = shell("echo half; exit 7");
  EXPECT_EQ(failed.end, ChildEnd::failed);
  EXPECT_EQ(failed.code, 7);
  const ChildResult killed = shell("kill -SEGV $$");
  EXPECT_EQ(killed.end, ChildEnd::failed);
  EXPECT_EQ(killed.code, -1);
  EXPECT_EQ(run_child({"/nowhere/ohmstead-print"}, {}, kGoOn).end, ChildEnd::not_started);
}

/// Does the process that wrote its number there end?
bool ends(const std::filesystem::path& number) {
  pid_t process = 0;
  std::ifstream(number) >> process;
  for (int tries = 0; process > 0 && tries < 200; ++tries) {
    if (kill(process, 0) != 0) return true;
    std::ifstream about("/proc/" + std::to_string(process) + "/stat");
    std::string id, name, state;
    about >> id >> name >> state;
    if (state == "Z") return true;  // ended; nobody of ours waits for it
    std::this_thread::sleep_for(milliseconds(10));
  }
  return false;
}

TEST(Child, what_takes_too_long_is_ended_with_all_it_started) {
  const PrivateFolder folder;
  const auto number = folder.path() / "number";
  const ChildResult late = shell("sleep 600 & echo $! > " + number.string() + "; wait", {milliseconds(300), 1000});
  EXPECT_EQ(late.end, ChildEnd::too_late);
  EXPECT_TRUE(ends(number));
  EXPECT_EQ(shell("exec >&-; sleep 600", {milliseconds(300), 1000}).end, ChildEnd::too_late) << "also one that says nothing any more";
}

TEST(Child, what_says_too_much_is_ended) {
  const ChildResult loud = shell("yes", {milliseconds(20'000), 50'000});
  EXPECT_EQ(loud.end, ChildEnd::too_much);
  EXPECT_LT(loud.out.size(), 200'000U);
  EXPECT_EQ(shell("head -c 50000 /dev/zero", {milliseconds(20'000), 50'000}).end, ChildEnd::done) << "as much as it may";
}

TEST(Child, who_stops_us_stops_it) {
  std::atomic<bool> stop{false};
  std::thread later([&] {
    std::this_thread::sleep_for(milliseconds(50));
    stop = true;
  });
  EXPECT_EQ(shell("sleep 600", {}, stop).end, ChildEnd::stopped);
  later.join();
}

TEST(Child, nothing_of_ours_but_the_environment_is_handed_on) {
  int ends_of[2];
  ASSERT_EQ(pipe(ends_of), 0);  // not closed on exec
  EXPECT_EQ(shell("ls /proc/$$/fd; true").out, "0\n1\n2\n");
  EXPECT_EQ(shell("read line; echo \"$line.\"").out, ".\n") << "its input is empty";
  close(ends_of[0]), close(ends_of[1]);
}

TEST(PrivateFolder, is_for_its_owner_alone_and_is_gone_at_the_end) {
  std::filesystem::path path;
  {
    const PrivateFolder folder, other;
    path = folder.path();
    EXPECT_NE(path, other.path());
    struct stat about{};
    ASSERT_EQ(stat(path.c_str(), &about), 0);
    EXPECT_EQ(about.st_mode & 0777U, 0700U);
    std::ofstream(path / "page.png") << "x";
  }
  EXPECT_FALSE(std::filesystem::exists(path));
}

}  // namespace
}  // namespace ohmstead::web
