#pragma once
// Internal to papers.h: the papers of the house itself, which need no plan.

#include "print/paper_makers.h"

namespace ohmstead {

struct HousePaperInput {
  const Record& record;
  const PaperOptions& options;
  PaperHead head;  ///< title, date and revision; the maker adds the rest
  std::string code_title;  ///< what each code says first
  Location location = Location::dry;  ///< where it will hang
};

[[nodiscard]] MadePaper make_packet_paper(const HousePaperInput& input);
[[nodiscard]] MadePaper make_floor_plan_paper(const HousePaperInput& input);
[[nodiscard]] MadePaper make_signs_paper(const HousePaperInput& input);
[[nodiscard]] MadePaper make_notes_paper(const HousePaperInput& input, const Names& names);

/// The packet's photos, on pages of their own; nothing where there are none.
void add_photos(Paper& paper, const Packet& packet, const Pictures& pictures);

/// Blocks one under the other, as one.
[[nodiscard]] PaperBlock stacked(const PaperBlocks& blocks);

/// Lines to write on, side by side, each with its caption under it.
[[nodiscard]] PaperBlock signature_block(const Paper& paper, const std::vector<std::string>& captions);

/// A table: columns with their share of the width, cells that wrap, a rule above each row, the head again on every page.
class PaperTable {
 public:
  struct Column {
    std::string head;
    double share = 0;  ///< of the width of the paper
    Align align = Align::left;
  };
  PaperTable(Paper& paper, std::vector<Column> columns, double points = 9.5);
  /// One row; an empty cell stays empty. Where a row whose first cell is empty begins a page, the last first cell is said
  /// again above it. `heavy`: a thicker rule above it.
  void add(const std::vector<std::string>& cells, bool heavy = false);
  /// Puts the table on the paper.
  void finish();

 private:
  [[nodiscard]] PaperBlock row(const std::vector<std::string>& cells, Face face) const;
  [[nodiscard]] PaperBlock head() const;
  Paper& paper_;
  std::vector<Column> columns_;
  double points_;
  PaperBlocks rows_;
  std::string group_;  ///< the last first cell that was not empty
};

/// Puts blocks on the paper under a head that is repeated on every page they run on to, unless they bring their own.
void add_with_head(Paper& paper, PaperBlock head, const PaperBlocks& rows, double above_mm = 1);

}  // namespace ohmstead
