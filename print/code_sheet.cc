#include "print/code_sheet.h"

#include <algorithm>
#include <cmath>

namespace ohmstead {

namespace {

constexpr double kCaptionMm = 4.4;
constexpr double kGapMm = 2.5, kWidestGapMm = 12;  ///< between codes
/// Whole dots at 300 dpi: 8, 7, 6, 5; then the smallest that is allowed anywhere.
constexpr double kModules[] = {0.6773, 0.5927, 0.508, 0.4233, 0.40};
constexpr std::size_t kMostCodes = 24;

/// One way of cutting the directory into pieces.
struct Split {
  std::vector<CodeText> texts;
  int most_modules = 0;  ///< of its largest code
};

/// All ways that differ, fewest pieces first.
std::vector<Split> splits_of(const DirectoryText& directory, Correction correction) {
  std::vector<Split> splits;
  for (std::size_t pieces = 1; pieces <= std::min(kMostCodes, directory.entries.size() + 1); ++pieces) {
    Split split{code_texts_in(directory, pieces), 0};
    const bool seen = !splits.empty() && splits.back().texts.size() == split.texts.size();
    if (split.texts.empty() || seen) continue;
    for (const CodeText& text : split.texts) split.most_modules = std::max(split.most_modules, code_modules(text.text, correction));
    splits.push_back(std::move(split));
  }
  return splits;
}

std::optional<CodeSheet> placed(const Split& split, Correction correction, double module_mm, const Area& area) {
  const int modules = split.most_modules + 2 * kQuietModules;
  const double module = std::max(module_mm, kSmallestCodeMm / modules), side = modules * module;
  const auto count = split.texts.size();
  const auto across = static_cast<std::size_t>(std::max(0.0, std::floor((area.width + kGapMm) / (side + kGapMm))));
  if (across == 0) return std::nullopt;
  const std::size_t down = (count + across - 1) / across, in_row = std::min(across, count);
  CodeSheet sheet{{}, correction, module, static_cast<double>(down) * (side + kCaptionMm)};
  if (sheet.height_mm > area.height) return std::nullopt;
  const double spread = (area.width - static_cast<double>(in_row) * side) / static_cast<double>(std::max<std::size_t>(in_row, 2) - 1);
  const double gap = std::min(spread, kWidestGapMm);
  for (std::size_t i = 0; i < count; ++i) {
    QrCode code = make_code(split.texts[i].text, correction);
    const double own = code_side_mm(code, module);
    const double x = static_cast<double>(i % across) * (side + gap), y = static_cast<double>(i / across) * (side + kCaptionMm);
    sheet.codes.push_back({{x + (side - own) / 2, y + (side - own), own, own}, {x, y + side, side, kCaptionMm}, split.texts[i], std::move(code)});
  }
  return sheet;
}

}  // namespace

std::string range_text(const CodeText& text) {
  const bool one = text.first_space == text.last_space;
  return (one ? "Space " : "Spaces ") + std::to_string(text.first_space) + (one ? "" : "\u2013" + std::to_string(text.last_space));
}

std::optional<CodeSheet> plan_codes(const DirectoryText& directory, double width_mm, double height_mm,
                                    double largest_module_mm, Location location) {
  if (width_mm < kSmallestCodeMm || height_mm < kSmallestCodeMm) return std::nullopt;
  const CodeClass& allowed = code_class(location);
  for (const Correction correction : allowed.corrections) {
    const auto splits = splits_of(directory, correction);
    for (const double module : kModules) {
      if (module > largest_module_mm || module < allowed.least_module_mm) continue;
      for (const Split& split : splits)
        if (auto sheet = placed(split, correction, module, {0, 0, width_mm, height_mm})) return sheet;
    }
  }
  return std::nullopt;
}

}  // namespace ohmstead
