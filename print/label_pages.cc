#include "print/label_pages.h"

#include <algorithm>
#include <cmath>

#include "house/error.h"
#include "print/code_sheet.h"
#include "print/text.h"

namespace ohmstead {

namespace {

std::string labels_text(int count) { return std::to_string(count) + (count == 1 ? " label" : " labels"); }

}  // namespace

LabelPageMaker::LabelPageMaker(const LabelOptions& options) : options_(options) {
  require_date(options.date, "labels");
  if (options.revision < 0) throw Error(ErrorKind::invalid_input, "The revision of labels cannot be negative.");
  if (!(options.stock.dpi >= 100 && options.stock.dpi <= 1200)) throw Error(ErrorKind::invalid_input, "A printer for labels has from 100 to 1200 dots per inch.");
}

std::vector<std::string> LabelPageMaker::small_print() const { return {options_.date, "rev " + std::to_string(options_.revision)}; }

PaperBlock& LabelPageMaker::page(int number, double width_mm, double height_mm) {
  while (static_cast<int>(pages.pages.size()) <= number) pages.pages.push_back({width_mm, height_mm, {}});
  return pages.pages[static_cast<std::size_t>(number)].content;
}

void LabelPageMaker::put(PaperBlock& page, const LaidOutLabel& label, double x, double y) {
  const auto& [item, look, face] = label;
  pages.labels += item.heading ? 0 : 1;
  for (PlacedText text : face.texts) {
    text.area.x += x, text.area.y += y;
    page.texts.push_back(std::move(text));
  }
  if (face.unknown_glyphs > 0) pages.warnings.push_back("The " + item.name + " has " + unknown_glyphs_text(face.unknown_glyphs));
  if (face.left_out > 0 && left_out_++ == 0) first_left_out_ = item.name;
  if (face.code) {
    const double dot = 25.4 / stock().dpi;  // a code begins at a dot, so that its modules are whole
    Area area{std::floor((face.code->area.x + x) / dot) * dot, std::round((face.code->area.y + y) / dot) * dot, face.code->area.width, face.code->area.height};
    page.codes.push_back({area, face.code->code});
    pages.code_texts.push_back(face.code->text);
  } else if (!item.codes.empty() && look.code) {
    ++without_code_;
    LabelLook own = look;
    own.width_mm = std::max(own.width_mm, code_width_mm_), own.height_mm = std::max(own.height_mm, code_height_mm_);
    const Area size = least_size_with_code(item, own);
    code_width_mm_ = size.width, code_height_mm_ = size.height;
  }
}

void LabelPageMaker::warn_of_codes() {
  if (left_out_ > 0)
    pages.warnings.push_back(labels_text(left_out_) + " had no room for everything that is known (the first: " + first_left_out_ + "); the least important is left out. Larger labels hold more.");
  if (without_code_ == 0) return;
  pages.warnings.push_back(labels_text(without_code_) + (without_code_ == 1 ? " has" : " have") + " no room for a code, whose modules are never smaller than 0.40 mm, in a wet place 0.50 mm; " +
                           (stock().form == StockForm::tape ? "a tape of which " + mm_text(code_height_mm_) + " mm can be printed on has it."
                                                            : "labels of " + size_text(code_width_mm_, code_height_mm_) + " or more have it."));
}

void LabelPageMaker::require_printable() const {
  if (stock().form == StockForm::tape) return;
  double least = stock().printer_margin_mm;
  bool of_code = false;
  for (const LabelPage& page : pages.pages) {
    const auto look = [&](const Area& area, bool is_code) {
      const double free = std::min({area.x, area.y, page.width_mm - area.right(), page.height_mm - area.bottom()});
      if (free < least - 0.01) least = free, of_code = is_code;
    };
    for (const PlacedText& text : page.content.texts) look(text.area, false);
    for (const PaperCode& code : page.content.codes) {
      const double quiet = code.area.width / (code.code.modules + 2 * kQuietModules) * kQuietModules;  // white paper serves as well
      look({code.area.x + quiet, code.area.y + quiet, code.area.width - 2 * quiet, code.area.height - 2 * quiet}, true);
    }
  }
  if (least >= stock().printer_margin_mm - 0.01) return;
  throw Error(ErrorKind::invalid_input, std::string(of_code ? "A code" : "A label's text") + " would be " + mm_text(std::max(0.0, least)) + " mm from the edge of the page, and the printer leaves " +
                                            mm_text(stock().printer_margin_mm) + " mm there blank; margins of the sheet " + mm_text(stock().printer_margin_mm - least) +
                                            " mm larger would do, or a printer that is known to reach farther (--printer-margin).");
}

LabelPages LabelPageMaker::finish() {
  warn_of_codes();
  for (LabelPage& page : pages.pages) {
    PaperBlock moved;
    put_into(moved, page.content, stock().shift_x_mm, stock().shift_y_mm);
    page.content = std::move(moved);
  }
  require_printable();
  return std::move(pages);
}

void refuse_size(const std::vector<LabelItem>& items, const LabelLook& look, const std::string& what) {
  Area least{0, 0, look.width_mm, look.height_mm};
  for (const LabelItem& item : items) {
    if (item.heading) continue;
    LabelLook own = look;
    own.width_mm = least.width, own.height_mm = least.height;
    const Area size = least_label_size(item, own);
    least.width = std::max(least.width, size.width), least.height = std::max(least.height, size.height);
  }
  throw Error(ErrorKind::invalid_input, what + " of " + size_text(look.width_mm, look.height_mm) + " is too small for what must be on it in letters that can be read; give at least " +
                                            size_text(least.width, least.height) + ".");
}

}  // namespace ohmstead
