// Deadlines, changes, the page's files, the code on the terminal, addresses, the lock.
#include <gtest/gtest.h>
#include <malloc.h>
#include <sys/socket.h>
#include <unistd.h>

#include <barrier>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <thread>

#include "house/error.h"
#include "print/code.h"
#include "web/changes.h"
#include "web/deadlines.h"
#include "web/heap.h"
#include "web/lan_address.h"
#include "web/listen_socket.h"
#include "web/page_files.h"
#include "web/serve_lock.h"
#include "web/server.h"
#include "web/terminal_code.h"

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds, std::chrono::seconds;

struct SocketPair {
  SocketPair() { EXPECT_EQ(socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends), 0); }
  ~SocketPair() { close(ends[0]), close(ends[1]); }
  /// Was our end shut within the patience?
  [[nodiscard]] bool is_shut(milliseconds patience) const {
    const timeval limit{patience.count() / 1000, patience.count() % 1000 * 1000};
    setsockopt(ends[1], SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    char byte = 0;
    return recv(ends[1], &byte, 1, 0) == 0;
  }
  int ends[2] = {-1, -1};
};

TEST(Deadlines, a_socket_is_shut_when_its_time_is_over_and_not_before) {
  const SocketPair soon, late, never;
  Deadlines deadlines;
  const Moment now = std::chrono::steady_clock::now();
  deadlines.add(late.ends[0], now + seconds(1000));
  deadlines.add(soon.ends[0], now + milliseconds(50));
  deadlines.rest(deadlines.add(never.ends[0], now + milliseconds(50)));
  EXPECT_TRUE(soon.is_shut(seconds(10)));
  EXPECT_FALSE(late.is_shut(milliseconds(50)));
  EXPECT_FALSE(never.is_shut(milliseconds(50)));
}

TEST(Deadlines, an_earlier_deadline_and_a_later_one_are_heeded) {
  const SocketPair earlier, later;
  Deadlines deadlines;
  const Moment now = std::chrono::steady_clock::now();
  const auto one = deadlines.add(earlier.ends[0], now + seconds(1000)), other = deadlines.add(later.ends[0], now + milliseconds(100));
  deadlines.set(other, now + seconds(1000), Phase::sends);
  deadlines.set(one, now + milliseconds(20), Phase::sends);
  EXPECT_TRUE(earlier.is_shut(seconds(10)));
  EXPECT_FALSE(later.is_shut(milliseconds(200)));
}

TEST(Deadlines, who_leaves_while_it_sends_is_shut_soon_and_who_waits_for_an_answer_is_not) {
  const SocketPair sends, fetches, rests;
  Deadlines deadlines({milliseconds(10), milliseconds(30)});
  const Moment late = std::chrono::steady_clock::now() + seconds(1000);
  deadlines.add(sends.ends[0], late);
  deadlines.set(deadlines.add(fetches.ends[0], late), late, Phase::fetches);
  deadlines.rest(deadlines.add(rests.ends[0], late));
  EXPECT_FALSE(sends.is_shut(milliseconds(100)));
  for (const SocketPair* pair : {&sends, &fetches, &rests}) shutdown(pair->ends[1], SHUT_WR);
  EXPECT_TRUE(sends.is_shut(seconds(10)));
  EXPECT_FALSE(fetches.is_shut(milliseconds(100)));
  EXPECT_FALSE(rests.is_shut(milliseconds(100)));
}

TEST(Deadlines, what_was_removed_is_left_alone) {
  const SocketPair pair;
  Deadlines deadlines;
  deadlines.remove(deadlines.add(pair.ends[0], std::chrono::steady_clock::now() + milliseconds(30)));
  EXPECT_FALSE(pair.is_shut(milliseconds(150)));
}

TEST(ChangeCounter, counts_from_its_first_number_and_tells_of_each_step_until_told_not_to) {
  ChangeCounter changes(41);
  changes.step();
  int told = 0;
  changes.tell([&] { ++told; });
  EXPECT_EQ(changes.step(), 43U);
  EXPECT_EQ(told, 1);
  changes.tell({});
  changes.step();
  EXPECT_EQ(changes.now(), 44U);
  EXPECT_EQ(told, 1);
}

TEST(PageFiles, are_those_of_the_folder) {
  const auto text_of = [](const std::string& name) {
    std::ifstream file(std::string(OHMSTEAD_SOURCE_DIR) + "/src/web/page/" + name, std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
  };
  EXPECT_EQ(page_file("/"), text_of("page.html"));
  EXPECT_EQ(page_file("/icon.svg"), text_of("icon.svg"));
  std::string css, js;
  std::ifstream order(std::string(OHMSTEAD_SOURCE_DIR) + "/src/web/page/order.txt");
  for (std::string name; std::getline(order, name);)
    if (!name.starts_with('#') && !name.empty()) (name.ends_with(".css") ? css : js) += text_of(name);
  // Made short where the tools for it are there: the words stay, but for the style's own names.
  for (const auto& [path, source] : {std::pair("/page.css", css), std::pair("/page.js", js)}) {
    const std::string text(page_file(path));
    EXPECT_LE(text.size(), source.size() + 64);  // a script is within a function
    std::size_t found = 0;
    const std::regex words(R"((/api/[a-z]+)|(--[a-z]:)|(#app)|(\.[a-z]+:focus))");
    for (auto word = std::sregex_iterator(source.begin(), source.end(), words); word != std::sregex_iterator(); ++word, ++found)
      EXPECT_NE(text.find(word->str()), std::string::npos) << word->str() << " in " << path;
    EXPECT_GT(found, 5U) << path;
  }
  EXPECT_EQ(page_files().size(), 4U);
}

TEST(PageFiles, style_and_script_with_all_texts_are_under_60_kB) {
  const std::size_t bytes = page_file("/page.css").size() + page_file("/page.js").size();
  if (std::system("command -v terser minify >/dev/null 2>&1") != 0) GTEST_SKIP() << "what makes them short is not installed: " << bytes << " bytes";
  EXPECT_LT(bytes, 60'000U);
}

TEST(TerminalCode, shows_the_squares_of_the_code_and_nothing_else) {
  const std::string text = "http://192.168.1.7:8642/#pair=abcdefghijklmnopqrstuv";
  const QrCode code = make_code(text, Correction::medium);
  const std::string shown = terminal_code(text, false);
  std::vector<std::vector<bool>> light(1);  // two rows a line, read back out of the half blocks
  std::size_t row = 0;
  light.resize(2);
  for (std::size_t at = 0; at < shown.size();) {
    if (shown[at] == '\n') {
      row += 2, light.resize(row + 2), ++at;
      continue;
    }
    const std::string block = shown.substr(at, shown[at] == ' ' ? 1 : 3);
    light[row].push_back(block == "▀" || block == "█");
    light[row + 1].push_back(block == "▄" || block == "█");
    at += block.size();
  }
  const int side = code.modules + 2 * kQuietModules;
  ASSERT_GE(light.size(), static_cast<std::size_t>(side));
  for (int y = 0; y < side; ++y)
    for (int x = 0; x < side; ++x) {
      const int cx = x - kQuietModules, cy = y - kQuietModules;
      const bool inside = cx >= 0 && cy >= 0 && cx < code.modules && cy < code.modules;
      ASSERT_EQ(light[static_cast<std::size_t>(y)].at(static_cast<std::size_t>(x)), !inside || !code.is_dark(cx, cy)) << x << ' ' << y;
    }
  EXPECT_NE(terminal_code(text, true).find("\x1b[97;40m"), std::string::npos);
}

TEST(LanAddress, private_addresses_are_those_of_the_standards) {
  for (const char* address : {"10.0.0.1", "10.255.255.255", "172.16.0.1", "172.31.255.254", "192.168.0.1", "169.254.1.1", "fd00::1", "fc12::1"})
    EXPECT_TRUE(is_private_address(address)) << address;
  for (const char* address : {"127.0.0.1", "11.0.0.1", "9.255.255.255", "172.15.0.1", "172.32.0.1", "192.167.0.1", "192.169.0.1", "0.0.0.0", "8.8.8.8", "::", "::1",
                              "2001:db8::1", "fe80::1", "", "10.0.0", "x"})
    EXPECT_FALSE(is_private_address(address)) << address;
}

TEST(LanAddress, the_one_that_is_meant_is_chosen_and_what_is_not_clear_is_asked) {
  const LanAddress wifi{"192.168.1.7", "wlan0", true}, cable{"10.0.0.7", "eth0", true}, bridge{"172.17.0.1", "docker0", false};
  EXPECT_EQ(choose_lan_address({bridge}, ""), "172.17.0.1");
  EXPECT_EQ(choose_lan_address({bridge, wifi}, ""), "192.168.1.7");
  EXPECT_EQ(choose_lan_address({bridge, wifi, cable}, "172.17.0.1"), "172.17.0.1");
  const auto kind = [](const std::vector<LanAddress>& there, const std::string& given) {
    try {
      (void)choose_lan_address(there, given);
    } catch (const Error& error) {
      return error.kind;
    }
    return ErrorKind::output;
  };
  EXPECT_EQ(kind({wifi, cable}, ""), ErrorKind::ambiguous);
  EXPECT_EQ(kind({}, ""), ErrorKind::not_found);
  EXPECT_EQ(kind({wifi}, "8.8.8.8"), ErrorKind::not_found);
  EXPECT_EQ(kind({wifi}, "0.0.0.0"), ErrorKind::not_found);
}

TEST(ListenSocket, a_second_one_on_the_port_is_refused_in_one_sentence) {
  const ListenSocket first("127.0.0.1", 0);
  EXPECT_NE(first.port(), 0);
  try {
    const ListenSocket second("127.0.0.1", first.port());
    FAIL() << "it was let in";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::output);
    EXPECT_NE(std::string(error.what()).find("already listens at 127.0.0.1:" + std::to_string(first.port())), std::string::npos) << error.what();
  }
  for (const char* address : {"", "localhost", "192.0.2.1", "1.2.3"}) EXPECT_THROW(ListenSocket(address, 0), Error) << address;
}

TEST(ListenSocket, addresses_of_version_6_stand_in_brackets) {
  EXPECT_EQ(address_and_port("10.0.0.1", 80), "10.0.0.1:80");
  EXPECT_EQ(address_and_port("fd00::1", 80), "[fd00::1]:80");
}

TEST(Server, its_own_hosts_are_its_address_and_this_computer_s_name_for_itself) {
  EXPECT_EQ(own_hosts("127.0.0.1", 8642), (std::vector<std::string>{"127.0.0.1:8642", "localhost:8642"}));
  EXPECT_EQ(own_hosts("192.168.1.7", 8642), std::vector<std::string>{"192.168.1.7:8642"});
  EXPECT_EQ(own_hosts("192.168.1.7", 80), (std::vector<std::string>{"192.168.1.7:80", "192.168.1.7"}));
}

#if defined(__GLIBC__) && !defined(__clang__)  // the sanitizers, which are built with clang, have a heap of their own
/// In a process of its own that begins here: a heap that is there stays.
[[noreturn]] void count_heaps_of_threads() {
  share_one_heap();
  char* text = nullptr;
  std::size_t size = 0;
  std::FILE* const out = open_memstream(&text, &size);
  std::vector<std::thread> at_once;
  std::barrier together(8);
  for (int i = 0; i < 8; ++i)
    at_once.emplace_back([&] {
      void* const some = std::malloc(5'000);
      together.arrive_and_wait();
      std::free(some);
    });
  for (std::thread& one : at_once) one.join();
  malloc_info(0, out);
  std::fclose(out);
  const std::string all(text, size);
  std::_Exit(all.find("<heap nr=\"0\">") != std::string::npos && all.find("<heap nr=\"1\">") == std::string::npos ? 0 : 1);
}

TEST(Heap, all_threads_share_one) {
  GTEST_FLAG_SET(death_test_style, "threadsafe");
  EXPECT_EXIT(count_heaps_of_threads(), testing::ExitedWithCode(0), "");
}
#endif

TEST(ServeLock, one_file_has_one_server_by_whatever_path_until_it_ends) {
  namespace fs = std::filesystem;
  std::string folder = (fs::temp_directory_path() / "ohmstead-XXXXXX").string();
  ASSERT_NE(mkdtemp(folder.data()), nullptr);
  const fs::path file = fs::path(folder) / "a.house", other = fs::path(folder) / "b.house", link = fs::path(folder) / "link.house";
  std::ofstream(file) << "a";
  std::ofstream(other) << "b";
  fs::create_symlink(file, link);
  {
    const ServeLock first(file);
    EXPECT_THROW(ServeLock{file}, Error);
    EXPECT_THROW(ServeLock{link}, Error);
    EXPECT_NO_THROW(ServeLock{other});
  }
  EXPECT_NO_THROW(ServeLock{file});
  EXPECT_THROW(ServeLock{fs::path(folder) / "none.house"}, Error);
  fs::remove_all(folder);
}

}  // namespace
}  // namespace ohmstead::web
