#include "ask/wall_sheet.h"
#include "print/fit_text.h"
#include "print/house_papers.h"
#include "print/paper_makers.h"
#include "print/text.h"

namespace ohmstead {

namespace {

// Read by flashlight at arm's length: docs/printing.md has the sizes that can be read there.
constexpr double kBodyPoints = 14, kTitlePoints = 20, kHandlePoints = 30, kToPoints = 14;
constexpr double kRowPoints = 24, kRowHandleMm = 25;  ///< for "15-17"
const TextStyle kRowHandle{Face::bold, kRowPoints};
constexpr double kNumberMm = 11;    ///< for "12" in its box
constexpr double kBoxMm = 9, kAboveMm = 1;
const TextStyle kLabel{Face::normal, kBodyPoints};
constexpr double kHandleMm = 29;    ///< for "15-17"
constexpr double kArrowMm = 30;     ///< for "to UTILITY"
const TextStyle kBody{Face::normal, kBodyPoints}, kBold{Face::bold, kBodyPoints};
const TextStyle kHandle{Face::bold, kHandlePoints};

/// Puts paragraphs one under the other.
void stack(PaperBlock& block, const PaperBlocks& parts, double y) {
  for (const PaperBlock& part : parts) {
    put_into(block, part, 0, y);
    y += part.height_mm;
  }
}

bool fits_its_place(const WallItem& item) {
  const TextExtent extent = measure_text(paper_text(item.handle), {Face::bold, kHandlePoints, Align::left, 1}, kHandleMm);
  return !extent.cut && extent.lines == 1;
}

/// "Handle of T", or "Handle" where the name is too long.
std::string label_that_fits(const std::string& what) {
  const TextExtent extent = measure_text(paper_text(what), kLabel, kHandleMm + kArrowMm - 1);
  return extent.cut || extent.lines > 1 ? what.substr(0, what.find(' ')) : what;
}

/// A handle in large print, where it goes, and what that does.
PaperBlock handle_block(const Paper& paper, const WallItem& item) {
  PaperBlock block;
  const double text_x = kNumberMm + kHandleMm + kArrowMm, high = text_height_mm(kHandle, 1);
  const double top = item.what.empty() ? 0 : text_height_mm(kLabel, 1);  // what the number is the number of stands above it
  block.texts.push_back({{kNumberMm, top, kHandleMm, high}, {Face::bold, kHandlePoints, Align::left, 1}, paper_text(item.handle)});
  block.texts.push_back({{kNumberMm + kHandleMm, top, kArrowMm - 1, high}, {Face::bold, kToPoints, Align::left, 1}, paper_text("to " + item.to)});
  if (!item.what.empty()) block.texts.push_back({{kNumberMm, 0, kHandleMm + kArrowMm - 1, top}, kLabel, paper_text(label_that_fits(item.what))});
  block.height_mm = top + high;
  PaperBlock words;
  stack(words, paper.paragraph(item.text, kBody, text_x, paper.width_mm() - text_x), 0);
  put_into(block, words, 0, std::max(0.0, (block.height_mm - words.height_mm) / 2));
  return block;
}

/// Several handles that go the same way, one under the other with what comes on; the first block says which way.
PaperBlocks row_blocks(const Paper& paper, const WallItem& item) {
  PaperBlocks blocks = paper.paragraph(item.what + " to " + item.to + ". " + item.text, kBold, kNumberMm);
  for (PaperBlock& block : blocks) block.with_next = true;
  for (const WallRow& row : item.rows) {
    PaperBlock block;
    const double text_x = kNumberMm + kRowHandleMm, high = text_height_mm(kRowHandle, 1);
    block.texts.push_back({{kNumberMm, 0, kRowHandleMm, high}, {Face::bold, kRowPoints, Align::left, 1}, paper_text(row.handle)});
    PaperBlock words;
    stack(words, paper.paragraph(row.text, kBody, text_x, paper.width_mm() - text_x), 0);
    block.height_mm = std::max(high, words.height_mm);
    put_into(block, words, 0, std::max(0.0, (high - words.height_mm) / 2));
    block.lines.push_back({{kNumberMm, block.height_mm + 0.5, paper.width_mm(), block.height_mm + 0.5}, 0.1});
    block.height_mm += 1;
    blocks.push_back(std::move(block));
  }
  return blocks;
}

PaperBlocks item_blocks(const Paper& paper, const WallItem& item) {
  if (!item.rows.empty()) return row_blocks(paper, item);
  if (item.handle.empty()) return paper.paragraph(item.text, kBody, kNumberMm);
  if (fits_its_place(item) && measure_text(paper_text(item.text), kBody, 100).lines <= 12) return {handle_block(paper, item)};
  PaperBlocks blocks = paper.paragraph((item.what.empty() ? "To " : item.what + " to ") + item.to + ":", kBold, kNumberMm);  // several handles, or much to say of one
  for (const auto& [words, style] : {std::pair(item.handle, kHandle), std::pair(item.text, kBody)})
    for (PaperBlock& part : paper.paragraph(words, style, kNumberMm)) blocks.push_back(std::move(part));
  return blocks;
}

void add_steps(Paper& paper, const WallPart& part) {
  int number = 0;
  for (const WallItem& item : part.items) {
    PaperBlocks blocks = item_blocks(paper, item);
    if (blocks.empty()) continue;
    const bool large = blocks.front().texts.front().style.points >= kHandlePoints;
    const double high = large ? text_height_mm(kHandle, 1) : text_height_mm(kBold, 1) + 0.4;
    const double y = blocks.front().texts.front().area.y, box = std::min(high, kBoxMm);  // in a box, so that it is not taken for a handle
    blocks.front().frames.push_back({{0, y + (high - box) / 2, kBoxMm, box}, 0.25});
    blocks.front().texts.insert(blocks.front().texts.begin(), {{0, y, kBoxMm, high}, {Face::normal, kBodyPoints, Align::center, 1}, std::to_string(++number)});
    if (item.rows.empty()) {
      paper.add_whole(blocks, kAboveMm);
      continue;
    }
    blocks.front().above_mm = kAboveMm;
    PaperBlock further = stacked(paper.paragraph("Step " + std::to_string(number) + " goes on: " + item.what + " to " + item.to + ", in this order.", kBold, kNumberMm));
    further.height_mm += kAboveMm;
    const auto again = std::make_shared<const PaperBlock>(further);
    for (PaperBlock& block : blocks) {  // rows may go on on the next page
      if (!block.with_next) block.again = again;
      paper.add(block);
    }
  }
}

void add_to_fill(Paper& paper, const WallPart& part) {
  for (const WallItem& item : part.items) {
    PaperBlocks blocks = paper.paragraph(item.text, kBody, 0, 85);
    PaperBlock& last = blocks.back();
    last.height_mm += 1.5;
    last.lines.push_back({{88, last.height_mm - 1.5, paper.width_mm(), last.height_mm - 1.5}, 0.3});
    paper.add_whole(blocks, 2);
  }
}

void add_part(Paper& paper, const WallPart& part) {
  if (part.kind == WallPartKind::urgent) {
    std::vector<std::string> words{part.title};
    for (const WallItem& item : part.items) words.push_back(item.text);
    paper.add_whole(paper.framed(words, kBodyPoints + 1), 2);
    return;
  }
  paper.heading(part.title, kTitlePoints);
  if (!part.first.empty()) paper.add_whole(paper.paragraph(part.first, kBody), 0.5);
  if (part.kind == WallPartKind::steps) return add_steps(paper, part);
  if (part.kind == WallPartKind::to_fill) return add_to_fill(paper, part);
  for (const WallItem& item : part.items) {
    PaperBlocks blocks = paper.paragraph(item.text, kBody, 5);
    if (!blocks.empty()) blocks.front().texts.insert(blocks.front().texts.begin(), {{0, 0, 4, text_height_mm(kBody, 1) + 0.4}, {Face::bold, kBodyPoints, Align::left, 1}, "\u2022"});
    paper.add_whole(blocks, kAboveMm);
  }
}

}  // namespace

MadePaper make_wall_paper(const PaperInput& input) {
  const WallSheet sheet = wall_sheet(input.record, input.answer);
  PaperHead head = input.head;
  head.under = sheet.source + ". Hang it beside the transfer device or the panel, with a flashlight.";
  head.foot = "Local code and a licensed electrician decide.";
  MadePaper made{Paper(input.options.sheet, head), text_of(sheet)};
  for (const WallPart& part : sheet.parts) add_part(made.paper, part);
  std::string who = "Who says so: ";
  for (std::size_t i = 0; i < sheet.sources.size(); ++i) who += (i == 0 ? "[" : "; [") + std::to_string(i + 1) + "] " + sheet.sources[i];
  if (!sheet.sources.empty()) made.paper.add_whole(made.paper.paragraph(who + ".", {Face::normal, kLeastPoints}), 3);
  return made;
}

}  // namespace ohmstead
