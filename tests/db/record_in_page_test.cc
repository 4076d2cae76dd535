#include "db/record_in_page.h"

#include <gmock/gmock.h>

#include "db/interchange.h"
#include "db/sha256.h"
#include "house/error.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

std::string page_of(const House& house) { return "<!doctype html><html><body><h1>A house</h1>" + record_element(house) + "<script>1</script></body></html>"; }

/// The sentence it is refused with; "" if it is taken.
std::string refusal(const std::string& page) {
  try {
    (void)house_from_page(page);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::invalid_input);
    return error.what();
  }
  return "";
}

TEST(Sha256, is_that_of_the_standard) {
  EXPECT_EQ(sha256_text("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");  // FIPS 180-2, appendix B.1
  EXPECT_EQ(sha256_base64("abc"), "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");  // the same bytes, by `openssl dgst -binary | base64`
}

TEST(RecordInPage, comes_back_byte_for_byte) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 8));
    const House back = house_from_page(page_of(house));
    ASSERT_EQ(back, house) << seed;
    ASSERT_EQ(house_to_json(back), house_to_json(house)) << seed;
  }
}

TEST(RecordInPage, no_name_ends_the_element) {
  House house = random_house(3, 4);
  house.dwelling.name = "</script><script>alert(1)</script><!-- \" id=\"house-record\"";
  const std::string element = record_element(house);
  EXPECT_EQ(element.find('<', 1), element.size() - std::string("</script>").size());
  EXPECT_EQ(house_from_page(page_of(house)).dwelling.name, house.dwelling.name);
}

TEST(RecordInPage, a_page_that_is_cut_off_anywhere_is_refused_with_a_sentence) {
  const std::string page = page_of(random_house(4, 3));
  const std::size_t whole = page.find("</script>") + 9;
  for (std::size_t length = 0; length < whole; length += 1 + whole / 400) EXPECT_THAT(refusal(page.substr(0, length)), HasSubstr("get the file again")) << length;
  EXPECT_EQ(refusal(page.substr(0, whole)), "");
}

TEST(RecordInPage, what_was_changed_is_refused) {
  House house = random_house(5, 3);
  house.dwelling.name = "Hillside";
  const std::string page = page_of(house);
  std::string edited = page;
  edited.replace(edited.find("Hillside"), 8, "Elsewher");
  EXPECT_THAT(refusal(edited), HasSubstr("was changed after it was written"));
  edited = page;
  edited.replace(edited.find("data-sha256=\"") + 13, 4, "0000");
  EXPECT_THAT(refusal(edited), HasSubstr("was changed after it was written"));
  edited = page;
  edited.erase(edited.find("data-sha256=\"") + 20, 3);
  EXPECT_THAT(refusal(edited), HasSubstr("check sum of the house record in this page is missing"));
  EXPECT_THAT(refusal(page + page), HasSubstr("several house records"));
  EXPECT_THAT(refusal("<html><p>Some other page</p></html>"), HasSubstr("no house record"));
}

TEST(RecordInPage, a_page_is_told_from_a_document) {
  EXPECT_TRUE(is_page("<!doctype html>"));
  EXPECT_TRUE(is_page("\xEF\xBB\xBF \r\n<html>"));
  EXPECT_FALSE(is_page("{\"format\": \"<html>\"}"));
  EXPECT_FALSE(is_page(""));
}

}  // namespace
}  // namespace ohmstead
