#include "print/direction.h"

#include <glib.h>

#include <cstddef>
#include <utility>
#include <vector>

namespace ohmstead {

namespace {

constexpr const char* kLeftToRight = "\u200E";
constexpr const char* kRightToLeft = "\u200F";

enum class Direction { none, left_to_right, right_to_left };

/// Of a letter; none for digits and signs. The ranges are those that Unicode keeps for scripts from right to left (from memory).
Direction direction_of(gunichar character) {
  static constexpr std::pair<gunichar, gunichar> kFromRight[] = {{0x0590, 0x08FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFF}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}};
  if (g_unichar_isalpha(character) == 0) return Direction::none;
  for (const auto& [first, last] : kFromRight)
    if (character >= first && character <= last) return Direction::right_to_left;
  return Direction::left_to_right;
}

struct Letter {
  std::size_t at = 0, length = 0;
  Direction direction = Direction::none;
  gunichar character = 0;
};

std::vector<Letter> letters_of(const std::string& words) {
  std::vector<Letter> letters;
  const char* const begin = words.data();
  for (const char* from = begin; from < begin + words.size(); from = g_utf8_next_char(from)) {
    const gunichar character = g_utf8_get_char(from);
    const std::ptrdiff_t length = g_utf8_next_char(from) - from;
    letters.push_back({static_cast<std::size_t>(from - begin), static_cast<std::size_t>(length), direction_of(character), character});
  }
  return letters;
}

/// May stand between two words of one name.
bool joins(gunichar character) { return character == ' ' || character == 0xA0 || character == '-' || character == '\'' || character == '"' || character == 0x5F3 || character == 0x5F4; }

/// Of a stretch of letters in this direction, which begins at `from`: one past its last letter.
std::size_t end_of_stretch(const std::vector<Letter>& letters, std::size_t from) {
  const Direction direction = letters[from].direction;
  std::size_t end = from + 1;
  for (std::size_t i = from + 1; i < letters.size(); ++i) {
    const bool mark = g_unichar_ismark(letters[i].character) != 0;
    const bool number = direction == Direction::left_to_right && g_unichar_isdigit(letters[i].character) != 0;  // "Studio 24" is one name
    if (letters[i].direction == direction || mark || number) end = i + 1;
    else if (!joins(letters[i].character)) break;
  }
  return end;
}

}  // namespace

std::string with_directions(const std::string& words) {
  if (g_utf8_validate(words.data(), static_cast<gssize>(words.size()), nullptr) == 0) return words;
  const std::vector<Letter> letters = letters_of(words);
  std::size_t right = 0, left = 0;
  Direction first = Direction::none;
  for (const Letter& letter : letters) {
    right += letter.direction == Direction::right_to_left, left += letter.direction == Direction::left_to_right;
    if (first == Direction::none) first = letter.direction;
  }
  if (right == 0) return words;
  const bool whole_right = left == 0 || (first == Direction::right_to_left && right >= left);
  const Direction within = whole_right ? Direction::left_to_right : Direction::right_to_left;  // what runs by itself
  const std::string mark = whole_right ? kRightToLeft : kLeftToRight;
  std::string marked = mark;
  for (std::size_t i = 0; i < letters.size();) {
    const std::size_t end = letters[i].direction == within ? end_of_stretch(letters, i) : i + 1;
    marked += words.substr(letters[i].at, letters[end - 1].at + letters[end - 1].length - letters[i].at);
    if (letters[i].direction == within) marked += mark;
    i = end;
  }
  return marked;
}

}  // namespace ohmstead
