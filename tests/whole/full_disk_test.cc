// What is printed onto a disk that is full: a sentence, exit code 3, and no file that is half there. The disk is a real one, small, which
// only root can mount.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/wait.h>
#include <unistd.h>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::StartsWith;

constexpr int kNoMount = 77;

class FullDisk : public ::testing::Test {
 protected:
  void SetUp() override {
    const Ran ran = folder.start_house("Cellar: freezer 100/400 W !, furnace 500/1200 W !\nKitchen: 2r\nPanel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 20\nBy J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
    std::filesystem::create_directory(folder.at("small"));
  }

  /// Runs these words while `small` is a disk of this many kilobytes, seen by this test alone.
  void expect_told_as_full(const std::vector<std::string>& words, int kilobytes) {
    const pid_t child = fork();
    if (child == 0) {
      if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) _exit(kNoMount);
      if (mount("tmpfs", folder.at("small").c_str(), "tmpfs", 0, ("size=" + std::to_string(kilobytes) + "k").c_str()) != 0) _exit(kNoMount);
      look_at(words);
      fflush(nullptr);
      _exit(HasFailure() ? 1 : 0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFEXITED(status) && WEXITSTATUS(status) == kNoMount) GTEST_SKIP() << "a small disk can be mounted by root only";
    EXPECT_EQ(status, 0) << words[0];
  }

  /// In the child: a file that is there is a whole one.
  void look_at(const std::vector<std::string>& words) {
    const Ran ran = folder.run(words);
    EXPECT_EQ(ran.code, 3) << ran.out << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("the disk is full"));
    EXPECT_THAT(ran.err, HasSubstr("small/"));
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder.at("small"))) {
      if (!entry.is_regular_file()) continue;
      ++whole_files;
      const std::string bytes = folder.read(std::filesystem::relative(entry.path(), folder.path()).string());
      EXPECT_THAT(bytes, StartsWith("%PDF")) << entry.path();
      EXPECT_THAT(bytes, EndsWith("%%EOF\n")) << entry.path();
    }
    EXPECT_EQ(whole_files > 0, some_fit);
  }

  Folder folder;
  int whole_files = 0;
  bool some_fit = false;
};

TEST_F(FullDisk, a_directory_that_does_not_fit_leaves_nothing) { expect_told_as_full({"directory", "-o", "small/directory.pdf"}, 8); }

TEST_F(FullDisk, a_paper_copy_that_does_not_fit_leaves_nothing) { expect_told_as_full({"paper", "copy", "-o", "small/copy.pdf"}, 8); }

TEST_F(FullDisk, of_a_whole_set_those_that_fit_are_whole_and_the_others_not_there) {
  some_fit = true;
  expect_told_as_full({"print", "--to", "small/out"}, 120);
}

}  // namespace
}  // namespace ohmstead::whole
