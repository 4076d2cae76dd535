#include "print/directory.h"

#include <cmath>

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "house/index.h"
#include "print/card_content.h"
#include "print/paper.h"

namespace ohmstead {

namespace {

constexpr double kSmallestPocketMm = 40, kLargestPocketMm = 1000;
/// A printer cannot reach the edge of its paper; the card keeps this far from it.
constexpr double kSheetMarginMm = 5;

struct SheetSize {
  const char* name;
  double width_mm, height_mm;
};

SheetSize paper_of(Sheet sheet) { return sheet == Sheet::letter ? SheetSize{"Letter", 215.9, 279.4} : SheetSize{"A4", 210, 297}; }

void require_pocket(const char* what, double mm) {
  if (!(mm >= kSmallestPocketMm && mm <= kLargestPocketMm))
    throw Error(ErrorKind::invalid_input, std::string("The ") + what + " of the door pocket must be from 40 to 1000 mm.");
}

void require_options(const DirectoryOptions& options) {
  require_date(options.date, "a directory");
  if (options.revision < 0) throw Error(ErrorKind::invalid_input, "The revision of a directory cannot be negative.");
  require_pocket("width", options.pocket_width_mm);
  require_pocket("height", options.pocket_height_mm);
  if (!options.sheet) return;
  const SheetSize paper = paper_of(*options.sheet);
  if (options.pocket_width_mm > paper.width_mm - 2 * kSheetMarginMm || options.pocket_height_mm > paper.height_mm - 2 * kSheetMarginMm)
    throw Error(ErrorKind::invalid_input, std::string("A card of that size does not fit on ") + paper.name +
                                              " paper with room to cut; the largest is " +
                                              std::to_string(static_cast<int>(paper.width_mm - 2 * kSheetMarginMm)) + " x " +
                                              std::to_string(static_cast<int>(paper.height_mm - 2 * kSheetMarginMm)) + " mm.");
}

Area moved(Area area, double x, double y) { return {area.x + x, area.y + y, area.width, area.height}; }

void draw_side(const CardSide& side, const DirectoryOptions& options, Canvas& canvas) {
  const double width = options.pocket_width_mm, height = options.pocket_height_mm;
  double x = 0, y = 0;
  if (options.sheet) {
    const SheetSize paper = paper_of(*options.sheet);
    x = (paper.width_mm - width) / 2, y = (paper.height_mm - height) / 2;
    canvas.begin_page(paper.width_mm, paper.height_mm);
    for (const double edge : {x, x + width}) canvas.line({edge, 0, edge, paper.height_mm}, 0.15, true);
    for (const double edge : {y, y + height}) canvas.line({0, edge, paper.width_mm, edge}, 0.15, true);
  } else {
    canvas.begin_page(width, height);
  }
  for (const PlacedLine& line : side.lines) canvas.line({line.x1 + x, line.y1 + y, line.x2 + x, line.y2 + y}, line.width_mm, false);
  for (const CardSide::Frame& frame : side.frames) canvas.frame(moved(frame.area, x, y), frame.width_mm);
  for (const PlacedText& text : side.texts) canvas.text(moved(text.area, x, y), text.style, text.words);
  for (const PlacedCode& code : side.codes) canvas.code(moved(code.area, x, y), code.code);
}

}  // namespace

PrintedDirectory draw_directory(const House& house, const Feeds& feeds, const DirectoryOptions& options, Canvas& canvas) {
  require_options(options);
  const CardContent content = card_content(house, feeds, options);
  Card card = lay_out_card(content, options.pocket_width_mm, options.pocket_height_mm, options.large);
  draw_side(card.front, options, canvas);
  if (card.back) draw_side(*card.back, options, canvas);
  PrintedDirectory printed;
  for (const PlacedCode& code : (card.back ? *card.back : card.front).codes) printed.code_texts.push_back(code.text.text);
  printed.warnings = std::move(card.warnings);
  printed.codes_on_back = card.back.has_value();
  return printed;
}

PrintedItem directory_item(const House& house, const Feeds& feeds, const DirectoryOptions& options) {
  const Panel& panel = row(house, options.panel);
  DirectoryOptions bare = options;
  bare.date = kNoDate, bare.revision = 0, bare.check.clear();
  PrintedItem item{"directory:" + panel.id.text(), "directory of " + panel_title(panel), ""};
  item.code = check_code_of_drawn(house, item.key, [&](Canvas& canvas) { draw_directory(house, feeds, bare, canvas); });
  return item;
}

PrintedDirectory print_directory(const House& house, const Feeds& feeds, const DirectoryOptions& options) {
  require_options(options);
  PdfCanvas canvas(panel_title(row(house, options.panel)) + ", directory of " + options.date, options.date);
  PrintedDirectory printed = draw_directory(house, feeds, options, canvas);
  printed.pdf = canvas.finish();
  return printed;
}

std::string directory_picture(const House& house, const Feeds& feeds, const DirectoryOptions& options, const PictureForm& form, int page) {
  return page_picture(form, page, [&](Canvas& canvas) { (void)draw_directory(house, feeds, options, canvas); });
}

}  // namespace ohmstead
