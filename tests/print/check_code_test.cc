#include "print/check_code.h"

#include <gmock/gmock.h>

#include <set>

#include "print/canvas.h"

namespace ohmstead {
namespace {

House house_with_id(std::uint64_t id) {
  House house;
  house.dwelling.id = Id<Dwelling>{id};
  return house;
}

TEST(CheckCode, follows_from_the_house_the_item_and_every_text) {
  const House house = house_with_id(7);
  const std::string code = check_code(house, "directory:a", {"1", "Hall"});
  EXPECT_EQ(code, check_code(house, "directory:a", {"1", "Hall"}));
  EXPECT_NE(code, check_code(house, "directory:b", {"1", "Hall"}));
  EXPECT_NE(code, check_code(house, "directory:a", {"1", "Hal"}));
  EXPECT_NE(code, check_code(house, "directory:a", {"1Hall"})) << "where a text ends counts";
  EXPECT_NE(code, check_code(house, "directory:a", {"Hall", "1"}));
  EXPECT_NE(code, check_code(house_with_id(8), "directory:a", {"1", "Hall"}));
}

/// Texts that differ in one number, as labels do: 2,000 of them have about 0.002 equal codes by chance.
TEST(CheckCode, differs_between_texts_that_are_nearly_the_same) {
  std::set<std::string> codes;
  for (int i = 0; i < 2000; ++i) codes.insert(check_code(house_with_id(7), "plate", {"Breaker " + std::to_string(i)}));
  EXPECT_GE(codes.size(), 1999U);
}

TEST(CheckCode, takes_what_is_drawn) {
  const auto draw = [](const std::string& words) {
    return [words](Canvas& canvas) {
      canvas.begin_page(100, 100);
      canvas.text({0, 0, 50, 10}, {}, words);
    };
  };
  const House house = house_with_id(7);
  EXPECT_EQ(check_code_of_drawn(house, "k", draw("Hall")), check_code(house, "k", {"Hall"}));
  EXPECT_NE(check_code_of_drawn(house, "k", draw("Hall")), check_code_of_drawn(house, "k", draw("Bath")));
}

TEST(CheckCode, is_read_as_people_type_it) {
  EXPECT_EQ(printed_check_code("7Q2K9D"), "7Q2-K9D");
  for (const char* typed : {"7Q2-K9D", "7q2k9d", " 7q2 - k9d ", "7Q2K9D"}) EXPECT_EQ(read_check_code(typed), "7Q2K9D") << typed;
  EXPECT_EQ(read_check_code("oil-0LI"), "011011") << "O is 0, I and L are 1";
  for (const char* typed : {"", "7Q2-K9", "7Q2-K9DD", "7Q2-K9U", "7Q2_K9D", "Straße"}) EXPECT_EQ(read_check_code(typed), std::nullopt) << typed;
}

}  // namespace
}  // namespace ohmstead
