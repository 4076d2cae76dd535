#include "print/label_fit.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "print/fit_text.h"
#include "print/text.h"

namespace ohmstead::label_fit {

namespace {

constexpr double kAnyWidthMm = 10'000, kMeasuredPoints = 10;
constexpr int kAnyLines = 60;
constexpr double kSlackMm = 0.1, kHeightSlackMm = 0.01;
constexpr double kLeastSpacing = 0.85;  ///< lines stand at least so close
constexpr std::size_t kMostKnown = 20'000;  ///< texts whose width is remembered

/// In one line at 10 pt.
const TextExtent& in_one_line(const std::string& words, Face face) {
  static std::map<std::pair<Face, std::string>, TextExtent> known;
  if (known.size() > kMostKnown) known.clear();
  const auto [found, fresh] = known.try_emplace({face, words});
  if (fresh) found->second = measure_text(words, {face, kMeasuredPoints, Align::left, 1}, kAnyWidthMm);
  return found->second;
}

/// In as many lines as it needs.
const TextExtent& in_lines(const std::string& words, const TextStyle& style, double width) {
  static std::map<std::tuple<Face, double, double, std::string>, TextExtent> known;
  if (known.size() > kMostKnown) known.clear();
  const auto [found, fresh] = known.try_emplace({style.face, style.points, width, words});
  if (fresh) found->second = measure_text(words, {style.face, style.points, Align::left, kAnyLines}, width);
  return found->second;
}

}  // namespace

double width_mm(const std::string& words, const TextStyle& style) { return in_one_line(words, style.face).width_mm * style.points / kMeasuredPoints; }

double line_mm(const TextStyle& style) { return text_height_mm(style, 1); }

double least_height_mm(const std::string& words, const TextStyle& style, double width) {
  if (width <= 0) return kAnyWidthMm;
  const TextExtent flat = in_one_line(words, style.face);
  const double scale = style.points / kMeasuredPoints, line = flat.height_mm * scale, spaces = 0.5 * line;  // a line ends in a space that needs no room
  const double lines = std::max(1.0, std::ceil((flat.width_mm * scale + spaces) / (width + spaces)));
  return line + (lines - 1) * std::min(line, line_mm(style)) * kLeastSpacing;
}

std::optional<Set> set_text(const std::string& words, const TextStyle& style, const Room& room) {
  const TextExtent flat = in_one_line(words, style.face);
  const double scale = style.points / kMeasuredPoints;
  Set set{words, style, flat.width_mm * scale, flat.height_mm * scale, 1, flat.unknown_glyphs};
  set.style.lines = 1;
  if (set.height_mm > room.most_mm + kHeightSlackMm) return std::nullopt;
  if (set.width_mm + kSlackMm <= room.width_mm) return set;
  if (least_height_mm(words, style, room.width_mm) > room.most_mm) return std::nullopt;
  const TextExtent& extent = in_lines(words, style, room.width_mm);
  if (extent.cut || (extent.split_word && !room.may_split) || extent.height_mm > room.most_mm + kHeightSlackMm) return std::nullopt;
  set.width_mm = extent.width_mm, set.height_mm = extent.height_mm, set.lines = set.style.lines = extent.lines;
  return set;
}

}  // namespace ohmstead::label_fit
