#include "print/grey_picture.h"

#include <turbojpeg.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <cstring>
#include <memory>

#include "house/error.h"
#include "print/picture_surface.h"
#include "print/scan.h"

namespace ohmstead {

namespace {

constexpr std::string_view kPng = "\x89PNG\r\n\x1a\n", kJpeg = "\xFF\xD8\xFF", kPgm = "P5";
constexpr std::int64_t kMostDots = 120'000'000;

[[noreturn]] void refuse(const std::string& shown, const std::string& what) { throw Error(ErrorKind::invalid_input, shown + " " + what); }

void require_size(std::int64_t width, std::int64_t height, const std::string& shown) {
  if (width < 1 || height < 1) refuse(shown, "is a damaged picture.");
  if (width > 100'000 || height > 100'000 || width * height > kMostDots)
    refuse(shown, "is a picture of more than 120 megapixels; scan one page at 300 dots per inch.");
}

GreyPicture picture_of_size(std::int64_t width, std::int64_t height) {
  return {static_cast<int>(width), static_cast<int>(height), std::vector<std::uint8_t>(static_cast<std::size_t>(width * height), 255)};
}

GreyPicture from_png(std::string_view bytes, const std::string& shown) {
  const DotSize size = size_of_png(bytes);
  require_size(size.width, size.height, shown);
  const cairo_pen::Surface surface = png_surface(bytes);
  const cairo_format_t format = surface == nullptr ? CAIRO_FORMAT_INVALID : cairo_image_surface_get_format(surface.get());
  if (format != CAIRO_FORMAT_ARGB32 && format != CAIRO_FORMAT_RGB24) refuse(shown, "is a damaged picture.");
  GreyPicture picture = picture_of_size(cairo_image_surface_get_width(surface.get()), cairo_image_surface_get_height(surface.get()));
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  const auto width = static_cast<std::size_t>(picture.width);
  for (std::size_t i = 0; i < picture.grey.size(); ++i) {
    std::uint32_t dot = 0;
    std::memcpy(&dot, data + i / width * stride + i % width * 4, 4);
    const std::uint32_t alpha = format == CAIRO_FORMAT_ARGB32 ? dot >> 24 : 255, red = dot >> 16 & 255U, green = dot >> 8 & 255U, blue = dot & 255U;
    picture.grey[i] = static_cast<std::uint8_t>(std::min(255U, (red * 77 + green * 150 + blue * 29) / 256 + 255 - alpha));  // on white; colours are premultiplied
  }
  return picture;
}

GreyPicture from_jpeg(std::string_view bytes, const std::string& shown) {
  const std::unique_ptr<void, int (*)(tjhandle)> reader(tjInitDecompress(), tjDestroy);
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  int width = 0, height = 0, sampling = 0, colours = 0;
  if (tjDecompressHeader3(reader.get(), data, static_cast<unsigned long>(bytes.size()), &width, &height, &sampling, &colours) != 0) refuse(shown, "is a damaged picture.");
  require_size(width, height, shown);
  GreyPicture picture = picture_of_size(width, height);
  if (tjDecompress2(reader.get(), data, static_cast<unsigned long>(bytes.size()), picture.grey.data(), width, 0, height, TJPF_GRAY, 0) != 0 &&
      tjGetErrorCode(reader.get()) != TJERR_WARNING)
    refuse(shown, "is a damaged picture.");
  return picture;
}

GreyPicture from_pgm(std::string_view bytes, const std::string& shown) {
  std::string_view rest = bytes.substr(kPgm.size());
  std::int64_t numbers[3] = {};
  for (std::int64_t& number : numbers) {
    while (!rest.empty() && (std::isspace(static_cast<unsigned char>(rest[0])) != 0 || rest[0] == '#'))
      rest.remove_prefix(rest[0] == '#' ? std::min(rest.find('\n'), rest.size()) : 1);
    const auto [after, fault] = std::from_chars(rest.data(), rest.data() + rest.size(), number);
    if (fault != std::errc{}) refuse(shown, "is a damaged picture.");
    rest.remove_prefix(static_cast<std::size_t>(after - rest.data()));
  }
  require_size(numbers[0], numbers[1], shown);
  if (numbers[2] != 255) refuse(shown, "is a picture with other than 8 bits for a dot; save it as PNG.");
  if (rest.size() < 1 + static_cast<std::size_t>(numbers[0] * numbers[1])) refuse(shown, "is a damaged picture.");
  GreyPicture picture = picture_of_size(numbers[0], numbers[1]);
  std::memcpy(picture.grey.data(), rest.data() + 1, picture.grey.size());
  return picture;
}

/// Mean of a row or column of dots, for each dot of another length: what of them falls on it, at least two between which it lies.
struct Mean {
  int first = 0;
  std::vector<int> weights;  ///< 256 together
};
std::vector<Mean> means(int from, int to) {
  std::vector<Mean> all;
  const double step = static_cast<double>(from) / to, reach = std::max(step, 1.0);
  for (int i = 0; i < to; ++i) {
    const double middle = (i + 0.5) * step - 0.5;
    Mean mean{static_cast<int>(std::ceil(middle - reach)), {}};
    double sum = 0;
    std::vector<double> shares;
    for (int at = mean.first; at < middle + reach; ++at) shares.push_back(std::max(0.0, 1 - std::abs(at - middle) / reach)), sum += shares.back();
    for (const double share : shares) mean.weights.push_back(static_cast<int>(std::lround(256 * share / sum)));
    all.push_back(std::move(mean));
  }
  return all;
}

}  // namespace

bool is_picture(std::string_view bytes) {
  const bool pgm = bytes.size() > 2 && bytes.starts_with(kPgm) && std::isspace(static_cast<unsigned char>(bytes[2])) != 0;
  return pgm || bytes.starts_with(kPng) || bytes.starts_with(kJpeg);
}

GreyPicture grey_picture(std::string_view bytes, const std::string& shown) {
  if (bytes.starts_with(kPng)) return from_png(bytes, shown);
  return bytes.starts_with(kJpeg) ? from_jpeg(bytes, shown) : from_pgm(bytes, shown);
}

GreyPicture resized(const GreyPicture& picture, double factor) {
  const int width = std::max(1, static_cast<int>(picture.width * factor)), height = std::max(1, static_cast<int>(picture.height * factor));
  GreyPicture narrow = picture_of_size(width, picture.height), out = picture_of_size(width, height);
  const auto dot = [](const GreyPicture& p, int x, int y) { return p.grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(p.width) + static_cast<std::size_t>(x)]; };
  const auto mean_of = [](const Mean& mean, int most, auto&& at) {
    int sum = 0, i = mean.first;
    for (const int weight : mean.weights) sum += weight * at(std::clamp(i++, 0, most - 1));
    return static_cast<std::uint8_t>(std::min(255, sum / 256));
  };
  const std::vector<Mean> across = means(picture.width, width), down = means(picture.height, height);
  std::size_t next = 0;
  for (int y = 0; y < picture.height; ++y)
    for (const Mean& mean : across) narrow.grey[next++] = mean_of(mean, picture.width, [&](int x) { return dot(picture, x, y); });
  next = 0;
  for (const Mean& mean : down)
    for (int x = 0; x < width; ++x) out.grey[next++] = mean_of(mean, picture.height, [&](int y) { return dot(narrow, x, y); });
  return out;
}

}  // namespace ohmstead
