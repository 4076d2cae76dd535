#include "print/code.h"

#include <gmock/gmock.h>

#include "house/error.h"
#include "tests/print/decode.h"

namespace ohmstead {
namespace {

using testing::ElementsAre;

const std::vector<std::string> kTexts{
    "Panel Main, spaces 1-9.\n9 (20 A) Kitchen counter receptacles;\nAs of 2026-11-25 rev 12.",
    "K\u00FCche & \u53A8\u623F, \u05DE\u05D8\u05D1\u05D7, \u041A\u0443\u0445\u043D\u044F: 240 V",
    std::string("zero \0 inside", 13),
    std::string(450, 'x'),
};

TEST(MakeCode, two_foreign_decoders_read_back_every_byte) {
  for (const std::string& text : kTexts)
    for (const Correction correction : {Correction::medium, Correction::quartile}) {
      const test::Picture picture = test::picture_of(make_code(text, correction), 4);
      EXPECT_THAT(test::zbar_read(picture), ElementsAre(text));
      EXPECT_EQ(test::zxing_read(picture), text);
    }
}

TEST(MakeCode, size_is_known_without_making_it) {
  for (std::size_t bytes = 1; bytes < 700; bytes += 7)
    for (const Correction correction : {Correction::medium, Correction::quartile})
      for (const std::string& letter : {std::string("a"), std::string("\u00E9")}) {
        std::string text;
        while (text.size() < bytes) text += letter;
        EXPECT_EQ(code_modules(text, correction), make_code(text, correction).modules) << text.size();
      }
}

// Byte mode capacities of versions 9, 16 and 40: ISO/IEC 18004, restated in public tables.
TEST(CodeModules, capacities_of_the_standard) {
  const auto modules = [](int bytes, Correction correction) { return code_modules(std::string(static_cast<std::size_t>(bytes), 'a'), correction); };
  EXPECT_EQ(modules(180, Correction::medium), 53);
  EXPECT_EQ(modules(181, Correction::medium), 57);
  EXPECT_EQ(modules(450, Correction::medium), 81);
  EXPECT_EQ(modules(322, Correction::quartile), 81);
  EXPECT_EQ(modules(323, Correction::quartile), 85);
  EXPECT_EQ(modules(2331, Correction::medium), 177);
  EXPECT_THROW((void)modules(2332, Correction::medium), Error);
  EXPECT_THROW((void)make_code(std::string(3000, 'a'), Correction::medium), Error);
}

}  // namespace
}  // namespace ohmstead
