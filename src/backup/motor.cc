#include "backup/motor.h"

#include <cmath>
#include <cstdlib>
#include <utility>

namespace ohmstead {

namespace {

constexpr CodeLetter kLetters[] = {
    {'A', 0, 3.14},     {'B', 3.15, 3.54},    {'C', 3.55, 3.99},    {'D', 4.0, 4.49},   {'E', 4.5, 4.99},
    {'F', 5.0, 5.59},   {'G', 5.6, 6.29},     {'H', 6.3, 7.09},     {'J', 7.1, 7.99},   {'K', 8.0, 8.99},
    {'L', 9.0, 9.99},   {'M', 10.0, 11.19},   {'N', 11.2, 12.49},   {'P', 12.5, 13.99}, {'R', 14.0, 15.99},
    {'S', 16.0, 17.99}, {'T', 18.0, 19.99},   {'U', 20.0, 22.39},   {'V', 22.4, 22.4, true},
};

/// Hundredths of a horsepower -> tenths of an ampere at 115 V. 1/6, 1/2, 5 and 10 hp: secondary; the rest from memory.
constexpr std::pair<int, int> kFullLoad[] = {{17, 44},   {25, 58},   {33, 72},   {50, 98},   {75, 138},  {100, 160},
                                             {150, 200}, {200, 240}, {300, 340}, {500, 560}, {750, 800}, {1000, 1000}};

constexpr std::pair<int, char> kUsual[] = {{50, 'L'}, {75, 'K'}, {100, 'K'}, {150, 'J'}, {200, 'J'}, {300, 'H'}, {500, 'G'}};

}  // namespace

std::optional<CodeLetter> code_letter(char letter) {
  for (const CodeLetter& known : kLetters)
    if (known.letter == letter) return known;
  return std::nullopt;
}

std::optional<WattRange> locked_rotor_va(int horsepower_hundredths, char letter) {
  const auto known = code_letter(letter);
  if (!known || horsepower_hundredths <= 0) return std::nullopt;
  const auto va = [&](double kva_hp) { return static_cast<int>(std::lround(10 * kva_hp * horsepower_hundredths)); };
  return WattRange{va(known->low), va(known->high)};
}

std::optional<int> full_load_deciamps_115(int horsepower_hundredths) {
  if (horsepower_hundredths < kFullLoad[0].first - 1) return std::nullopt;  // 1/6 hp is written 0.16 or 0.17
  for (const auto& [size, deciamps] : kFullLoad)
    if (horsepower_hundredths <= size + 1) return deciamps;  // 1/3 hp is written 0.33 or 0.34
  return std::nullopt;
}

std::optional<char> usual_code_letter(int horsepower_hundredths) {
  for (const auto& [size, letter] : kUsual)
    if (size == horsepower_hundredths) return letter;
  return std::nullopt;
}

}  // namespace ohmstead
