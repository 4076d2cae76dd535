#pragma once
// The papers of the outage plan: the plan itself, the worksheet for whoever connects it, and the sheet for the wall, made from
// the plan that is kept in the record. And those of the house, which need no plan: the electrician's packet, the floor plan,
// the signs, and what the household should know. Everything is made in memory.

#include <string>
#include <vector>

#include "ask/packet.h"
#include "ask/plan_answer.h"
#include "print/check_code.h"
#include "print/directory.h"
#include "print/page_picture.h"

namespace ohmstead {

class Canvas;
class Paper;

enum class PaperKind { plan, worksheet, wall, packet, floor_plan, signs, notes };
/// As the command takes it: "wall", "floor-plan".
[[nodiscard]] std::string paper_word(PaperKind kind);

/// Is it made from the kept plan?
[[nodiscard]] inline bool needs_plan(PaperKind kind) { return kind == PaperKind::plan || kind == PaperKind::worksheet || kind == PaperKind::wall; }

struct PaperOptions {
  PaperKind kind = PaperKind::plan;
  std::size_t source = 0;     ///< place in house.sources, for papers of a plan
  Sheet sheet = Sheet::letter;
  std::string date;           ///< YYYY-MM-DD, printed on every page and in every code
  std::int64_t revision = 0;  ///< of the record, 0 or more
  std::vector<RecordedChange> changes;  ///< as the file has them, for the packet; empty: not told
  Pictures pictures;  ///< of photos that are not private, for the packet
  std::optional<Location> location;  ///< where it will hang, for the codes; none: signs in a wet place, the others in a dry one
  bool codes = false;         ///< signs: a code on each
  std::string check;          ///< the code of paper_item, printed on every page; empty: none
};

struct PrintedPaper {
  std::string pdf;                      ///< same record and options: the same bytes
  int pages = 0;
  std::vector<std::string> code_texts;  ///< exactly what each code holds, in order; empty: too much text for codes
  std::vector<std::string> warnings;    ///< full sentences: what is cut or has no glyphs
};

/// Throws Error{not_found} if the paper needs a plan and none is kept for this source, Error{invalid_input} for a date or revision that cannot
/// be, Error{output} if the fonts are missing.
[[nodiscard]] PrintedPaper print_paper(const Record& record, const Names& names, const PaperOptions& options);

/// How the record knows this paper, and its check code now.
[[nodiscard]] PrintedItem paper_item(const Record& record, const Names& names, const PaperOptions& options);

/// A picture of page `page` (0 is the first) in `dpi` dots per inch, 50 .. 1200. Throws Error{output} if there is no such page.
[[nodiscard]] std::string paper_picture(const Record& record, const Names& names, const PaperOptions& options, const PictureForm& form, int page = 0);

/// Draws the same pages on any canvas; `pdf` of the result is empty.
PrintedPaper draw_paper(const Record& record, const Names& names, const PaperOptions& options, Canvas& canvas);

}  // namespace ohmstead
