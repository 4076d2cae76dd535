#include "print/fit_text.h"

#include <gtest/gtest.h>

#include "print/text.h"

namespace ohmstead {
namespace {

TEST(FitText, takes_the_most_comfortable_style_that_fits) {
  const auto ladder = label_ladder(12);
  const double height = text_height_mm(ladder[0], 2);
  const auto fitted = [&](const std::string& words) { return fit_text(words, ladder, 50, height); };
  EXPECT_EQ(fitted("Kitchen range").step, 0);
  EXPECT_EQ(fitted("Kitchen range").style.points, 12);
  const FittedText narrow = fitted("Kitchen counter receptacles left of the sink and over it");
  EXPECT_GE(narrow.step, 1);
  EXPECT_FALSE(narrow.cut);
  EXPECT_TRUE(fitted(std::string(200, 'm')).cut);
}

TEST(FitText, what_is_said_to_fit_does) {
  for (int length = 1; length < 60; ++length)
    for (const double width : {20.0, 35.0, 50.0}) {
      std::string words;
      while (static_cast<int>(words.size()) < length) words += words.size() % 9 == 8 ? ' ' : 'n';
      const FittedText fitted = fit_text(words, label_ladder(12), width, 9);
      const TextExtent extent = measure_text(words, fitted.style, width);
      EXPECT_EQ(extent.cut || extent.height_mm > 9.02, fitted.cut) << words;
      if (!fitted.cut) { EXPECT_LE(extent.width_mm, width + 0.01) << words; }
    }
}

TEST(FitText, a_style_that_breaks_a_word_is_passed_over) {
  // In normal type the long word would not fit the width; in narrow type it does.
  const FittedText fitted = fit_text("Kindergartenbeleuchtung", label_ladder(12), 42, 12);
  EXPECT_FALSE(fitted.cut);
  EXPECT_FALSE(measure_text("Kindergartenbeleuchtung", fitted.style, 42).split_word);
  EXPECT_GT(fitted.step, 0);
}

// 21 rows, the half of a panel of 42 spaces, then take 200 mm of a card of 254 mm.
TEST(Text, two_lines_of_12_pt_fit_a_row_of_9_6_mm) { EXPECT_LE(text_height_mm({Face::normal, 12, Align::left, 1}, 2) + 0.4, 9.6); }

TEST(Text, a_number_stays_with_its_unit) {
  EXPECT_EQ(with_units_kept("heater 240 V, 30 A"), "heater 240\u00A0V, 30\u00A0A");
  EXPECT_EQ(with_units_kept("2 Vans and 3 kWh"), "2 Vans and 3 kWh");
  EXPECT_EQ(with_units_kept("4500 W"), "4500\u00A0W");
  EXPECT_EQ(with_units_kept("Hall, 2 more rooms"), "Hall, 2\u00A0more rooms");
  EXPECT_EQ(with_units_kept("lights; fan, 2 appliances"), "lights; fan, 2\u00A0appliances");
  EXPECT_EQ(with_units_kept("receptacles 1, 2; light"), "receptacles 1,\u00A02; light");
  for (const char* as_it_is : {"receptacles 1, 2, 4", "1, 2", "receptacle 1, light", "light, 2", ", 2", "a1, 2", "receptacles 1, 2nd"}) EXPECT_EQ(with_units_kept(as_it_is), as_it_is);
}

TEST(Text, a_character_no_font_can_draw_is_counted) {
  EXPECT_EQ(measure_text("K\u00FCche", {}, 100).unknown_glyphs, 0);
  EXPECT_GT(measure_text("\U000F1234", {}, 100).unknown_glyphs, 0);
}

}  // namespace
}  // namespace ohmstead
