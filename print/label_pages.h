#pragma once
// Internal to labels.h: putting laid-out labels on pages, and what is reported of them.

#include "print/label_layout.h"
#include "print/labels.h"

namespace ohmstead {

/// A label ready to be put somewhere.
struct LaidOutLabel {
  const LabelItem& item;
  const LabelLook& look;
  const LabelFace& face;
};

/// Pages while they grow.
class LabelPageMaker {
 public:
  explicit LabelPageMaker(const LabelOptions& options);
  [[nodiscard]] const LabelOptions& options() const { return options_; }
  [[nodiscard]] const LabelStock& stock() const { return options_.stock; }
  /// "2026-11-25", "rev 12"
  [[nodiscard]] std::vector<std::string> small_print() const;
  [[nodiscard]] std::string check_of(const std::string& key) const { return options_.check_code ? options_.check_code(key) : std::string(); }

  PaperBlock& page(int number, double width_mm, double height_mm);
  /// Puts a label there and notes what must be reported. The face fits.
  void put(PaperBlock& page, const LaidOutLabel& label, double x, double y);
  /// The finished pages, moved as the stock says. Throws if the printer does not reach something.
  [[nodiscard]] LabelPages finish();
  LabelPages pages;

 private:
  void warn_of_codes();
  void require_printable() const;
  const LabelOptions& options_;
  int left_out_ = 0, without_code_ = 0;
  double code_width_mm_ = 0, code_height_mm_ = 0;  ///< of labels that would have their codes
  std::string first_left_out_;
};

/// Throws Error{invalid_input}: labels of this size are too small for these, and which size is not.
[[noreturn]] void refuse_size(const std::vector<LabelItem>& items, const LabelLook& look, const std::string& what);

}  // namespace ohmstead
