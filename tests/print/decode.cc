#include "tests/print/decode.h"

#include <zbar.h>
// After zbar.h: it defines macros of common names.
#include <ZXing/ReadBarcode.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <numbers>
#include <random>
#include <sstream>

namespace ohmstead::test {

namespace {

std::uint8_t grey_of(double value) { return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L)); }

/// Grey between pixels, by bilinear interpolation.
double sample(const Picture& picture, double x, double y) {
  const int left = static_cast<int>(std::floor(x)), top = static_cast<int>(std::floor(y));
  const double fx = x - left, fy = y - top;
  return (picture.at(left, top) * (1 - fx) + picture.at(left + 1, top) * fx) * (1 - fy) +
         (picture.at(left, top + 1) * (1 - fx) + picture.at(left + 1, top + 1) * fx) * fy;
}

template <class F>
Picture made(int width, int height, F&& grey) {
  Picture out{width, height, {}};
  out.grey.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) out.grey.push_back(grey_of(grey(x, y)));
  return out;
}

void zbar_read_once(const Picture& picture, std::set<std::string>& found) {
  zbar::ImageScanner scanner;
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  scanner.set_config(zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  scanner.set_config(zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_BINARY, 1);
  zbar::Image image(static_cast<unsigned>(picture.width), static_cast<unsigned>(picture.height), "Y800", picture.grey.data(), picture.grey.size());
  scanner.scan(image);
  for (auto symbol = image.symbol_begin(); symbol != image.symbol_end(); ++symbol) found.insert(symbol->get_data());
}

}  // namespace

std::uint8_t Picture::at(int x, int y) const {
  if (x < 0 || y < 0 || x >= width || y >= height) return 255;
  return grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
}

Picture read_pgm(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string magic;
  int most = 0;
  Picture picture;
  file >> magic >> picture.width >> picture.height >> most;
  file.get();
  if (magic != "P5" || most != 255) throw std::runtime_error("not a grey picture: " + path);
  picture.grey.resize(static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
  file.read(reinterpret_cast<char*>(picture.grey.data()), static_cast<std::streamsize>(picture.grey.size()));
  return picture;
}

Picture picture_of(const QrCode& code, int pixels_per_module) {
  const int side = (code.modules + 2 * kQuietModules) * pixels_per_module;
  return made(side, side, [&](int x, int y) {
    const int mx = x / pixels_per_module - kQuietModules, my = y / pixels_per_module - kQuietModules;
    const bool inside = mx >= 0 && my >= 0 && mx < code.modules && my < code.modules;
    return inside && code.is_dark(mx, my) ? 0.0 : 255.0;
  });
}

Picture cropped(const Picture& page, const Area& area, double dpi, double more_mm) {
  const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * dpi / 25.4)); };
  const int left = pixels(area.x - more_mm), top = pixels(area.y - more_mm);
  return made(pixels(area.width + 2 * more_mm), pixels(area.height + 2 * more_mm), [&](int x, int y) { return page.at(x + left, y + top); });
}

Picture scaled(const Picture& picture, double factor) {
  const Picture source = factor < 1 ? blurred(picture, 0.35 / factor) : picture;
  return made(static_cast<int>(picture.width * factor), static_cast<int>(picture.height * factor),
              [&](int x, int y) { return sample(source, (x + 0.5) / factor - 0.5, (y + 0.5) / factor - 0.5); });
}

Picture rotated(const Picture& picture, double degrees) {
  const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const int side = static_cast<int>(std::hypot(picture.width, picture.height)) + 2;
  const double middle = side / 2.0;
  return made(side, side, [&](int x, int y) {
    const double dx = x - middle, dy = y - middle;
    return sample(picture, c * dx + s * dy + picture.width / 2.0, -s * dx + c * dy + picture.height / 2.0);
  });
}

Picture blurred(const Picture& picture, double sigma) {
  const int reach = std::max(1, static_cast<int>(std::ceil(3 * sigma)));
  std::vector<double> weights;
  double sum = 0;
  for (int i = -reach; i <= reach; ++i) weights.push_back(std::exp(-i * i / (2 * sigma * sigma))), sum += weights.back();
  const auto along = [&](const Picture& from, int dx, int dy) {
    return made(from.width, from.height, [&](int x, int y) {
      double value = 0;
      for (int i = -reach; i <= reach; ++i) value += weights[static_cast<std::size_t>(i + reach)] * from.at(x + i * dx, y + i * dy);
      return value / sum;
    });
  };
  return along(along(picture, 1, 0), 0, 1);
}

Picture noisy(const Picture& picture, double sigma, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<double> noise(0, sigma);
  return made(picture.width, picture.height, [&](int x, int y) { return picture.at(x, y) + noise(random); });
}

Picture faded(const Picture& picture, double share) {
  return made(picture.width, picture.height, [&](int x, int y) { return 255 - share * (255 - picture.at(x, y)); });
}

std::set<std::string> zbar_read(const Picture& picture) {
  std::set<std::string> found;
  for (const double factor : {1.0, 2.0, 0.5, 1.0 / 3}) {
    const double pixels = factor * std::max(picture.width, picture.height);
    if (pixels > 4200 || (factor > 1 && pixels > 1500) || (factor < 1 && pixels < 100)) continue;
    zbar_read_once(factor == 1 ? picture : scaled(picture, factor), found);
  }
  return found;
}

std::string zxing_read(const Picture& picture) {
  ZXing::DecodeHints hints;
  hints.setFormats(ZXing::BarcodeFormat::QRCode).setTryHarder(true);
  const auto result = ZXing::ReadBarcode({picture.grey.data(), picture.width, picture.height, ZXing::ImageFormat::Lum}, hints);
  return result.isValid() ? std::string(result.bytes().begin(), result.bytes().end()) : "";
}

std::string output_of(const std::string& command) {
  struct Close {
    void operator()(FILE* pipe) const { pclose(pipe); }
  };
  const std::unique_ptr<FILE, Close> pipe(popen(command.c_str(), "r"));
  EXPECT_TRUE(pipe) << command;
  std::string out;
  std::array<char, 4096> part{};
  for (std::size_t got = 0; pipe && (got = fread(part.data(), 1, part.size(), pipe.get())) > 0;) out.append(part.data(), got);
  return out;
}

TemporaryFolder::TemporaryFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "card-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string TemporaryFolder::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(path(name), std::ios::binary) << bytes;
  return path(name);
}

Picture rendered(const std::string& pdf, int page, int dpi) {
  const TemporaryFolder folder;
  const std::string file = folder.write("card.pdf", pdf), number = std::to_string(page + 1);
  (void)output_of("pdftoppm -gray -singlefile -r " + std::to_string(dpi) + " -f " + number + " -l " + number + " " + file + " " + folder.path("page") + " 2>&1");
  return read_pgm(folder.path("page.pgm"));
}

std::string text_of_pdf(const std::string& pdf) {
  const TemporaryFolder folder;
  return output_of("pdftotext -raw -enc UTF-8 " + folder.write("card.pdf", pdf) + " - 2>&1");
}

}  // namespace ohmstead::test
