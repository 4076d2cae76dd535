#pragma once
// Codes out of a scanner's pictures: PNG, JPEG and PGM (binary, 8 bits). The reader of codes (zbar) is an
// optional part, found when the program is built.

#include <functional>
#include <string>
#include <string_view>

namespace ohmstead {

/// Whether the bytes begin like a picture of a kind that is known here.
[[nodiscard]] bool is_picture(std::string_view bytes);

/// Finds the QR codes in a picture and gives the text of each to `take`, perhaps several times; `take` returns false when it
/// has enough. The picture is gone through at several sizes, because one pass misses codes on clean pages too. Throws
/// Error{invalid_input} that begins with `shown`, the name of the picture: damaged, of more than 120 megapixels, or the optional
/// part for it is not built in.
void read_codes_of_picture(std::string_view bytes, const std::string& shown, const std::function<bool(const std::string&)>& take);

}  // namespace ohmstead
