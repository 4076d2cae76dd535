#include "print/paper_copy_page.h"

#include <algorithm>
#include <numeric>
#include <optional>

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "print/code.h"
#include "print/paper.h"

namespace ohmstead {

namespace {

constexpr int kFirstVersion = 15, kLastVersion = 20;
constexpr double kDotMm = 25.4 / 300;
constexpr double kCaptionMm = 15, kCaptionPoints = 10, kPartPoints = 9.5;

int modules_of(int version) { return 17 + 4 * version; }

Paper empty_paper(const PaperCopySheet& sheet) {
  return {sheet.sheet, PaperHead{paper_copy_title(sheet.facts), "", paper_copy_foot(sheet.facts), sheet.facts.date, sheet.facts.revision}};
}

/// A step that goes through all codes and takes neighbours apart: about 0.38 of them, without a common divisor.
int step_through(int codes) {
  int step = std::max(1, codes * 382 / 1000);
  while (std::gcd(step, codes) != 1) ++step;
  return step;
}

/// One page of codes, from place `first` of the order in which they are printed.
PaperBlock page_of_codes(const Paper& paper, const PaperCopySheet& sheet, const CodeGrid& grid, int first) {
  const int all = static_cast<int>(sheet.pieces.size()), here = std::min(grid.codes(), all - first), step = step_through(all);
  const double quiet = kQuietModules * grid.module_mm, side = modules_of(grid.version) * grid.module_mm;
  const double across = (paper.width_mm() - side) / (grid.columns - 1), down = (paper.room_mm() - kCaptionMm - side) / (grid.rows - 1);
  PaperBlock page;
  page.height_mm = kCaptionMm;
  const int code_pages = (all + grid.codes() - 1) / grid.codes();
  for (const PaperBlock& part : paper.paragraph(paper_copy_caption(sheet.facts, here, code_pages), {Face::normal, kCaptionPoints})) put_into(page, part, 0, 0);
  for (int i = 0; i < here; ++i) {
    const auto piece = static_cast<std::size_t>(static_cast<long>(first + i) * step % all);
    QrCode code = make_code_of_capitals(sheet.pieces[piece], grid.version);
    if (code.modules != modules_of(grid.version)) throw Error(ErrorKind::output, "A piece of the paper copy does not fit into its code.");
    const double x = i % grid.columns * across, y = kCaptionMm + i / grid.columns * down;  // of the pattern; margins are light anyway
    page.codes.push_back({{x - quiet, y - quiet, side + 2 * quiet, side + 2 * quiet}, std::move(code)});
    page.height_mm = std::max(page.height_mm, y + side);
  }
  return page;
}

}  // namespace

int CodeGrid::characters() const { return capitals_in_code(version); }

CodeGrid code_grid(int version, Sheet sheet, CodeSize size) {
  const Paper paper(sheet, {});
  CodeGrid grid{version, 0, 0, (size == CodeSize::usual ? 5 : 4) * kDotMm};
  const double quiet = kQuietModules * grid.module_mm, each = (modules_of(version) + kQuietModules) * grid.module_mm;  // neighbours share a quiet zone
  grid.columns = static_cast<int>((paper.width_mm() + quiet) / each);
  grid.rows = static_cast<int>((paper.room_mm() - kCaptionMm + quiet) / each);
  return grid;
}

CodeGrid best_code_grid(Sheet sheet, CodeSize size, const std::function<int(int characters)>& pieces_of) {
  std::optional<CodeGrid> best;
  int fewest = 0;
  for (int version = kFirstVersion; version <= kLastVersion; ++version) {
    const CodeGrid grid = code_grid(version, sheet, size);
    try {
      const int pages = (pieces_of(grid.characters()) + grid.codes() - 1) / grid.codes();
      if (!best || pages < fewest) best = grid, fewest = pages;
    } catch (const Error&) {  // too many pieces of this size; larger ones may do
      if (version == kLastVersion && !best) throw;
    }
  }
  return *best;
}

PrintedPaperCopy draw_paper_copy(const PaperCopySheet& sheet, Canvas& canvas) {
  require_date(sheet.facts.date, "a paper copy");
  Paper paper = empty_paper(sheet);
  const CodeGrid grid = code_grid(sheet.version, sheet.sheet, sheet.size);
  PrintedPaperCopy printed;
  for (int first = 0; first < static_cast<int>(sheet.pieces.size()); first += grid.codes(), ++printed.code_pages) {
    if (first > 0) paper.new_page();
    paper.add(page_of_codes(paper, sheet, grid, first));
  }
  paper.new_page();
  paper.heading("How to read this without the program");
  for (const HowToPart& part : how_to_read_paper_copy()) {
    paper.heading(part.heading, 11);
    for (const std::string& words : part.paragraphs)
      for (PaperBlock block : paper.paragraph(words, {Face::normal, kPartPoints})) block.above_mm = 1, paper.add(std::move(block));
  }
  paper.draw(canvas);
  printed.pages = paper.pages();
  printed.warnings = paper.warnings();
  return printed;
}

PrintedPaperCopy print_paper_copy(const PaperCopySheet& sheet) {
  require_date(sheet.facts.date, "a paper copy");
  PdfCanvas canvas(paper_text(paper_copy_title(sheet.facts)) + ", " + sheet.facts.date, sheet.facts.date);
  PrintedPaperCopy printed = draw_paper_copy(sheet, canvas);
  printed.pdf = canvas.finish();
  return printed;
}

std::string paper_copy_picture(const PaperCopySheet& sheet, const PictureForm& form, int page) {
  return page_picture(form, page, [&](Canvas& canvas) { (void)draw_paper_copy(sheet, canvas); });
}

}  // namespace ohmstead
