#pragma once
// Internal to papers.h: what is on each of the papers, and their codes.

#include "print/code_class.h"
#include "print/paper.h"
#include "print/papers.h"

namespace ohmstead {

struct PaperInput {
  const Record& record;
  const Names& names;
  const PlanAnswer& answer;
  const PaperOptions& options;
  PaperHead head;  ///< title, date and revision; the maker adds the rest
};

/// A paper with everything on it but the codes of its text.
struct MadePaper {
  Paper paper;
  std::vector<std::string> text;  ///< the same in plain sentences, for codes at its end
  std::vector<std::string> code_texts = {};  ///< of codes that are on it already
};

[[nodiscard]] MadePaper make_plan_paper(const PaperInput& input);
[[nodiscard]] MadePaper make_worksheet_paper(const PaperInput& input);
[[nodiscard]] MadePaper make_wall_paper(const PaperInput& input);

/// Most codes on one paper; with more text than they hold it has none.
inline constexpr std::size_t kMostPaperCodes = 24;

/// Cuts the lines into pieces of as many bytes as are allowed, each beginning with `title` and its number, and puts a code for each of them
/// at the end of the paper, four in a row where their size lets them. Returns what each code holds; nothing if it would be too many.
std::vector<std::string> add_codes(Paper& paper, const std::string& title, const std::vector<std::string>& lines, const CodeClass& allowed);

}  // namespace ohmstead
