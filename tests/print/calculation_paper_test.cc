// A calculation on paper: every step and note is there, nothing over anything else.
#include "print/calculation_paper.h"

#include <gmock/gmock.h>

#include "ask/calculation_words.h"
#include "house/error.h"
#include "tests/print/paper_checks.h"

namespace ohmstead {
namespace {

using test::Drawn;
using test::plain;
using test::words_of;
using testing::HasSubstr;

TEST(CalculationPaper, every_step_note_and_list_is_on_it) {
  const LoadAnswer answer = dwelling_load({.floor_ft2 = 1500, .items = {{LoadClass::cooking, "Range", 12'000}, {LoadClass::fastened, "Dishwasher", 1200, 1, true}}});
  Lines lines = words_of_load(answer);
  const Lines gaps = words_of_gaps({.given = {}, .assumed = {"Two circuits were taken."}, .missing = {"No plan of Laundry."}});
  lines.insert(lines.end() - 1, gaps.begin(), gaps.end());
  for (const Sheet sheet : {Sheet::letter, Sheet::a4}) {
    Drawn drawn;
    drawn.paper = draw_calculation({answer.calculation, lines, "Hillside", "2026-11-27", sheet}, drawn.canvas);
    test::check_layout(drawn);
    const std::string words = words_of(drawn.canvas);
    for (const WorkedStep& step : answer.calculation.steps)
      for (const std::string& text : {step.what, step.how, value_text(step), step.rule}) EXPECT_THAT(words, HasSubstr(plain(text)));
    for (const std::string& note : answer.calculation.notes) EXPECT_THAT(words, HasSubstr(plain(note)));
    for (const char* text : {"Two circuits were taken.", "No plan of Laundry.", "House: Hillside", "signature", "2026-11-27"}) EXPECT_THAT(words, HasSubstr(text));
    EXPECT_THAT(words, HasSubstr(plain(lines[0].text)));
    EXPECT_THAT(words, testing::Not(HasSubstr(" rev ")));
    EXPECT_GE(drawn.paper.pages, 1);
  }
}

TEST(CalculationPaper, the_same_input_is_the_same_pdf_and_a_date_must_be_one) {
  const DropAnswer answer = voltage_drop({.size = wire_size("12"), .length_ft = 100, .amps = 16});
  const Lines lines = words_of_drop(answer);
  const auto pdf = [&](const std::string& date) { return print_calculation({answer.calculation, lines, "", date}).pdf; };
  EXPECT_EQ(pdf("2026-11-27"), pdf("2026-11-27"));
  EXPECT_THAT(pdf("2026-11-27"), testing::StartsWith("%PDF"));
  EXPECT_THROW((void)pdf("tomorrow"), Error);
}

}  // namespace
}  // namespace ohmstead
