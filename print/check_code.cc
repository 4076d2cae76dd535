#include "print/check_code.h"

#include <cstdint>
#include <string_view>

#include "print/recording_canvas.h"

namespace ohmstead {

namespace {

/// Crockford's base 32: no I, L, O and U, which are taken for others.
constexpr std::string_view kSigns = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr int kSignCount = 6, kBitsOfSign = 5;

/// FNV-1a of 64 bits (Fowler, Noll, Vo): offset basis and prime as published; from memory.
class Digest {
 public:
  void add(std::string_view text) {
    for (const char c : text) add_byte(static_cast<unsigned char>(c));
    add_byte(0xFF);  // never in UTF-8: where one text ends
  }
  std::uint64_t value() const { return value_; }

 private:
  void add_byte(unsigned char byte) { value_ = (value_ ^ byte) * 1'099'511'628'211U; }
  std::uint64_t value_ = 14'695'981'039'346'656'037U;
};

}  // namespace

std::string check_code(const House& house, const std::string& key, const std::vector<std::string>& texts) {
  Digest digest;
  digest.add(house.dwelling.id.text());
  digest.add(key);
  for (const std::string& text : texts) digest.add(text);
  std::uint64_t left = digest.value() ^ (digest.value() >> 32);
  std::string code;
  for (int i = 0; i < kSignCount; ++i, left >>= kBitsOfSign) code += kSigns[left & ((1U << kBitsOfSign) - 1)];
  return code;
}

std::string check_code_of_drawn(const House& house, const std::string& key, const std::function<void(Canvas&)>& draw) {
  RecordingCanvas canvas;
  draw(canvas);
  std::vector<std::string> texts;
  for (const DrawnText& text : canvas.texts) texts.push_back(text.words);
  return check_code(house, key, texts);
}

std::string printed_check_code(const std::string& code) { return code.size() == kSignCount ? code.substr(0, 3) + "-" + code.substr(3) : code; }

std::optional<std::string> read_check_code(const std::string& typed) {
  std::string code;
  for (const char c : typed) {
    if (c == ' ' || c == '-') continue;
    char sign = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    sign = sign == 'O' ? '0' : sign == 'I' || sign == 'L' ? '1' : sign;
    if (kSigns.find(sign) == std::string_view::npos || code.size() == kSignCount) return std::nullopt;
    code += sign;
  }
  return code.size() == kSignCount ? std::optional(code) : std::nullopt;
}

}  // namespace ohmstead
