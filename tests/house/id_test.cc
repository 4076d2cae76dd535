#include "house/id.h"

#include <gtest/gtest.h>

#include <set>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include "house/house.h"

namespace ohmstead {
namespace {

constexpr std::uint64_t kLargest = (std::uint64_t{1} << 60) - 1;

TEST(IdText, twelve_characters_of_base_32) {
  EXPECT_EQ(id_text(1), "000000000001");
  EXPECT_EQ(id_text(32), "000000000010");
  EXPECT_EQ(id_text(31), "00000000000z");
  EXPECT_EQ(id_text(kLargest), "zzzzzzzzzzzz");
}

TEST(ParseId, reads_what_id_text_writes) {
  for (std::uint64_t value = 1; value <= kLargest / 3; value *= 3) EXPECT_EQ(parse_id(id_text(value)), value);
  EXPECT_EQ(parse_id("zzzzzzzzzzzz"), kLargest);
}

TEST(ParseId, refuses_everything_else) {
  for (const char* text : {"", "0", "000000000000", "00000000001", "0000000000001", "00000000000i", "00000000000l",
                           "00000000000o", "00000000000u", "00000000000A", "00000000000-", "           1",
                           "00000000000\xc3"})
    EXPECT_EQ(parse_id(text), std::nullopt) << text;
}

TEST(NewIdValue, counts_on_within_range) {
  std::uint64_t before = new_id_value();
  for (int i = 0; i < 10'000; ++i) {
    const std::uint64_t value = new_id_value();
    ASSERT_GE(value, 1U);
    ASSERT_LE(value, kLargest);
    ASSERT_EQ(value, before == kLargest ? 1 : before + 1);
    before = value;
  }
}

/// Copies of a file are written by different runs of the program: each begins somewhere else. Threads stand for them here.
TEST(NewIdValue, begins_anywhere) {
  std::uint64_t any = 0, all = kLargest;
  std::set<std::uint64_t> starts;
  for (int i = 0; i < 300; ++i)
    std::thread([&] {
      const std::uint64_t start = new_id_value();
      any |= start, all &= start;
      starts.insert(start);
    }).join();
  EXPECT_EQ(starts.size(), 300U);
  EXPECT_EQ(any, kLargest) << "some bit is never set";
  EXPECT_EQ(all, 0U) << "some bit is always set";
}

TEST(NewIdValue, of_a_forked_process_goes_its_own_way_once_it_says_so) {
  const std::uint64_t before = new_id_value();
  int ends[2];
  ASSERT_EQ(pipe(ends), 0);
  const pid_t child = fork();
  if (child == 0) {
    begin_ids_anew();
    const std::uint64_t value = new_id_value();
    _exit(write(ends[1], &value, sizeof value) == sizeof value ? 0 : 1);
  }
  std::uint64_t value = 0;
  ASSERT_EQ(read(ends[0], &value, sizeof value), static_cast<ssize_t>(sizeof value));
  waitpid(child, nullptr, 0);
  close(ends[0]), close(ends[1]);
  EXPECT_NE(value, before + 1);
}

TEST(Id, nothing_has_no_text) {
  EXPECT_EQ(Id<Room>{}.text(), "");
  EXPECT_FALSE(Id<Room>{});
  EXPECT_EQ(Id<Room>{33}.text(), "000000000011");
  EXPECT_TRUE(Id<Room>::fresh());
}

}  // namespace
}  // namespace ohmstead
