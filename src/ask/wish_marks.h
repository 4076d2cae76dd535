#pragma once
// Internal to wishes: a wish cut into the thing and what is said of it. Only the form is looked at here.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "house/house.h"

namespace ohmstead::wish_detail {

struct Marks {
  std::string thing;  ///< as said; never empty
  std::optional<int> running, starting, duty, power_factor, longest_off_min;
  std::optional<Importance> importance;
  std::optional<FigureBasis> basis;
  LoadUse use = LoadUse::together;
  int horsepower_hundredths = 0, full_load_deciamps = 0;
  std::string code_letter;
  bool continuous = false, starts_itself = false, hurt = false;
};

/// The wishes in a text, parted by semicolons and line ends, empty ones left out.
[[nodiscard]] std::vector<std::string> wishes_in(std::string_view text);
/// One wish. Throws Error{invalid_input} naming the word that is not understood.
[[nodiscard]] Marks read_wish(const std::string& wish);
/// In quotes, at most 60 bytes of it, fit for a terminal.
[[nodiscard]] std::string quoted(std::string_view text);

}  // namespace ohmstead::wish_detail
