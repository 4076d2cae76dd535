#include "print/code.h"

#include <qrencode.h>

#include <algorithm>
#include <memory>

#include "house/error.h"

namespace ohmstead {

namespace {
constexpr unsigned int kUtf8 = 26;  // ECI assignment number of UTF-8
struct FreeInput {
  void operator()(QRinput* input) const { QRinput_free(input); }
};
struct FreeCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
}  // namespace

QrCode make_code(const std::string& text, Correction correction) {
  const QRecLevel level = correction == Correction::quartile ? QR_ECLEVEL_Q : QR_ECLEVEL_M;
  const std::unique_ptr<QRinput, FreeInput> input(QRinput_new2(0, level));
  const bool ascii = std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
  const bool taken = (ascii || QRinput_appendECIheader(input.get(), kUtf8) == 0) &&
                     QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()), bytes) == 0;
  const std::unique_ptr<QRcode, FreeCode> made(taken ? QRcode_encodeInput(input.get()) : nullptr);
  if (!made)
    throw Error(ErrorKind::output, "A text of " + std::to_string(text.size()) +
                                       " bytes does not fit into one QR code; it must be split.");
  QrCode code{made->width, {}};
  code.dark.resize(static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width));
  for (std::size_t i = 0; i < code.dark.size(); ++i) code.dark[i] = (made->data[i] & 1) != 0;
  return code;
}

}  // namespace ohmstead
