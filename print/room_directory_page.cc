#include "print/room_directory_page.h"

#include <algorithm>

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "print/fit_text.h"
#include "print/house_papers.h"
#include "print/paper_makers.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr const char* kTitle = "Room by room";
constexpr const char* kFoot = "Before work: test the tester, test, test the tester again. Local code and a licensed electrician decide.";
constexpr double kPocketMarginMm = 5, kLeastPocketWidthMm = 120, kLeastPocketHeightMm = 150;
constexpr double kRowGapMm = 0.8, kRuleMm = 0.1, kRoomGapMm = 3;
constexpr int kAnyLines = 1000;

/// Widths of the columns: what, breaker, panel, backup. A column that nobody needs is 0 wide.
struct Columns {
  double what = 0, breaker = 0, panel = 0, backup = 0, gap = 2.5;
  double points = kLabelPoints;
};

TextStyle number_style(const RoomDirectoryRow& row, double points) {
  const bool found = !row.panel.empty();
  return {found ? Face::bold : Face::normal, found ? points + 2 : points, Align::left, 1};
}

/// As wide as its widest words need, but no wider than its share: the rest is for what is fed.
Columns columns_of(const RoomDirectory& directory, double width, bool large) {
  Columns columns;
  columns.points = large ? 16 : kLabelPoints;
  const auto need = [](const std::string& words, const TextStyle& style) { return measure_text(paper_text(words), style, 1000).width_mm + 0.5; };
  const TextStyle heads{Face::normal, kLeastPoints, Align::left, 1};
  double breaker = need("Breaker", heads), panel = need("Panel", heads), backup = need("Backup", heads);
  for (const RoomDirectoryPart& part : directory.parts)
    for (const RoomDirectoryRow& row : part.rows) {
      breaker = std::max(breaker, need(row.breaker, number_style(row, columns.points)));
      panel = std::max(panel, need(row.panel, {Face::narrow, columns.points}));
      backup = std::max(backup, need(row.backup, {Face::normal, columns.points}));
    }
  columns.breaker = std::min(width * 0.26, breaker);
  columns.panel = directory.several_panels ? std::min(width * 0.24, panel) : 0;
  columns.backup = directory.has_backup ? std::min(width * 0.14, backup) : 0;
  columns.what = width - columns.breaker - columns.panel - columns.backup - columns.gap * (1 + (columns.panel > 0) + (columns.backup > 0));
  return columns;
}

/// Adds a text of the row; returns its height.
double add_cell(PaperBlock& block, const std::string& words, const TextStyle& style, double x, double width) {
  if (words.empty() || width <= 0) return 0;
  TextStyle open = style;
  open.lines = kAnyLines;
  const std::string text = paper_text(words);
  const double height = measure_text(text, open, width).height_mm + 0.4;
  block.texts.push_back({{x, 0, width, height}, open, text});
  return height;
}

PaperBlock row_block(const RoomDirectoryRow& row, const Columns& columns) {
  PaperBlock block;
  const TextStyle words{Face::normal, columns.points, Align::left, 1};
  const TextStyle number = number_style(row, columns.points);
  double x = 0, height = add_cell(block, row.what, words, x, columns.what);
  x += columns.what + columns.gap;
  height = std::max(height, add_cell(block, row.breaker, number, x, columns.breaker));
  x += columns.breaker + columns.gap;
  const TextStyle small{Face::narrow, columns.points, Align::left, 1};
  if (columns.panel > 0) {
    height = std::max(height, add_cell(block, row.panel, small, x, columns.panel));
    x += columns.panel + columns.gap;
  }
  height = std::max(height, add_cell(block, row.backup, words, x, columns.backup));
  for (PlacedText& text : block.texts) text.area.y = (height - text.area.height) / 2;
  block.height_mm = height + kRowGapMm;
  block.lines.push_back({{0, block.height_mm, columns.what + columns.gap + columns.breaker + (columns.panel > 0 ? columns.panel + columns.gap : 0) + (columns.backup > 0 ? columns.backup + columns.gap : 0), block.height_mm}, kRuleMm, false});
  block.above_mm = kRowGapMm;
  return block;
}

PaperBlock heads_of(const Columns& columns, bool several_panels) {
  PaperBlock block;
  const TextStyle style{Face::normal, kLeastPoints, Align::left, 1};
  double x = columns.what + columns.gap, height = add_cell(block, "Breaker", style, x, columns.breaker);
  x += columns.breaker + columns.gap;
  if (several_panels) {
    add_cell(block, "Panel", style, x, columns.panel);
    x += columns.panel + columns.gap;
  }
  if (columns.backup > 0) add_cell(block, "Backup", style, x, columns.backup);
  block.height_mm = height, block.with_next = true;
  return block;
}

/// Rooms with their rows. A page says again what its columns are, and the room whose rows go on there.
void add_rooms(Paper& paper, const RoomDirectory& directory, const Columns& columns) {
  const PaperBlock heads = heads_of(columns, directory.several_panels);
  const auto again = std::make_shared<const PaperBlock>(heads);
  paper.add(heads);
  for (const RoomDirectoryPart& part : directory.parts) {
    const TextStyle bold{Face::bold, columns.points + 1, Align::left, 1};
    PaperBlocks blocks = paper.paragraph(part.room + (part.floor.empty() ? "" : "  \u00B7  " + part.floor), bold), further = paper.paragraph(part.room + ", continued", bold);
    for (PaperBlock& block : blocks) block.with_next = true, block.again = again;
    blocks.front().above_mm = kRoomGapMm;
    for (PaperBlock& block : blocks) paper.add(std::move(block));
    further.insert(further.begin(), heads);
    const auto continued = std::make_shared<const PaperBlock>(stacked(further));
    for (const RoomDirectoryRow& row : part.rows) {
      PaperBlock block = row_block(row, columns);
      block.again = continued;
      paper.add(std::move(block));
    }
  }
  for (const std::string& sentence : directory.key)
    for (PaperBlock& block : paper.paragraph(sentence, {Face::normal, 10, Align::left, 1})) {
      block.above_mm = &sentence == &directory.key.front() ? kRoomGapMm : 0.4;
      paper.add(std::move(block));
    }
}

Paper paper_for(const RoomDirectoryOptions& options) {
  require_date(options.date, "a directory");
  if (options.revision < 0) throw Error(ErrorKind::invalid_input, "The revision of a directory cannot be negative.");
  PaperHead head{kTitle, "What feeds each point.", kFoot, options.date, options.revision, options.check};
  if (options.sheet) return Paper(*options.sheet, std::move(head));
  head.foot = "Local code and a licensed electrician decide.";
  if (!(options.pocket_width_mm >= kLeastPocketWidthMm && options.pocket_height_mm >= kLeastPocketHeightMm && options.pocket_width_mm <= 1000 && options.pocket_height_mm <= 1000))
    throw Error(ErrorKind::invalid_input, "A directory by room needs a pocket from 120 x 150 to 1000 x 1000 mm; for a smaller one print it on a sheet: --sheet letter.");
  return Paper(options.pocket_width_mm, options.pocket_height_mm, kPocketMarginMm, std::move(head));
}

}  // namespace

PrintedRoomDirectory draw_room_directory(const RoomDirectory& directory, const RoomDirectoryOptions& options, Canvas& canvas) {
  if (directory.parts.empty()) throw Error(ErrorKind::not_found, "No points are written down yet, so there is no directory by room. Enter some, such as `Kitchen: receptacles 1-4, dishwasher`.");
  Paper paper = paper_for(options);
  const Columns columns = columns_of(directory, paper.width_mm(), options.large);
  add_rooms(paper, directory, columns);
  PrintedRoomDirectory printed;
  if (options.sheet) printed.code_texts = add_codes(paper, std::string(kTitle) + " " + options.date + " rev " + std::to_string(options.revision), text_of(directory), code_class(options.location));
  paper.draw(canvas);
  printed.pages = paper.pages();
  printed.warnings = paper.warnings();
  return printed;
}

PrintedRoomDirectory print_room_directory(const RoomDirectory& directory, const RoomDirectoryOptions& options) {
  require_date(options.date, "a directory");
  PdfCanvas canvas(std::string(kTitle) + ", " + options.date, options.date);
  PrintedRoomDirectory printed = draw_room_directory(directory, options, canvas);
  printed.pdf = canvas.finish();
  return printed;
}

std::string room_directory_picture(const RoomDirectory& directory, const RoomDirectoryOptions& options, const PictureForm& form, int page) {
  return page_picture(form, page, [&](Canvas& canvas) { (void)draw_room_directory(directory, options, canvas); });
}

}  // namespace ohmstead
