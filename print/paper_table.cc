#include "print/house_papers.h"

namespace ohmstead {

namespace {
constexpr double kPadMm = 0.6;  ///< between a rule and the words under it
}

PaperBlock signature_block(const Paper& paper, const std::vector<std::string>& captions) {
  PaperBlock sign;
  sign.height_mm = 14, sign.above_mm = 4;
  const double each = paper.width_mm() / static_cast<double>(captions.size()), wide = each - 6;
  double x = 0;
  for (const std::string& caption : captions) {
    sign.lines.push_back({{x, 9, x + wide, 9}, 0.25});
    sign.texts.push_back({{x, 9.4, wide, 4.4}, {Face::normal, 9, Align::left, 1}, caption});
    x += each;
  }
  return sign;
}

PaperBlock stacked(const PaperBlocks& blocks) {
  PaperBlock whole;
  double y = 0;
  for (const PaperBlock& block : blocks) {
    if (&block != &blocks.front()) y += block.above_mm;
    put_into(whole, block, 0, y);
    y += block.height_mm;
  }
  return whole;
}

PaperTable::PaperTable(Paper& paper, std::vector<Column> columns, double points) : paper_(paper), columns_(std::move(columns)), points_(points) {}

PaperBlock PaperTable::row(const std::vector<std::string>& cells, Face face) const {
  PaperBlock made;
  double x = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const double wide = columns_[c].share * paper_.width_mm();
    if (c < cells.size() && !cells[c].empty()) put_into(made, stacked(paper_.paragraph(cells[c], {face, points_, columns_[c].align}, x + 0.5, wide - 2)), 0, kPadMm);
    x += wide;
  }
  made.height_mm += kPadMm * 0.5;
  return made;
}

void PaperTable::add(const std::vector<std::string>& cells, bool heavy) {
  PaperBlock made = row(cells, Face::normal);
  double x = 0;  // what is not said again is not parted from what stands above it
  for (std::size_t c = 0; !heavy && c < cells.size() && cells[c].empty(); ++c) x += columns_[c].share * paper_.width_mm();
  if (!cells.empty() && !cells[0].empty()) group_ = cells[0];
  else if (!group_.empty()) made.again = std::make_shared<const PaperBlock>(stacked({head(), row({group_ + ", continued"}, Face::normal)}));
  made.lines.push_back({{x, 0, paper_.width_mm(), 0}, heavy ? 0.45 : 0.12});
  rows_.push_back(std::move(made));
}

PaperBlock PaperTable::head() const {
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  return row(heads, Face::bold);
}

void PaperTable::finish() {
  add_with_head(paper_, head(), rows_);
  rows_.clear();
  group_.clear();
}

void add_with_head(Paper& paper, PaperBlock head, const PaperBlocks& rows, double above_mm) {
  const auto again = std::make_shared<const PaperBlock>(head);
  head.above_mm = above_mm, head.with_next = true;
  paper.add(std::move(head));
  for (PaperBlock row : rows) {
    if (row.again == nullptr) row.again = again;
    paper.add(std::move(row));
  }
}

}  // namespace ohmstead
