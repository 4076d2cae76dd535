#pragma once
// Sheets of paper: blocks that stay whole, one under the other, on as many pages as they need, each page with
// its head and its foot. Widths and places are within the margins.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "print/canvas.h"
#include "print/code.h"
#include "print/directory.h"
#include "print/directory_page.h"

namespace ohmstead {

struct PaperLine {
  Segment segment;
  double width_mm = 0.2;
  bool dashed = false;
};
struct PaperCode {
  Area area;
  QrCode code;
};
struct PaperTint {
  Area area;
  Tint tint = Tint::red;
};

struct PaperPicture {
  Area area;
  std::shared_ptr<const std::string> jpeg;
};

/// Something that is never cut by the end of a page. Places are relative to its corner.
struct PaperBlock {
  double height_mm = 0;
  double above_mm = 0;     ///< white space above it, unless it is the first of its page
  bool with_next = false;  ///< is not the last of its page: a heading
  std::shared_ptr<const PaperBlock> again;  ///< stands above it where it is the first of a further page: the head of its table
  std::vector<PlacedText> texts;
  std::vector<PaperLine> lines;
  std::vector<CardSide::Frame> frames;
  std::vector<PaperCode> codes;
  std::vector<PaperTint> tints;  ///< under everything else
  std::vector<PaperPicture> pictures;
};
using PaperBlocks = std::vector<PaperBlock>;

/// Of a paper that is made from no record.
inline constexpr std::int64_t kNoRevision = -1;

/// What every page says of itself.
struct PaperHead {
  std::string title;   ///< "Outage plan: Hillside"
  std::string under;   ///< a line or two under the title of the first page; may be empty
  std::string foot;    ///< at the foot of every page, beside the page's number
  std::string date;    ///< YYYY-MM-DD
  std::int64_t revision = 0;   ///< kNoRevision: none is printed
  std::string check;           ///< check code, at the foot of every page; empty: none
};

/// Places a block inside another one, moved by x and y.
void put_into(PaperBlock& whole, const PaperBlock& part, double x, double y);

class Paper {
 public:
  Paper(Sheet sheet, PaperHead head);
  /// Pages of another size, such as a door pocket's, with this margin on every side.
  Paper(double page_width_mm, double page_height_mm, double margin_mm, PaperHead head);

  /// Room within the margins: the width, and the most that a block can be high.
  [[nodiscard]] double width_mm() const;
  [[nodiscard]] double room_mm() const;

  /// A paragraph `left_mm` from the left margin, `width_mm` wide (0: to the right margin). What is longer than a page is
  /// parted between words, so that nothing is cut. Texts from the record are made printable here.
  [[nodiscard]] PaperBlocks paragraph(const std::string& words, const TextStyle& style, double left_mm = 0, double width_mm = 0) const;
  /// Paragraphs in a frame, the first in bold; in several where they are higher than a page.
  [[nodiscard]] PaperBlocks framed(const std::vector<std::string>& words, double points, double left_mm = 0) const;

  void add(PaperBlock block);
  /// As one block, if they are not higher than a page together; else one after another.
  void add_whole(const PaperBlocks& blocks, double above_mm = 0);
  /// A heading, on the page of what follows it.
  void heading(const std::string& words, double points = 13);
  void new_page();

  /// Draws all pages. What could not be read whole or has no glyphs is in warnings() then.
  void draw(Canvas& canvas);
  [[nodiscard]] int pages() const;  ///< of the last draw
  [[nodiscard]] const std::vector<std::string>& warnings() const { return warnings_; }
  void warn(const std::string& sentence);  ///< each sentence once

 private:
  struct Placing {
    const PaperBlock* block = nullptr;
    int page = 0;
    double y = 0;
  };
  [[nodiscard]] std::vector<Placing> place() const;
  [[nodiscard]] double head_mm(int page) const;
  void draw_page(Canvas& canvas, int page, const std::vector<Placing>& placings);
  void text(Canvas& canvas, const PlacedText& text);

  double page_width_mm_, page_height_mm_, margin_mm_;
  PaperHead head_;
  PaperBlocks blocks_;
  std::vector<std::size_t> breaks_;  ///< a page begins before these blocks
  std::vector<std::string> warnings_;
  int pages_ = 0;
};

/// The text as it is printed: control characters made visible, numbers kept on one line with their units.
[[nodiscard]] std::string paper_text(const std::string& words);

/// Any date YYYY-MM-DD? Throws Error{invalid_input} naming `what` if not.
void require_date(const std::string& date, const char* what);

}  // namespace ohmstead
