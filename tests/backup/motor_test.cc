#include "backup/motor.h"

#include <gmock/gmock.h>

namespace ohmstead {
namespace {

// NEMA MG 1-10.37.2 and NFPA 70 Table 430.7(B), restated in a handbook of EASA (secondary).
TEST(Motor, code_letters_run_without_gaps_from_A_to_V_and_skip_I_O_and_Q) {
  double before = -0.01;
  for (const char c : std::string("ABCDEFGHJKLMNPRSTUV")) {
    const auto letter = code_letter(c);
    ASSERT_TRUE(letter) << c;
    EXPECT_EQ(letter->letter, c);
    EXPECT_NEAR(letter->low, before + 0.01, 1e-9) << c;
    EXPECT_EQ(letter->open, c == 'V');
    before = letter->high;
  }
  for (const char c : {'I', 'O', 'Q', 'W', 'a', '?', '\0'}) EXPECT_FALSE(code_letter(c)) << c;
}

TEST(Motor, some_web_tables_print_B_and_H_wrong_ours_do_not) {
  EXPECT_DOUBLE_EQ(code_letter('B')->high, 3.54);
  EXPECT_DOUBLE_EQ(code_letter('H')->low, 6.3);
  EXPECT_DOUBLE_EQ(code_letter('H')->high, 7.09);
  EXPECT_DOUBLE_EQ(code_letter('J')->low, 7.1);
}

// Computed from 1000 x hp x kVA/hp / V: half a horsepower with L at 120 V starts with 37.5 to 41.6 A, one with K at 230 V with 34.8 to 39.1 A.
TEST(Motor, locked_rotor_current_agrees_with_the_worked_cases) {
  const auto half = locked_rotor_va(50, 'L');
  ASSERT_TRUE(half);
  EXPECT_NEAR(half->low / 120.0, 37.5, 0.05);
  EXPECT_NEAR(half->high / 120.0, 41.6, 0.05);
  const auto one = locked_rotor_va(100, 'K');
  ASSERT_TRUE(one);
  EXPECT_NEAR(one->low / 230.0, 34.8, 0.05);
  EXPECT_NEAR(one->high / 230.0, 39.1, 0.05);
}

TEST(Motor, no_size_or_an_unused_letter_says_nothing) {
  EXPECT_FALSE(locked_rotor_va(0, 'L'));
  EXPECT_FALSE(locked_rotor_va(-50, 'L'));
  EXPECT_FALSE(locked_rotor_va(50, 'O'));
}

// NFPA 70 Table 430.248: 1/6, 1/2, 5 and 10 hp secondary, the others from memory.
TEST(Motor, full_load_current_by_horsepower) {
  const std::pair<int, int> table[] = {{16, 44}, {17, 44}, {25, 58}, {33, 72}, {34, 72}, {50, 98}, {75, 138}, {100, 160},
                                       {150, 200}, {200, 240}, {300, 340}, {500, 560}, {750, 800}, {1000, 1000}};
  for (const auto& [size, deciamps] : table) EXPECT_EQ(full_load_deciamps_115(size), deciamps) << size;
}

TEST(Motor, a_size_between_two_of_the_table_takes_the_larger_and_one_outside_none) {
  EXPECT_EQ(full_load_deciamps_115(40), 98);
  EXPECT_EQ(full_load_deciamps_115(102), 200);
  for (const int size : {-1, 0, 12, 15, 1002, 5000}) EXPECT_FALSE(full_load_deciamps_115(size)) << size;
}

// EASA handbook page (secondary): single-phase motors started at full voltage.
TEST(Motor, usual_letters_by_size) {
  EXPECT_EQ(usual_code_letter(50), 'L');
  EXPECT_EQ(usual_code_letter(75), 'K');
  EXPECT_EQ(usual_code_letter(100), 'K');
  EXPECT_EQ(usual_code_letter(150), 'J');
  EXPECT_EQ(usual_code_letter(200), 'J');
  EXPECT_EQ(usual_code_letter(300), 'H');
  EXPECT_EQ(usual_code_letter(500), 'G');
  EXPECT_FALSE(usual_code_letter(33));
}

// NFPA 70 430.251(A), from memory: locked-rotor amperes are six times the full-load table. The usual letters do not contradict it by much.
TEST(Motor, usual_letters_agree_with_six_times_the_full_load_current) {
  for (const int size : {50, 75, 100, 150, 200, 300, 500}) {
    const auto range = locked_rotor_va(size, *usual_code_letter(size));
    const double six_times = 6 * *full_load_deciamps_115(size) * 11.5;
    EXPECT_GT(range->high, six_times * 0.7) << size;
    EXPECT_LT(range->low, six_times * 1.1) << size;
  }
}

}  // namespace
}  // namespace ohmstead
