// Photos as they are taken in: nothing but the picture is left of them, turned as it was held, within the limits.

#include "print/photo_picture.h"

#include <cairo.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <turbojpeg.h>

#include <array>
#include <random>

#include "db/plain_jpeg.h"
#include "house/error.h"
#include "print/cairo_pen.h"
#include "print/exif_turn.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using Dots = std::vector<unsigned char>;  ///< red, green, blue; row by row

std::string jpeg_of(const Dots& dots, int width, int flags = 0) {
  const tjhandle writer = tjInitCompress();
  unsigned char* bytes = nullptr;
  unsigned long length = 0;
  EXPECT_EQ(tjCompress2(writer, dots.data(), width, 0, static_cast<int>(dots.size()) / width / 3, TJPF_RGB, &bytes, &length, TJSAMP_444, 95, flags), 0);
  std::string made(reinterpret_cast<char*>(bytes), length);
  tjFree(bytes), tjDestroy(writer);
  return made;
}

/// Red, green, blue and white quarters: left above, right above, left below, right below.
Dots quarters(int width, int height) {
  Dots dots;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const bool right = x >= width / 2, below = y >= height / 2;
      const std::array<int, 3> color = below ? right ? std::array{255, 255, 255} : std::array{0, 0, 255} : right ? std::array{0, 255, 0} : std::array{255, 0, 0};
      for (const int part : color) dots.push_back(static_cast<unsigned char>(part));
    }
  return dots;
}

Dots noise(int width, int height) {
  std::mt19937 random(7);
  Dots dots(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  for (unsigned char& dot : dots) dot = static_cast<unsigned char>(random());
  return dots;
}

/// 'r', 'g', 'b' or 'w' at a place of a JPEG, each from 0 to 1.
char color_at(const std::string& jpeg, double x, double y) {
  const tjhandle reader = tjInitDecompress();
  const auto* data = reinterpret_cast<const unsigned char*>(jpeg.data());
  int width = 0, height = 0, sampling = 0, colors = 0;
  EXPECT_EQ(tjDecompressHeader3(reader, data, jpeg.size(), &width, &height, &sampling, &colors), 0);
  Dots dots(static_cast<std::size_t>(width * height * 3));
  EXPECT_EQ(tjDecompress2(reader, data, jpeg.size(), dots.data(), width, 0, height, TJPF_RGB, 0), 0);
  tjDestroy(reader);
  const unsigned char* dot = &dots[static_cast<std::size_t>((static_cast<int>(y * height) * width + static_cast<int>(x * width)) * 3)];
  if (dot[0] > 180 && dot[1] > 180 && dot[2] > 180) return 'w';
  return dot[0] > 180 ? 'r' : dot[1] > 180 ? 'g' : dot[2] > 180 ? 'b' : '?';
}
std::string corners(const std::string& jpeg) { return {color_at(jpeg, .2, .2), color_at(jpeg, .8, .2), color_at(jpeg, .2, .8), color_at(jpeg, .8, .8)}; }

std::string number(unsigned value, int bytes, bool little) {
  std::string text;
  for (int i = 0; i < bytes; ++i) text += static_cast<char>(value >> 8 * (little ? i : bytes - 1 - i));
  return text;
}
std::string entry(unsigned tag, unsigned type, unsigned count, const std::string& value, bool little) {
  return number(tag, 2, little) + number(type, 2, little) + number(count, 4, little) + (value + std::string(4, '\0')).substr(0, 4);
}

/// EXIF with an orientation and a place: 48 degrees north (EXIF 2.3, 4.6.3 and 4.6.6).
std::string exif(unsigned turn, bool little) {
  const std::string head = std::string(little ? "II" : "MM") + number(42, 2, little) + number(8, 4, little);
  const std::string first = number(3, 2, little) + entry(0x010F, 2, 4, "CAM", little) + entry(0x0112, 3, 1, number(turn, 2, little), little) + entry(0x8825, 4, 1, number(50, 4, little), little) + number(0, 4, little);
  const std::string place = number(2, 2, little) + entry(1, 2, 2, std::string("N", 2), little) + entry(2, 5, 3, number(80, 4, little), little) + number(0, 4, little) + "GPSPLACE";
  return std::string("Exif\0\0", 6) + head + first + place;
}
std::string with_exif(const std::string& jpeg, const std::string& body) { return jpeg.substr(0, 2) + "\xFF\xE1" + number(static_cast<unsigned>(body.size() + 2), 2, false) + body + jpeg.substr(2); }

std::string refused(std::string_view bytes) {
  try {
    (void)photo_of_picture(bytes, "'a.jpg'");
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::invalid_input);
    EXPECT_THAT(error.what(), testing::StartsWith("'a.jpg' "));
    EXPECT_THAT(error.what(), testing::EndsWith("."));
    return error.what();
  }
  return "";
}

std::string png_of(int width, int height, double alpha) {
  const cairo_pen::Surface surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height));
  const cairo_pen::Cairo cairo(cairo_create(surface.get()));
  cairo_set_source_rgba(cairo.get(), 1, 0, 0, alpha);
  cairo_paint(cairo.get());
  std::string png;
  cairo_surface_write_to_png_stream(surface.get(), cairo_pen::append, &png);
  return png;
}

TEST(PhotoPicture, where_it_was_taken_and_by_what_is_gone) {
  const std::string from = with_exif(with_exif(jpeg_of(quarters(64, 48), 64), exif(1, true)), "http://ns.adobe.com/xap/1.0/ GPSLatitude");
  ASSERT_THAT(from, HasSubstr("GPSPLACE"));
  const MadePhoto made = photo_of_picture(from, "a");
  for (const std::string* jpeg : {&made.jpeg, &made.small}) {
    for (const char* trace : {"Exif", "GPS", "CAM", "adobe"}) EXPECT_EQ(jpeg->find(trace), std::string::npos) << trace;
    EXPECT_EQ(size_of_plain_jpeg(*jpeg), (JpegSize{64, 48}));
  }
  EXPECT_EQ(corners(made.jpeg), "rgbw");
  EXPECT_EQ(photo_of_picture(from, "a").jpeg, made.jpeg);
}

TEST(PhotoPicture, stands_as_it_was_held) {
  // What EXIF says of each orientation: at which side of the picture as it was seen the first row and the first column are (EXIF 2.3, 4.6.4).
  struct Held { char row, column; };
  constexpr std::array<Held, 9> kHeld = {{{}, {'t', 'l'}, {'t', 'r'}, {'b', 'r'}, {'b', 'l'}, {'l', 't'}, {'r', 't'}, {'r', 'b'}, {'l', 'b'}}};
  const auto opposite = [](char side) { return side == 't' ? 'b' : side == 'b' ? 't' : side == 'l' ? 'r' : 'l'; };
  for (const bool little : {true, false})
    for (unsigned turn = 1; turn <= 8; ++turn) {
      const Held held = kHeld[turn];
      std::string expected = "????";
      const auto put = [&](char row, char column, char color) {
        const bool below = row == 'b' || column == 'b', right = row == 'r' || column == 'r';
        expected[(below ? 2U : 0U) + (right ? 1U : 0U)] = color;
      };
      put(held.row, held.column, 'r'), put(held.row, opposite(held.column), 'g'), put(opposite(held.row), held.column, 'b'), put(opposite(held.row), opposite(held.column), 'w');
      const MadePhoto made = photo_of_picture(with_exif(jpeg_of(quarters(64, 48), 64), exif(turn, little)), "a");
      EXPECT_EQ(corners(made.jpeg), expected) << turn;
      EXPECT_EQ(corners(made.small), expected) << turn;
      EXPECT_EQ(made.width, turn >= 5 ? 48 : 64) << turn;
    }
}

TEST(PhotoPicture, is_within_the_limits_whatever_it_shows) {
  const MadePhoto made = photo_of_picture(jpeg_of(noise(2600, 1700), 2600), "a");
  EXPECT_LE(made.jpeg.size(), static_cast<std::size_t>(kMostPictureBytes));
  EXPECT_LE(made.small.size(), static_cast<std::size_t>(kMostSmallBytes));
  EXPECT_EQ(size_of_plain_jpeg(made.jpeg), (JpegSize{made.width, made.height}));
  EXPECT_LE(made.width, kLongestPictureEdge);
  EXPECT_LE(size_of_plain_jpeg(made.small)->width, kLongestSmallEdge);
  const MadePhoto wide = photo_of_picture(jpeg_of(quarters(3300, 1100), 3300), "a");
  EXPECT_EQ(size_of_plain_jpeg(wide.jpeg), (JpegSize{1600, 533}));
  EXPECT_EQ(corners(wide.jpeg), "rgbw");
  EXPECT_EQ(size_of_plain_jpeg(photo_of_picture(jpeg_of(quarters(2, 2), 2), "a").jpeg), (JpegSize{2, 2}));
  EXPECT_EQ(photo_of_picture(jpeg_of(quarters(3000, 2), 3000), "a").width, kLongestPictureEdge);
}

TEST(PhotoPicture, a_png_is_read_and_what_is_clear_is_white) {
  EXPECT_EQ(corners(photo_of_picture(png_of(40, 30, 1), "a").jpeg), "rrrr");
  EXPECT_EQ(corners(photo_of_picture(png_of(40, 30, 0), "a").jpeg), "wwww");
}

TEST(PhotoPicture, what_is_none_is_refused_in_one_sentence) {
  const auto box = [](const char* brand) { return std::string("\0\0\0\x18" "ftyp", 8) + brand + std::string(40, '\0'); };
  const std::pair<std::string, const char*> cases[] = {
      {"", "is not a picture"}, {"just words", "is not a picture"}, {box("heic"), "HEIC picture, as some phones make them; save it as JPEG"}, {box("mif1"), "HEIC"}, {box("avif"), "AVIF"},
      {box("isom"), "a film"}, {"RIFF1234WEBPVP8 ", "WebP"}, {"GIF89a", "GIF"}, {std::string("II*\0", 4), "TIFF or raw"}, {"%PDF-1.7", "a PDF"}, {"BM1234", "BMP"},
      {"\xFF\xD8\xFF", "damaged picture"}, {"\x89PNG\r\n\x1a\n", "damaged picture"}, {"\xFF\xD8\xFF\xE0 and no more", "damaged picture"}};
  for (const auto& [bytes, sentence] : cases) EXPECT_THAT(refused(bytes), HasSubstr(sentence));
}

TEST(PhotoPicture, what_was_cut_off_is_refused) {
  const std::string jpeg = jpeg_of(quarters(640, 480), 640), progressive = jpeg_of(quarters(640, 480), 640, TJFLAG_PROGRESSIVE), png = png_of(200, 200, 0.5);
  ASSERT_EQ(refused(progressive), "");
  for (const std::string* whole : {&jpeg, &progressive, &png})
    for (const std::size_t part : {2U, 3U, 9U}) EXPECT_THAT(refused(std::string_view(*whole).substr(0, whole->size() * part / 10)), HasSubstr("damaged picture"));
  EXPECT_THAT(refused(std::string_view(jpeg).substr(0, jpeg.size() - 40)), HasSubstr("cut off"));
  EXPECT_EQ(refused(jpeg + "what a phone puts behind it"), "");
}

TEST(PhotoPicture, what_is_too_large_is_refused_by_its_header) {
  EXPECT_THAT(refused("\xFF\xD8\xFF" + std::string(kLargestPhotoFile, 'x')), HasSubstr("larger than the 40 MB"));
  const auto sized = [](int flags, unsigned width, unsigned height) {
    std::string jpeg = jpeg_of(quarters(64, 48), 64, flags);
    const std::size_t at = jpeg.find(flags == 0 ? "\xFF\xC0" : "\xFF\xC2") + 5;
    return jpeg.replace(at, 4, number(height, 2, false) + number(width, 2, false));
  };
  EXPECT_THAT(refused(sized(0, 65000, 65000)), HasSubstr("more than 100 megapixels"));
  EXPECT_THAT(refused(sized(0, 10001, 10000)), HasSubstr("more than 100 megapixels"));
  EXPECT_THAT(refused(sized(TJFLAG_PROGRESSIVE, 8001, 5000)), HasSubstr("more than 40 megapixels"));
  std::string png = png_of(8, 8, 1);
  EXPECT_THAT(refused(png.replace(16, 8, number(60000, 4, false) + number(60000, 4, false))), HasSubstr("more than 40 megapixels"));
  EXPECT_THAT(refused(png.replace(16, 8, std::string(8, '\xFF'))), HasSubstr("more than 40 megapixels")) << "their product is beyond 64 bits";
}

TEST(ExifTurn, trusts_no_number) {
  const std::string jpeg = jpeg_of(quarters(16, 16), 16), good = exif(6, false);
  ASSERT_EQ(segments_of_jpeg(with_exif(jpeg, good)).turn, 6);
  for (std::size_t cut = 0; cut < 30; ++cut) EXPECT_EQ(segments_of_jpeg(with_exif(jpeg, good.substr(0, cut))).turn, 1) << cut;
  EXPECT_EQ(segments_of_jpeg(with_exif(jpeg, exif(9, false))).turn, 1);
  EXPECT_EQ(segments_of_jpeg(with_exif(jpeg, exif(0, true))).turn, 1);
  std::string far = good;
  far.replace(10, 4, "\xFF\xFF\xFF\xF0");
  EXPECT_EQ(segments_of_jpeg(with_exif(jpeg, far)).turn, 1);
  EXPECT_EQ(segments_of_jpeg("\xFF\xD8\xFF\xFF\xFF").turn, 1);
  EXPECT_FALSE(segments_of_jpeg(jpeg).progressive);
  EXPECT_TRUE(segments_of_jpeg(jpeg_of(quarters(16, 16), 16, TJFLAG_PROGRESSIVE)).progressive);
}

}  // namespace
}  // namespace ohmstead
