#pragma once
// What stands on a paper copy besides its codes: title, what each page says of the set, and how to read it without the program.

#include <cstdint>
#include <string>
#include <vector>

namespace ohmstead {

struct PaperCopyFacts {
  std::string house;      ///< its name; may be empty
  std::string set;        ///< name of the set of pieces: eight hexadecimal digits
  std::string sha256;     ///< of the interchange document
  std::string date;       ///< YYYY-MM-DD
  std::int64_t revision = 0;
  int k = 0, m = 0;       ///< any k of the k + m codes bring the record back
};

[[nodiscard]] std::string paper_copy_title(const PaperCopyFacts& facts);
/// Above the codes of one page of them: "Set 1A2B3C4D has 55 codes; any 42 of these 55 bring the record back. ..."
[[nodiscard]] std::string paper_copy_caption(const PaperCopyFacts& facts, int codes_here, int code_pages);
[[nodiscard]] std::string paper_copy_foot(const PaperCopyFacts& facts);

/// A part of the page that says how to read the codes without this program. docs/paper-copy.md says the same words.
struct HowToPart {
  std::string heading;
  std::vector<std::string> paragraphs;
};
[[nodiscard]] const std::vector<HowToPart>& how_to_read_paper_copy();

}  // namespace ohmstead
