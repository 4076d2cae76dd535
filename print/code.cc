#include "print/code.h"

#include <qrencode.h>

#include <algorithm>
#include <array>
#include <memory>

#include "house/error.h"

namespace ohmstead {

namespace {
// Bytes that versions 1 to 40 hold in byte mode (ISO/IEC 18004).
constexpr std::array kMediumBytes{
    14, 26, 42, 62, 84, 106, 122, 152, 180, 213, 251, 287, 331, 362,
    412, 450, 504, 560, 624, 666, 711, 779, 857, 911, 997, 1059, 1125, 1190,
    1264, 1370, 1452, 1538, 1628, 1722, 1809, 1911, 1989, 2099, 2213, 2331};
constexpr std::array kQuartileBytes{
    11, 20, 32, 46, 60, 74, 86, 108, 130, 151, 177, 203, 241, 258,
    292, 322, 364, 394, 442, 482, 509, 565, 611, 661, 715, 751, 805, 868,
    908, 982, 1030, 1112, 1168, 1228, 1283, 1351, 1423, 1499, 1579, 1663};
constexpr unsigned int kUtf8 = 26;  // ECI assignment number of UTF-8
struct FreeInput {
  void operator()(QRinput* input) const { QRinput_free(input); }
};
struct FreeCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
bool is_ascii(const std::string& text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

/// The code of what was put in; null: nothing could be.
QrCode encoded(QRinput* input, const std::string& text) {
  const std::unique_ptr<QRcode, FreeCode> made(input != nullptr ? QRcode_encodeInput(input) : nullptr);
  if (!made) throw Error(ErrorKind::output, "A QR code of " + std::to_string(text.size()) + " bytes could not be made.");
  QrCode code{made->width, {}};
  code.dark.resize(static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width));
  for (std::size_t i = 0; i < code.dark.size(); ++i) code.dark[i] = (made->data[i] & 1) != 0;
  return code;
}

}  // namespace

int code_modules(const std::string& text, Correction correction) {
  constexpr std::size_t kEciBytes = 3;  // 12 bits, which the encoder rounds up generously
  const std::size_t bytes = text.size() + (is_ascii(text) ? 0 : kEciBytes);
  const auto& most = correction == Correction::quartile ? kQuartileBytes : kMediumBytes;
  for (std::size_t version = 1; version <= most.size(); ++version)
    if (bytes <= static_cast<std::size_t>(most[version - 1])) return 17 + 4 * static_cast<int>(version);
  throw Error(ErrorKind::output, "A text of " + std::to_string(text.size()) +
                                     " bytes does not fit into one QR code; it must be split.");
}

QrCode make_code(const std::string& text, Correction correction) {
  const QRecLevel level = correction == Correction::quartile ? QR_ECLEVEL_Q : QR_ECLEVEL_M;
  const std::unique_ptr<QRinput, FreeInput> input(QRinput_new2(0, level));
  const bool ascii = is_ascii(text);
  const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
  const bool taken = (ascii || QRinput_appendECIheader(input.get(), kUtf8) == 0) &&
                     QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()), bytes) == 0;
  return encoded(taken ? input.get() : nullptr, text);
}

int capitals_in_code(int version) {
  constexpr int kHeadBits = 4 + 11, kPairBits = 11, kSingleBits = 6;  // of versions 10 to 26 (ISO/IEC 18004)
  const int bits = 8 * (kMediumBytes.at(static_cast<std::size_t>(version - 1)) + 3) - kHeadBits;
  return 2 * (bits / kPairBits) + (bits % kPairBits >= kSingleBits ? 1 : 0);
}

QrCode make_code_of_capitals(const std::string& text, int version) {
  const std::unique_ptr<QRinput, FreeInput> input(QRinput_new2(version, QR_ECLEVEL_M));
  const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
  const bool taken = input && QRinput_append(input.get(), QR_MODE_AN, static_cast<int>(text.size()), bytes) == 0;
  return encoded(taken ? input.get() : nullptr, text);
}

}  // namespace ohmstead
