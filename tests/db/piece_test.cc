#include "db/piece.h"

#include <gmock/gmock.h>

#include "tests/db/paper_copy_by_hand.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const Piece kFirst{0x1A2B3C4D, 714, 3, 12, 4, "the bytes of a shard, of some length"};
const Piece kSecond{0x1A2B3C4D, 714, 16, 12, 4, std::string("\0\xFF\x80 other bytes, same length here ..", 36)};

TEST(Piece, is_written_as_the_page_says) {
  const std::string text = text_of_piece(kFirst);
  EXPECT_EQ(text.substr(0, text.rfind('/') + 1), "OHP1/1A2B3C4D/714/3.12.4/");
  EXPECT_EQ(text.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/."), std::string::npos);
  EXPECT_EQ(crc32_of("123456789"), 0xCBF43926U);
  EXPECT_EQ(crc32_of(kSecond.bytes), test::crc32_by_hand(kSecond.bytes));
}

TEST(Piece, base_32_is_that_of_rfc_4648) {  // section 10: "foobar" is MZXW6YTBOI
  Piece piece = kFirst;
  piece.bytes = "foobar";
  const std::string text = text_of_piece(piece), body = text.substr(text.rfind('/') + 1);
  EXPECT_EQ(body.substr(0, 9), "MZXW6YTBO");
}

TEST(Piece, never_is_longer_than_was_asked_for) {
  for (std::size_t length = 40; length < 1000; length += 7) {
    Piece piece{0xFFFFFFFF, 999'999'999, 255, 150, 105, std::string(shard_bytes(length, 999'999'999), 'x')};
    if (piece.bytes.empty()) continue;
    EXPECT_LE(text_of_piece(piece).size(), length);
    piece.bytes += "x";
    EXPECT_GT(text_of_piece(piece).size(), length) << "no character is wasted";
  }
  EXPECT_EQ(shard_bytes(20, 1), 0u);
}

TEST(PiecesIn, are_found_in_whatever_a_scanner_writes) {
  const std::string a = text_of_piece(kFirst), b = text_of_piece(kSecond);
  std::string small = a;
  for (char& c : small) c = static_cast<char>(std::tolower(c));
  for (const std::string& text : {a + "\n" + b + "\n", a + "\r\n" + b, a + b, a + " " + b, "QR-Code:" + a + "\nQR-Code:" + b + "\n", "1;" + a + ";2026-11-27\n2;" + b + ";2026-11-27",
                                  "\n\n" + a + "\n\n" + b + "\n\n", small + "\n" + b, "\"" + a + "\",\"" + b + "\"", a.substr(0, 50) + "\n" + a.substr(50) + "\n" + b,
                                  a.substr(0, 40) + " " + a.substr(40, 9) + "\n  " + a.substr(49) + "\n" + b}) {
    const PiecesInText found = pieces_in(text);
    EXPECT_THAT(found.pieces, ElementsAre(kFirst, kSecond)) << text;
    EXPECT_EQ(found.damaged + found.other_lines, 0) << text;
  }
}

TEST(PiecesIn, are_not_taken_when_one_character_is_wrong) {
  const std::string good = text_of_piece(kFirst);
  for (std::size_t i = 5; i < good.size(); ++i) {
    std::string bad = good;
    bad[i] = bad[i] == 'A' ? 'B' : bad[i] == '2' ? '3' : bad[i] == '/' ? '.' : bad[i] >= '0' && bad[i] <= '9' ? '2' : 'A';
    const PiecesInText found = pieces_in(bad);
    EXPECT_THAT(found.pieces, IsEmpty()) << bad;
    EXPECT_EQ(found.damaged, 1) << bad;
  }
}

TEST(PiecesIn, what_is_none_is_counted) {
  const std::string a = text_of_piece(kFirst);
  const PiecesInText found = pieces_in("hello\n" + a + "\nHTTP://EXAMPLE/1\n\n" + a.substr(0, 60) + "\nOHP1/\nOHP1/1A2B3C4D/1/0.1.3/AAAA\nOHP1/1A2B3C4D/1/1.255.1/AAAA\n");
  EXPECT_THAT(found.pieces, ElementsAre(kFirst));
  EXPECT_EQ(found.other_lines, 2);
  EXPECT_EQ(found.damaged, 4);
  EXPECT_THAT(pieces_in("").pieces, IsEmpty());
}

}  // namespace
}  // namespace ohmstead
