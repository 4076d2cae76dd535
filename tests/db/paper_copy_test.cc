#include "db/paper_copy.h"

#include <gmock/gmock.h>
#include <zlib.h>

#include <algorithm>
#include <random>

#include "ask/paper_copy_words.h"
#include "db/columns.h"
#include "db/interchange.h"
#include "db/sha256.h"
#include "house/error.h"
#include "tests/db/paper_copy_by_hand.h"
#include "tests/db/temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::size_t kCharacters = 300;

PaperCopy copy_of(const House& house, std::int64_t revision = 12, std::size_t characters = kCharacters) { return cut_into_pieces(pack_record(house), revision, characters); }

std::string refusal(const PaperReading& reading, const std::string& set = "") {
  return message_of(ErrorKind::invalid_input, [&] { (void)reading.bring_back(set); });
}

TEST(PaperCopy, any_k_of_its_pieces_bring_the_house_back_in_any_order_with_repeats_and_damage) {
  std::mt19937 random(4);
  for (std::uint64_t seed = 1; seed <= 25; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 7));
    PaperCopy copy = copy_of(house, static_cast<std::int64_t>(seed));
    ASSERT_EQ(static_cast<int>(copy.pieces.size()), copy.k + copy.m);
    std::ranges::shuffle(copy.pieces, random);
    PaperReading reading;
    std::string damaged = copy.pieces.back();
    damaged[damaged.size() / 2] = damaged[damaged.size() / 2] == 'A' ? 'B' : 'A';
    EXPECT_EQ(reading.add(damaged), 0);
    for (int i = 0; i < copy.k; ++i) {
      EXPECT_FALSE(reading.enough());
      EXPECT_EQ(reading.add(copy.pieces[static_cast<std::size_t>(i)] + "\n" + copy.pieces[static_cast<std::size_t>(i / 2)]), 1);
    }
    EXPECT_TRUE(reading.enough());
    const FromPaper back = reading.bring_back();
    EXPECT_EQ(back.document, house_to_json(house));
    EXPECT_EQ(house_to_json(back.house), house_to_json(house));
    EXPECT_EQ(back.sha256, copy.sha256);
    EXPECT_EQ(back.revision, static_cast<std::int64_t>(seed));
    EXPECT_THAT(reading.notes(), ElementsAre(HasSubstr("1 damaged piece was skipped")));
  }
}

TEST(PaperCopy, is_read_by_a_reader_written_from_its_page_alone) {
  std::mt19937 random(8);
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 4));
    PaperCopy copy = copy_of(house);
    EXPECT_EQ(test::document_by_hand(copy.pieces), house_to_json(house)) << "data alone";
    std::ranges::shuffle(copy.pieces, random);
    copy.pieces.resize(static_cast<std::size_t>(copy.k));
    EXPECT_EQ(test::document_by_hand(copy.pieces), house_to_json(house)) << "with recovery";
  }
}

TEST(PaperCopy, the_page_says_the_same_in_the_document) {
  std::string page = read_file(std::filesystem::path(OHMSTEAD_SOURCE_DIR) / "docs/paper-copy.md"), words;
  std::istringstream split(page);
  for (std::string word; split >> word;) words += word + " ";
  for (const HowToPart& part : how_to_read_paper_copy()) {
    EXPECT_THAT(words, HasSubstr(part.heading));
    for (const std::string& paragraph : part.paragraphs) {
      std::istringstream in(paragraph);
      std::string flat;
      for (std::string word; in >> word;) flat += word + " ";
      EXPECT_THAT(words, HasSubstr(flat));
    }
  }
}

TEST(PaperCopy, sha_256_is_the_published_one) {  // FIPS 180-2, appendix B.1, from memory
  EXPECT_EQ(sha256_text("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  const House house = random_house(2, 2);
  EXPECT_EQ(pack_record(house).sha256, sha256_text(house_to_json(house)));
}

TEST(PaperCopy, the_same_house_gives_the_same_pieces_and_another_revision_says_so) {
  const House house = random_house(3, 3);
  EXPECT_EQ(copy_of(house).pieces, copy_of(house).pieces);
  EXPECT_NE(copy_of(house, 13).pieces, copy_of(house).pieces);
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)copy_of(house, -1); }), HasSubstr("revision"));
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)copy_of(house, 1, 45); }), HasSubstr("more than 255 codes"));
}

TEST(PaperReading, says_how_many_are_missing) {
  const PaperCopy copy = copy_of(random_house(3, 3));
  PaperReading reading;
  for (int i = 0; i < copy.k - 2; ++i) reading.add(copy.pieces[static_cast<std::size_t>(2 * i) % copy.pieces.size()]);
  for (int i = 0; static_cast<int>(copy.pieces.size()) > i && refusal(reading).find("; 2 more of any are needed.") == std::string::npos; ++i) reading.add(copy.pieces[static_cast<std::size_t>(i)]);
  EXPECT_EQ(refusal(reading), std::to_string(copy.k - 2) + " of the " + std::to_string(copy.k + copy.m) + " pieces of set " + copy.set + " were read; 2 more of any are needed.");
  EXPECT_THAT(refusal(PaperReading()), HasSubstr("There is no piece of a paper copy in this"));
}

TEST(PaperReading, refuses_mixed_sets_and_mixed_revisions_by_name) {
  const House house = random_house(3, 3);
  const PaperCopy ours = copy_of(house, 12), theirs = copy_of(random_house(4, 3), 12);
  House changed = house;
  changed.dwelling.name += "!";
  const PaperCopy later = copy_of(changed, 13);
  for (const PaperCopy& other : {theirs, later}) {
    PaperReading reading;
    for (const std::string& piece : ours.pieces) reading.add(piece);
    reading.add(other.pieces[0]);
    EXPECT_THAT(refusal(reading), AllOf(HasSubstr("different paper copies"), HasSubstr(ours.set), HasSubstr(other.set), HasSubstr("revision " + std::to_string(other.revision)), HasSubstr("--set")));
    EXPECT_TRUE(reading.enough(ours.set));
    EXPECT_FALSE(reading.enough(other.set));
    EXPECT_EQ(reading.bring_back(ours.set).document, house_to_json(house)) << "the one that is named";
    EXPECT_THAT(refusal(reading, other.set), HasSubstr("1 of the "));
    EXPECT_THAT(refusal(reading, "00000000"), HasSubstr("There is no piece of set 00000000 among these"));
  }
}

/// Pieces of any bytes, as a forger would make them.
PaperReading forged(const std::string& bytes, std::uint32_t set_change = 0) {
  PaperReading reading;
  for (int i = 0; i < 1; ++i) reading.add(text_of_piece({crc32_of(bytes) ^ set_change, 1, 1, 1, 3, bytes}));
  return reading;
}

std::string zlib_of(const std::string& text) {
  uLongf length = compressBound(text.size());
  std::string bytes(length, '\0');
  EXPECT_EQ(compress2(reinterpret_cast<Bytef*>(bytes.data()), &length, reinterpret_cast<const Bytef*>(text.data()), text.size(), 9), Z_OK);
  return bytes.substr(0, length);
}

TEST(PaperReading, refuses_what_was_not_made_by_it) {
  const std::string head = std::string(32, 's') + std::string(4, '\0');
  const std::string good = pack_record(random_house(3, 1)).bytes;
  std::string other_sum = good;
  other_sum[0] = static_cast<char>(other_sum[0] ^ 1);
  EXPECT_THAT(refusal(forged(good, 1)), HasSubstr("do not belong together"));
  EXPECT_THAT(refusal(forged("x")), HasSubstr("too short"));
  EXPECT_THAT(refusal(forged(std::string(32, 's') + "\xFF\xFF\xFF\xFF" + "rest")), HasSubstr("too few ids"));
  EXPECT_THAT(refusal(forged(head + "no zlib")), HasSubstr("damaged"));
  EXPECT_THAT(refusal(forged(good.substr(0, good.size() - 20))), HasSubstr("damaged"));
  EXPECT_THAT(refusal(forged(good + "x")), HasSubstr("something follows"));
  EXPECT_THAT(refusal(forged(other_sum)), HasSubstr("SHA-256"));
  EXPECT_THAT(refusal(forged(head + zlib_of("{}"))), HasSubstr("format"));
}

TEST(PaperReading, a_bomb_takes_no_more_than_its_limit) {
  const std::string head = std::string(32, 's') + std::string(4, '\0');
  std::string bomb = zlib_of(std::string(3'000'000, ' '));
  ASSERT_LT(bomb.size(), 4000u);
  EXPECT_THAT(refusal(forged(head + bomb)), HasSubstr("more than 2 MB"));
}

TEST(PaperReading, pieces_of_one_set_that_do_not_agree_are_refused) {
  const PaperCopy copy = copy_of(random_house(3, 2));
  PaperReading reading;
  for (const std::string& piece : copy.pieces) reading.add(piece);
  Piece strange = pieces_in(copy.pieces[0]).pieces.at(0);
  strange.bytes[0] = static_cast<char>(strange.bytes[0] ^ 1);
  reading.add(text_of_piece(strange));
  EXPECT_THAT(reading.notes(), ElementsAre(HasSubstr("the first was kept")));
  strange.m += 1;
  reading.add(text_of_piece(strange));
  EXPECT_THAT(refusal(reading, copy.set), HasSubstr("do not agree"));
}

TEST(PaperReading, lines_that_are_no_pieces_are_noted_and_do_no_harm) {
  const PaperCopy copy = copy_of(random_house(3, 2));
  PaperReading reading;
  for (const std::string& piece : copy.pieces) reading.add("Scanned:\n" + piece);
  EXPECT_THAT(reading.notes(), ElementsAre(HasSubstr("lines are no pieces of a paper copy")));
  EXPECT_NO_THROW((void)reading.bring_back());
}

}  // namespace
}  // namespace ohmstead
