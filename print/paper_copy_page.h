#pragma once
// The paper copy on paper: all codes of one set on as few pages as they need, and a page that says how to read them without this
// program. Everything is made in memory.

#include <functional>
#include <string>
#include <vector>

#include "ask/paper_copy_words.h"
#include "print/directory.h"
#include "print/page_picture.h"

namespace ohmstead {

class Canvas;

/// Squares of a code: 5 dots of a 300 dpi printer for phones and worn paper, 4 for a flatbed scanner.
enum class CodeSize { usual, fine };

struct PaperCopySheet {
  PaperCopyFacts facts;
  std::vector<std::string> pieces;  ///< the text of each code
  int version = 15;                 ///< of the codes, 15 .. 20, in which every piece fits
  Sheet sheet = Sheet::letter;
  CodeSize size = CodeSize::usual;
};

/// The codes of one page.
struct CodeGrid {
  int version = 15, columns = 0, rows = 0;
  double module_mm = 0;
  [[nodiscard]] int codes() const { return columns * rows; }
  [[nodiscard]] int characters() const;  ///< that one code holds
};
[[nodiscard]] CodeGrid code_grid(int version, Sheet sheet, CodeSize size);

/// The grid with the fewest pages for the record, the smallest version among these. `pieces_of` says how many pieces there are if
/// each has at most so many characters; it may throw Error if there are too many, and does so here if no version will do.
[[nodiscard]] CodeGrid best_code_grid(Sheet sheet, CodeSize size, const std::function<int(int characters)>& pieces_of);

struct PrintedPaperCopy {
  std::string pdf;         ///< same sheet: the same bytes
  int pages = 0;           ///< the page without codes included
  int code_pages = 0;
  std::vector<std::string> warnings;
};

/// Throws Error{invalid_input} for a date that cannot be, Error{output} for missing fonts or a piece that does not fit its code.
[[nodiscard]] PrintedPaperCopy print_paper_copy(const PaperCopySheet& sheet);
/// A picture of page `page` (0 is the first) in `dpi` dots per inch, 50 .. 1200. Throws Error{output} if there is no such page.
[[nodiscard]] std::string paper_copy_picture(const PaperCopySheet& sheet, const PictureForm& form, int page);
/// Draws the same pages on any canvas; `pdf` of the result is empty.
PrintedPaperCopy draw_paper_copy(const PaperCopySheet& sheet, Canvas& canvas);

}  // namespace ohmstead
