#pragma once
// QR codes: plain text that any phone reads with no network (ISO/IEC 18004).

#include <string>
#include <vector>

namespace ohmstead {

/// Error correction: share of the code that may be lost is about 15 % (M) and 25 % (Q).
enum class Correction { medium, quartile };

/// The dark squares of a code, without its quiet zone.
struct QrCode {
  int modules = 0;          ///< along one side: 21, 25, .. 177
  std::vector<bool> dark;   ///< row by row, modules * modules
  [[nodiscard]] bool is_dark(int x, int y) const { return dark[static_cast<std::size_t>(y * modules + x)]; }
};

/// Light modules on every side that belong to the code.
inline constexpr int kQuietModules = 4;

/// Modules along one side of the smallest code that holds the text, quiet zone not included; the
/// same as make_code() gives, without making it. Throws Error{output} if no code is large enough.
[[nodiscard]] int code_modules(const std::string& text, Correction correction);

/// Byte mode; text that is not plain ASCII is announced as UTF-8 (ECI 26), so that readers do not
/// guess. Throws Error{output} if the text is too long for any code.
[[nodiscard]] QrCode make_code(const std::string& text, Correction correction);

/// Characters that a code of this version (10 .. 26) holds in alphanumeric mode with correction M.
[[nodiscard]] int capitals_in_code(int version);
/// Digits, capitals and the signs of alphanumeric mode, which take less room, as a code of at least this version with correction M.
/// Throws Error{output} if it does not fit into any, or has other characters.
[[nodiscard]] QrCode make_code_of_capitals(const std::string& text, int version);

/// Side of the whole code with its quiet zone.
[[nodiscard]] inline double code_side_mm(const QrCode& code, double module_mm) {
  return (code.modules + 2 * kQuietModules) * module_mm;
}

}  // namespace ohmstead
