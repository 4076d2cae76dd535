#pragma once
// A calculation as a worksheet on paper: the result, every step with how it came about and its rule, what was assumed, and room for
// whoever checks it to sign. It draws rules/calculation.h and computes nothing.

#include <string>

#include "ask/answer_words.h"
#include "print/papers.h"
#include "rules/calculation.h"

namespace ohmstead {

struct CalculationPaper {
  const Calculation& calculation;
  const Lines& words;        ///< as on the screen: the answers stand at the top; what the record lacks stands under the notes
  std::string house;         ///< name of the house; empty: no record was used
  std::string date;          ///< YYYY-MM-DD
  Sheet sheet = Sheet::letter;
};

/// The same input gives the same bytes; it has no codes. Throws Error{invalid_input} for a date that cannot be.
[[nodiscard]] PrintedPaper print_calculation(const CalculationPaper& input);
/// Draws the same pages on any canvas; `pdf` of the result is empty.
PrintedPaper draw_calculation(const CalculationPaper& input, Canvas& canvas);

}  // namespace ohmstead
