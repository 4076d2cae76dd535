// The real program at a terminal of its own (a pseudo terminal), keys pressed one by one.

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <tuple>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// `ohmstead WORDS` in a folder, with a terminal of 60 columns.
class AtTerminal {
 public:
  AtTerminal(const Folder& folder, const std::vector<std::string>& words) : terminal_(posix_openpt(O_RDWR | O_NOCTTY)) {
    if (terminal_ < 0 || grantpt(terminal_) != 0 || unlockpt(terminal_) != 0) throw std::runtime_error("no terminal");
    const winsize size{.ws_row = 24, .ws_col = 60, .ws_xpixel = 0, .ws_ypixel = 0};
    const int screen = open(ptsname(terminal_), O_RDWR | O_NOCTTY);
    ioctl(screen, TIOCSWINSZ, &size);
    child_ = fork();
    if (child_ == 0) {
      dup2(screen, STDIN_FILENO), dup2(screen, STDOUT_FILENO), dup2(screen, STDERR_FILENO);
      become_program(folder, words);
    }
    close(screen);
  }
  ~AtTerminal() {
    close(terminal_);
    waitpid(child_, nullptr, 0);
  }
  AtTerminal(const AtTerminal&) = delete;
  AtTerminal& operator=(const AtTerminal&) = delete;

  /// Presses keys and waits until a prompt comes after them, or the program ends; what was shown.
  std::string press(const std::string& keys) {
    if (!keys.empty() && write(terminal_, keys.data(), keys.size()) < 0) return "";
    std::string shown;
    char bytes[4096];
    for (pollfd ready{terminal_, POLLIN, 0}; poll(&ready, 1, shown.ends_with("> ") || keys.starts_with("\x1b") ? 300 : 5000) > 0;) {
      const ssize_t count = read(terminal_, bytes, sizeof bytes);
      if (count <= 0) break;
      shown.append(bytes, static_cast<std::size_t>(count));
    }
    return shown;
  }

 private:
  int terminal_;
  pid_t child_ = -1;
};

TEST(Keys, each_key_is_taken_as_it_is_pressed_and_an_arrow_answers_nothing) {
  Folder folder;
  ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
  ASSERT_EQ(folder.run({"enter", "-"}, "Kitchen: 2r, light\nPanel Main in Kitchen 12 spaces, 100 A main: 1 20; 2 15\n").code, 0);
  AtTerminal at(folder, {"trace"});
  EXPECT_THAT(at.press(""), HasSubstr("I have read this"));
  EXPECT_THAT(at.press("\r"), HasSubstr("OFF"));
  EXPECT_THAT(at.press("\r"), HasSubstr("d  dead"));
  for (const char* arrow : {"\x1b[D", "\x1b[1;5D", "\x1bOD", "\x1b[C", "\x1b[A", "\x1b"}) EXPECT_EQ(at.press(arrow), "") << arrow + 1;
  const std::string next = at.press("l");
  EXPECT_THAT(next, HasSubstr("l  live"));
  EXPECT_THAT(next, Not(HasSubstr("nothing here")));
  EXPECT_THAT(at.press("w"), HasSubstr(": live, with breaker"));
  EXPECT_THAT(at.press("\r"), HasSubstr("l  live"));
  EXPECT_THAT(at.press("f"), HasSubstr("6  something else"));
  EXPECT_THAT(at.press("2"), HasSubstr("(Enter: Kitchen)"));
  EXPECT_THAT(at.press("\n"), HasSubstr("(Enter: light 2)"));
  EXPECT_THAT(at.press("sink light\n"), HasSubstr("of 4 points"));
  EXPECT_THAT(at.press("p"), HasSubstr("Still off: breaker"));
}

TEST(Keys, what_another_terminal_did_is_shown_though_no_key_is_pressed) {
  Folder folder;
  ASSERT_EQ(folder.start_house("Cellar: freezer 100/400 W !\nPanel Main in Cellar 8 spaces, 100 A main: 1 15\nCellar freezer <- Main 1 by J.\n"
                               "Generator G 3600/4500 W 120/240\nTransfer T in Cellar 1 position from G: 1 15 L1 <- Main 1\n").code, 0);
  ASSERT_EQ(folder.run({"outage", "--gone"}).code, 0);
  AtTerminal at(folder, {"outage", "--look-every", "1", "--who", "Ana"});
  EXPECT_THAT(at.press(""), HasSubstr("Take generator G outdoors"));
  ASSERT_EQ(folder.run({"outage", "--note", "it rains", "--who", "Ben"}).code, 0);
  const std::string shown = at.press("");
  EXPECT_THAT(shown, HasSubstr("Somebody else has gone on"));
  EXPECT_THAT(shown, HasSubstr("it rains (Ben)"));
  EXPECT_THAT(shown, HasSubstr("Take generator G outdoors")) << "and the step that is next now";
  EXPECT_THAT(at.press("p"), HasSubstr("Every answer so far is kept"));
}

TEST(Keys, conflicts_of_a_merge_are_shown_side_by_side_and_decided_by_a_key_each) {
  Folder folder;
  ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
  ASSERT_EQ(folder.run({"enter", "-", "--house", "a.house"}, "Hall: 1r\nPanel Main in Hall 12 spaces, 100 A main: 1 20\n").code, 0);
  std::filesystem::copy_file(folder.at("a.house"), folder.at("b.house"));
  for (const auto& [file, breaker, note] : {std::tuple{"a.house", "7 20 den", "key at the door"}, {"b.house", "7 15 attic", "key at the shed"}}) {
    ASSERT_EQ(folder.run({"enter", "--house", file, "--line", std::string("Panel Main: ") + breaker}).code, 0);
    ASSERT_EQ(folder.run({"note", "add", note, "--house", file}).code, 0);
  }
  const std::string before = folder.read("a.house");
  {
    AtTerminal at(folder, {"merge", "b.house", "--house", "a.house"});
    const std::string shown = at.press("");
    EXPECT_THAT(shown, HasSubstr("m  here:"));
    EXPECT_THAT(shown, HasSubstr("den"));
    EXPECT_THAT(shown, HasSubstr("attic"));
    EXPECT_THAT(shown, HasSubstr("q  stop"));
    EXPECT_THAT(at.press("x"), Not(HasSubstr("den"))) << "a key that means nothing";
    (void)at.press("q");
  }
  EXPECT_EQ(folder.read("a.house"), before);
  {
    AtTerminal at(folder, {"merge", "b.house", "--house", "a.house"});
    (void)at.press("");
    (void)at.press("t");
  }
  const std::string merged = folder.run({"export", "--house", "a.house"}).out;
  EXPECT_THAT(merged, HasSubstr("\"attic\""));
  EXPECT_THAT(merged, Not(HasSubstr("\"den\"")));
  EXPECT_THAT(merged, HasSubstr("key at the door"));
  EXPECT_THAT(merged, HasSubstr("key at the shed"));
}

}  // namespace
}  // namespace ohmstead::whole
