#include "print/code_sheet.h"

#include <algorithm>
#include <cmath>

namespace ohmstead {

namespace {

constexpr double kCaptionMm = 4.4;
constexpr double kGapMm = 2.5;
/// Whole dots at 300 dpi: 6, 5; then the smallest that is allowed.
constexpr double kModules[] = {0.508, 0.4233, kSmallestModuleMm};
constexpr std::size_t kMostCodes = 24;

struct Encoded {
  std::vector<CodeText> texts;
  std::vector<QrCode> codes;
  int most_modules = 0;
};

Encoded encode(const DirectoryText& directory, std::size_t pieces, Correction correction) {
  Encoded encoded{code_texts_in(directory, pieces), {}, 0};
  for (const CodeText& text : encoded.texts) {
    encoded.codes.push_back(make_code(text.text, correction));
    encoded.most_modules = std::max(encoded.most_modules, encoded.codes.back().modules);
  }
  return encoded;
}

std::optional<CodeSheet> placed(const Encoded& encoded, double module_mm, double width, double height) {
  const int modules = encoded.most_modules + 2 * kQuietModules;
  const double module = std::max(module_mm, kSmallestCodeMm / modules);
  const double side = modules * module;
  const auto across = static_cast<std::size_t>(std::max(0.0, std::floor((width + kGapMm) / (side + kGapMm))));
  if (across == 0) return std::nullopt;
  const std::size_t down = (encoded.codes.size() + across - 1) / across;
  CodeSheet sheet;
  sheet.module_mm = module;
  sheet.height_mm = static_cast<double>(down) * (side + kCaptionMm);
  if (sheet.height_mm > height) return std::nullopt;
  const std::size_t in_row = std::min(across, encoded.codes.size());
  const double gap = in_row > 1 ? std::min((width - static_cast<double>(in_row) * side) / static_cast<double>(in_row - 1), 12.0) : 0;
  for (std::size_t i = 0; i < encoded.codes.size(); ++i) {
    const double own = code_side_mm(encoded.codes[i], module);
    const double x = static_cast<double>(i % across) * (side + gap), y = static_cast<double>(i / across) * (side + kCaptionMm);
    sheet.codes.push_back({{x + (side - own) / 2, y + (side - own), own, own}, {x, y + side, side, kCaptionMm}, encoded.texts[i], encoded.codes[i]});
  }
  return sheet;
}

}  // namespace

std::string range_text(const CodeText& text) {
  return (text.first_space == text.last_space ? "Space " : "Spaces ") + std::to_string(text.first_space) +
         (text.first_space == text.last_space ? "" : "\u2013" + std::to_string(text.last_space));
}

std::optional<CodeSheet> plan_codes(const DirectoryText& directory, double width_mm, double height_mm) {
  for (const Correction correction : {Correction::quartile, Correction::medium}) {
    std::vector<Encoded> splits;
    for (std::size_t pieces = 1; pieces <= std::min(kMostCodes, directory.entries.size() + 1); ++pieces) {
      Encoded encoded = encode(directory, pieces, correction);
      const bool seen = !splits.empty() && splits.back().texts.size() == encoded.texts.size();
      if (!encoded.texts.empty() && !seen) splits.push_back(std::move(encoded));
    }
    for (const double module : kModules)
      for (const Encoded& encoded : splits)
        if (auto sheet = placed(encoded, module, width_mm, height_mm)) {
          sheet->correction = correction;
          return sheet;
        }
  }
  return std::nullopt;
}

}  // namespace ohmstead
