#include "print/label_layout.h"

#include <algorithm>
#include <cmath>

#include "print/code_class.h"

namespace ohmstead {

namespace {

const CodeClass& class_of(const LabelItem& item, const LabelLook& look) { return code_class(look.location.value_or(item.location)); }

/// Sides of a module that are allowed, largest first: whole dots of the printer, and the smallest of all.
std::vector<double> modules_for(double dpi, const CodeClass& allowed) {
  std::vector<double> modules;
  const double dot = 25.4 / dpi, least = allowed.least_module_mm;
  for (int dots = static_cast<int>(std::floor(allowed.most_module_mm / dot + 1e-6)); dots * dot >= least - 1e-9 && dots > 0; --dots) modules.push_back(dots * dot);
  if (modules.empty() || modules.back() > least + 1e-6) modules.push_back(least);
  return modules;
}

/// A code before it is made.
struct CodeSize {
  const std::string* text = nullptr;
  Correction correction = Correction::medium;
  double side_mm = 0;
};

/// Codes of at most this side, the best first: modules of the first step, the longest text, the stronger correction, the largest module.
std::vector<CodeSize> codes_within(const LabelItem& item, const LabelLook& look, double most_mm) {
  std::vector<CodeSize> sizes;
  const CodeClass& allowed = class_of(item, look);
  const std::vector<double> modules = modules_for(look.dpi, allowed);
  const auto add = [&](const std::string& text, Correction correction, double module) {
    const double side = (code_modules(text, correction) + 2 * kQuietModules) * module;
    if (side <= most_mm + 1e-6 && (sizes.empty() || side < sizes.back().side_mm - 0.5)) sizes.push_back({&text, correction, side});
  };
  for (double above = 1000; const double least : allowed.steps_mm) {
    for (const std::string& text : item.codes)
      for (const Correction correction : allowed.corrections)
        for (const double module : modules)
          if (module >= least - 1e-6 && module < above - 1e-6) add(text, correction, module);
    above = least;
  }
  return sizes;
}

}  // namespace

namespace {

constexpr double kLeastWordsHighMm = 15;  ///< above a code

/// The largest code that the label has room for.
double most_code_mm(const LabelLook& look) {
  const double inset = 2 * look.code_inset_mm;
  if (look.code_below) return std::min({look.width_mm - inset, look.height_mm - kLeastWordsHighMm - inset, look.most_code_mm});
  return std::min({look.height_mm - inset, look.width_mm - inset - look.margin_mm - kLeastWordsMm, look.most_code_mm});
}

/// The words with room for such a code left free; it may move to the left by a dot.
LabelFace words_with(const LabelItem& item, const LabelLook& look, double side_mm) {
  const double taken = side_mm + 25.4 / look.dpi + look.code_inset_mm;
  if (!look.code_below) return fit_words(item, look, taken);
  LabelLook above = look;
  above.height_mm -= taken;
  return fit_words(item, above, 0);
}

Area place_of_code(const LabelLook& look, double side) {
  const double x = look.code_below ? (look.width_mm - side) / 2 : look.width_mm - look.code_inset_mm - side;
  return {x, look.code_below ? look.height_mm - look.code_inset_mm - side : (look.height_mm - side) / 2, side, side};
}

}  // namespace

LabelFace lay_out_label(const LabelItem& item, const LabelLook& look) {
  LabelFace plain = fit_words(item, look, 0);
  if (!look.code || item.codes.empty() || !plain.fits) return plain;
  LabelFace best;
  CodeSize code;
  constexpr std::size_t kMostTried = 5;
  const std::vector<CodeSize> sizes = codes_within(item, look, most_code_mm(look));
  for (std::size_t i = 0; i < std::min(sizes.size(), kMostTried); ++i) {
    LabelFace face = words_with(item, look, sizes[i].side_mm);
    if (!face.fits || face.left_out > plain.left_out) continue;  // words come before the code
    if (!best.fits || face.shortened < best.shortened) best = std::move(face), code = sizes[i];
    if (best.shortened <= plain.shortened) break;
  }
  if (!best.fits) return plain;
  best.code = LabelCode{place_of_code(look, code.side_mm), make_code(*code.text, code.correction), *code.text};
  return best;
}

Area least_label_size(const LabelItem& item, LabelLook look) {
  look.code = false;
  const double width = std::ceil(look.width_mm - 1e-6), height = std::ceil(look.height_mm - 1e-6);
  constexpr double kMostMoreMm = 200, kStepMm = 4;
  const auto fits = [&](double w, double h) {
    look.width_mm = w, look.height_mm = h;
    return fit_words(item, look, 0).fits;
  };
  Area best{0, 0, width + kMostMoreMm, height + kMostMoreMm};
  for (double w = width; w - width <= kMostMoreMm; w += kStepMm) {
    if (!fits(w, height + kMostMoreMm)) continue;
    double low = height - 1, high = height + kMostMoreMm;  // does not fit, fits
    while (high - low > 1) {
      const double middle = std::floor((low + high) / 2);
      (fits(w, middle) ? high : low) = middle;
    }
    if (w + high < best.width + best.height) best.width = w, best.height = high;
    if (high <= height) break;
  }
  return best;
}

Area least_size_with_code(const LabelItem& item, LabelLook look) {
  constexpr double kMostMm = 150;
  const CodeClass& allowed = class_of(item, look);
  look.width_mm = std::ceil(look.width_mm - 1e-6), look.height_mm = std::ceil(look.height_mm - 1e-6);
  while (look.width_mm < kMostMm && look.height_mm < kMostMm && !lay_out_label(item, look).code) {
    const double least = (code_modules(item.codes.back(), allowed.corrections.back()) + 2 * kQuietModules) * allowed.least_module_mm;
    if (look.code_below) {
      look.width_mm = std::max(look.width_mm, std::ceil(least + 2 * look.code_inset_mm));
      look.height_mm = std::max(look.height_mm + 1, std::ceil(least + kLeastWordsHighMm));
    } else if (look.height_mm < least) look.height_mm = std::ceil(least);
    else if (look.width_mm < least + look.margin_mm + kLeastWordsMm) look.width_mm = std::ceil(least + look.margin_mm + kLeastWordsMm);
    else look.width_mm += 2, look.height_mm += 1;
  }
  return {0, 0, look.width_mm, look.height_mm};
}

}  // namespace ohmstead
