// What codes of a place are made of, and how one is fitted into a square.
#include "print/code_class.h"

#include <gtest/gtest.h>

namespace ohmstead {
namespace {

const std::string kText(200, 'a');

TEST(CodeClass, damp_and_wet_places_ask_for_correction_q_and_wet_ones_for_large_modules) {
  for (const Location location : {Location::damp, Location::wet}) {
    for (double room = 20; room < 80; room += 0.5) {
      const auto sized = sized_code(kText, code_class(location), room);
      const double least = location == Location::wet ? 0.50 : 0.40;
      ASSERT_EQ(sized.has_value(), (code_modules(kText, Correction::quartile) + 8) * least <= room) << room;
      if (!sized) continue;
      EXPECT_EQ(sized->code.dark, make_code(kText, Correction::quartile).dark);
      EXPECT_GE(sized->module_mm, least);
      EXPECT_LE(sized->side_mm, room + 1e-6);
    }
  }
}

TEST(CodeClass, in_a_dry_place_a_weaker_code_with_large_modules_comes_before_small_ones) {
  const double strong = (code_modules(kText, Correction::quartile) + 8) * 0.4234, weak = (code_modules(kText, Correction::medium) + 8) * 0.40;
  EXPECT_EQ(sized_code(kText, code_class(Location::dry), strong)->code.dark, make_code(kText, Correction::quartile).dark);
  EXPECT_EQ(sized_code(kText, code_class(Location::dry), strong - 0.2)->code.dark, make_code(kText, Correction::medium).dark);
  EXPECT_NEAR(sized_code(kText, code_class(Location::dry), weak)->module_mm, 0.40, 1e-9);
  EXPECT_FALSE(sized_code(kText, code_class(Location::dry), weak - 0.1));
}

TEST(CodeClass, a_short_text_is_a_code_of_25_mm_none_the_less) { EXPECT_NEAR(sized_code("Breaker 1.", code_class(Location::dry), 40)->side_mm, kSmallestCodeMm, 1e-9); }

}  // namespace
}  // namespace ohmstead
