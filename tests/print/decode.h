#pragma once
// Reading codes back from pictures with two decoders that are not ours (ZBar and ZXing), and the
// mild damage that a real card suffers.

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "print/canvas.h"
#include "print/code.h"

namespace ohmstead::test {

/// Grey picture, 0 black, row by row.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> grey;
  [[nodiscard]] std::uint8_t at(int x, int y) const;  ///< white outside
};

[[nodiscard]] Picture read_pgm(const std::string& path);
[[nodiscard]] Picture picture_of(const QrCode& code, int pixels_per_module);
/// The part of a page picture in an area in mm, with `more_mm` around it.
[[nodiscard]] Picture cropped(const Picture& page, const Area& area, double dpi, double more_mm);
[[nodiscard]] Picture scaled(const Picture& picture, double factor);
[[nodiscard]] Picture rotated(const Picture& picture, double degrees);
[[nodiscard]] Picture blurred(const Picture& picture, double sigma_pixels);
[[nodiscard]] Picture noisy(const Picture& picture, double sigma, unsigned seed);
/// Ink at this share of black.
[[nodiscard]] Picture faded(const Picture& picture, double share);

/// Contents of all codes that ZBar finds, as bytes, over several scales.
[[nodiscard]] std::set<std::string> zbar_read(const Picture& picture);
/// Content of the one code that ZXing finds, as bytes; "" if none.
[[nodiscard]] std::string zxing_read(const Picture& picture);

/// Runs a command and returns what it prints; fails the test if it fails.
[[nodiscard]] std::string output_of(const std::string& command);

/// A folder that is gone when the test is.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] std::string write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] std::string path(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

/// Page `page` (0 is the first) of a PDF, drawn by poppler.
[[nodiscard]] Picture rendered(const std::string& pdf, int page, int dpi);
/// Text of a PDF in drawing order, all pages.
[[nodiscard]] std::string text_of_pdf(const std::string& pdf);

}  // namespace ohmstead::test
