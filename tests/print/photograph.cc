#include "tests/print/photograph.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace ohmstead::test {

namespace {

constexpr int kFinderModules = 8;       // with its light edge
constexpr double kCameraMm = 350;       // from the page, at arm's length
constexpr double kAroundMm = 4;
constexpr double kDarkest = 0.1;        // light at the far corner, of that at the spot

std::size_t place(const Picture& picture, int x, int y) { return static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) + static_cast<std::size_t>(x); }

}  // namespace

Picture stained(const Picture& code, int modules, double share, unsigned seed) {
  const double module = static_cast<double>(code.width) / (modules + 2 * kQuietModules), side = modules * module;
  const double radius = std::sqrt(share * side * side / std::numbers::pi), edge = kQuietModules * module;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> along(radius, side - radius);
  const auto distance = [](double from, double to, double at) { return at < from ? from - at : at > to ? at - to : 0; };
  const double finder = kFinderModules * module;
  const auto meets_finder = [&](double x, double y) {
    const double left = distance(0, finder, x), right = distance(side - finder, side, x), top = distance(0, finder, y), bottom = distance(side - finder, side, y);
    return std::min({std::hypot(left, top), std::hypot(right, top), std::hypot(left, bottom)}) < radius;
  };
  double x = side / 2, y = side / 2;
  for (int tries = 0; tries < 1000; ++tries) {
    const double a = along(random), b = along(random);
    if (!meets_finder(a, b)) {
      x = a, y = b;
      break;
    }
  }
  const std::uint8_t ink = random() % 2 == 0 ? 0 : 255;
  Picture out = code;
  for (int row = 0; row < out.height; ++row)
    for (int column = 0; column < out.width; ++column)
      if (std::hypot(column + 0.5 - edge - x, row + 0.5 - edge - y) < radius) out.grey[place(out, column, row)] = ink;
  return out;
}

Picture photographed(const Picture& page, double page_dpi, const Area& area, const Frame& frame) {
  const double dots = page_dpi / 25.4, pixels = frame.dpi / 25.4;
  const double tilt = frame.tilt_degrees * std::numbers::pi / 180, turn = frame.turn_degrees * std::numbers::pi / 180;
  const double middle_x = area.x + area.width / 2, middle_y = area.y + area.height / 2, far = std::hypot(page.width, page.height) / dots;
  const double half = std::hypot(area.width, area.height) / 2 + kAroundMm;
  const int side = static_cast<int>(2 * half * pixels);
  Picture out{side, side, std::vector<std::uint8_t>(static_cast<std::size_t>(side) * static_cast<std::size_t>(side))};
  std::mt19937 random(frame.seed);
  std::normal_distribution<double> noise(0, frame.noise);
  const double more = 1.4 * half - std::min(area.width, area.height) / 2;  // what a tilted page shows more of
  const Picture soft = blurred(cropped(page, area, page_dpi, more), frame.blur_mm * dots);
  const double soft_x = area.x - more, soft_y = area.y - more, drop = -std::log(kDarkest) / far;
  for (int row = 0; row < side; ++row)
    for (int column = 0; column < side; ++column) {
      // The ray through this pixel meets the page, which is tilted away about a level line through the middle of the area.
      const double u = column / pixels - half, v = row / pixels - half;
      const double down = v * kCameraMm / (kCameraMm * std::cos(tilt) - v * std::sin(tilt)), deep = kCameraMm + down * std::sin(tilt), across = u * deep / kCameraMm;
      const double x = middle_x + across * std::cos(turn) + down * std::sin(turn), y = middle_y - across * std::sin(turn) + down * std::cos(turn);
      const double paper = soft.at(static_cast<int>((x - soft_x) * dots), static_cast<int>((y - soft_y) * dots));
      const bool glare = frame.glare_mm > 0 && x > area.right() + 1 && x < area.right() + 1 + frame.glare_mm;
      const double lit = paper * frame.light * std::exp(-drop * std::hypot(x - frame.spot_x, y - frame.spot_y));
      out.grey[place(out, column, row)] = static_cast<std::uint8_t>(std::clamp(std::lround((glare ? 255 : lit) + noise(random)), 0L, 255L));
    }
  return out;
}

}  // namespace ohmstead::test
