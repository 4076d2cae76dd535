#include "house/enum_text.h"

#include <gtest/gtest.h>

#include <set>

#include "house/house.h"

namespace ohmstead {
namespace {

/// Words are stored in house files: every enumerator has one, no two share one, and it reads back.
template <class E>
void expect_words(E last) {
  const auto words = words_of(E{});
  ASSERT_EQ(words.size(), static_cast<std::size_t>(last) + 1);
  EXPECT_EQ(std::set<std::string_view>(words.begin(), words.end()).size(), words.size());
  for (std::size_t i = 0; i < words.size(); ++i) EXPECT_EQ(parse_enum<E>(words[i]), static_cast<E>(i));
  EXPECT_EQ(parse_enum<E>(""), std::nullopt);
  EXPECT_EQ(parse_enum<E>(std::string(words[0]) + "x"), std::nullopt);
}

TEST(EnumText, every_enumerator_has_its_word) {
  expect_words(VoltageSystem::single_230);
  expect_words(Numbering::single_column);
  expect_words(Supply::nothing_known);
  expect_words(Half::b);
  expect_words(Protection::dual);
  expect_words(OpenRule::never);
  expect_words(WireMaterial::copper_clad_aluminium);
  expect_words(PointKind::other);
  expect_words(ReceptacleHalf::lower);
  expect_words(Importance::life_safety);
  expect_words(FigureBasis::measured);
  expect_words(DeviceKind::disconnect);
  expect_words(SourceKind::battery_inverter);
  expect_words(SourceOutput::one_120_both_legs);
  expect_words(TransferKind::whole_house);
  expect_words(RoundKind::proof);
  expect_words(Seen::skipped);
  expect_words(Method::other);
  expect_words(HandleKind::device);
  expect_words(ThingKind::position);
}

TEST(EnumText, words_stand_in_the_order_of_the_enumerators) {
  EXPECT_EQ(text_of(Protection::gfci), "gfci");
  EXPECT_EQ(text_of(Seen::dead), "dead");
  EXPECT_EQ(text_of(Importance::life_safety), "life_safety");
  EXPECT_EQ(text_of(Supply::breaker), "breaker");
}

}  // namespace
}  // namespace ohmstead
