#include "print/scan.h"

#ifdef OHMSTEAD_WITH_ZBAR
#include <zbar.h>
#endif

#include "house/error.h"
#include "print/grey_picture.h"

namespace ohmstead {

#ifdef OHMSTEAD_WITH_ZBAR
namespace {

/// Sizes of the picture, in the order of what they find for their time.
constexpr double kSizes[] = {1, 0.75, 0.5, 1.5, 2};
constexpr double kMostDots = 60e6;

/// One pass. False: `take` has enough.
bool pass(zbar::ImageScanner& scanner, const GreyPicture& picture, const std::function<bool(const std::string&)>& take) {
  zbar::Image image(static_cast<unsigned>(picture.width), static_cast<unsigned>(picture.height), "Y800", picture.grey.data(), picture.grey.size());
  if (scanner.scan(image) < 0) return true;
  for (auto symbol = image.symbol_begin(); symbol != image.symbol_end(); ++symbol)
    if (!take(symbol->get_data())) return false;
  return true;
}

}  // namespace

void read_codes_of_picture(std::string_view bytes, const std::string& shown, const std::function<bool(const std::string&)>& take) {
  const GreyPicture picture = grey_picture(bytes, shown);
  zbar::ImageScanner scanner;
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  scanner.set_config(zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  const double dots = static_cast<double>(picture.width) * picture.height;
  for (const double size : kSizes) {
    if (size > 1 && dots * size * size > kMostDots) continue;
    if (!pass(scanner, size == 1 ? picture : resized(picture, size), take)) return;
  }
}
#else
void read_codes_of_picture(std::string_view, const std::string& shown, const std::function<bool(const std::string&)>&) {
  throw Error(ErrorKind::invalid_input, shown + " is a picture, and this program was built without a reader of QR codes (zbar). Read the codes with any scanner or phone, "
                                                "put their texts into a file, one a line, and give that instead.");
}
#endif

}  // namespace ohmstead
