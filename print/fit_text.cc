#include "print/fit_text.h"

#include <map>
#include <tuple>

#include "print/text.h"

namespace ohmstead {

std::vector<TextStyle> label_ladder(double points) {
  std::vector<TextStyle> ladder{{Face::normal, points, Align::left, 1}};
  for (const double share : {1.0, 0.92, 0.85}) ladder.push_back({Face::narrow, points * share, Align::left, 1});
  return ladder;
}

double text_height_mm(const TextStyle& style, int lines) {
  static std::map<std::tuple<Face, double, int>, double> known;
  const auto [height, fresh] = known.emplace(std::tuple{style.face, style.points, lines}, 0.0);
  if (fresh) {
    TextStyle tall = style;
    tall.lines = lines;
    std::string words = "Mg";
    for (int i = 1; i < lines; ++i) words += " Mg";
    height->second = measure_text(words, tall, 1.5 * style.points * kMmPerPoint).height_mm;
  }
  return height->second;
}

FittedText fit_text(const std::string& words, const std::vector<TextStyle>& ladder, double width_mm, double height_mm) {
  FittedText fallback;
  bool have_uncut = false;
  for (std::size_t step = 0; step < ladder.size(); ++step) {
    TextStyle style = ladder[step];
    while (text_height_mm(style, style.lines + 1) <= height_mm + 0.01) ++style.lines;
    const TextExtent extent = measure_text(words, style, width_mm);
    const bool fits = !extent.cut && extent.height_mm <= height_mm + 0.01;
    FittedText fitted{style, static_cast<int>(step), !fits, extent.unknown_glyphs};
    if (fits && !extent.split_word) return fitted;
    if (fits || !have_uncut) fallback = fitted;
    have_uncut = have_uncut || fits;
  }
  return fallback;
}

}  // namespace ohmstead
