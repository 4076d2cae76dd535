#include "ask/printable.h"

#include <gtest/gtest.h>

#include <random>

namespace ohmstead {
namespace {

using terminal::printable;

TEST(Printable, shows_what_would_move_hide_or_break_text) {
  const std::pair<std::string, std::string> cases[] = {
      {"Kitchen", "Kitchen"},
      {"Bäckerei €5 \xF0\x9F\x92\xA1", "Bäckerei €5 \xF0\x9F\x92\xA1"},
      {"a\x1B[31mred", "a<U+001B>[31mred"},
      {"two\nlines\r\t", "two<U+000A>lines<U+000D><U+0009>"},
      {std::string("a\0b", 3), "a<U+0000>b"},
      {"del\x7F", "del<U+007F>"},
      {"c1\xC2\x9B", "c1<U+009B>"},
      {"\xE2\x80\xAE" "abc\xE2\x81\xA6", "<U+202E>abc<U+2066>"},
      {"line\xE2\x80\xA8para\xE2\x80\xA9", "line<U+2028>para<U+2029>"},
      {"zero\xE2\x80\x8Bwidth", "zero<U+200B>width"},
      {"bad\xFF\xC3", "bad<byte FF><byte C3>"},
      {"\xC0\xAF", "<byte C0><byte AF>"},                  // an overlong '/'
      {"\xED\xA0\x80", "<byte ED><byte A0><byte 80>"},    // half of a surrogate pair
      {"", ""},
  };
  for (const auto& [given, shown] : cases) EXPECT_EQ(printable(given), shown);
}

TEST(Printable, whatever_comes_in_the_result_is_plain_and_stays_so) {
  std::mt19937 random(7);
  for (int round = 0; round < 3000; ++round) {
    std::string text(random() % 40, ' ');
    for (char& c : text) c = static_cast<char>(random() % 3 == 0 ? 0xE2 : random());
    const std::string shown = printable(text);
    for (const char c : shown) EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 && c != 0x7F);
    EXPECT_EQ(printable(shown), shown);
  }
}

}  // namespace
}  // namespace ohmstead
