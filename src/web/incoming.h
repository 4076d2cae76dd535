#pragma once
// The head of a request, as any HTTP parser gives it, made into a Request: what is ambiguous or not needed here is refused before
// anything else looks at it. Plain values, no socket.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "web/message.h"

namespace ohmstead::web {

struct Head {
  std::string method;   ///< "GET"
  std::string target;   ///< as sent: "/api/answer?ask=off&thing=12", not decoded
  std::vector<std::pair<std::string, std::string>> headers;  ///< in the order sent; names in any case
  std::string address;  ///< of the other end
};

/// Longest target, in bytes, and most fields of a query.
inline constexpr std::size_t kLongestTarget = 2048, kMostFields = 16;

/// The request, still without its body; or the refusal: 400 for a target that is not a path, a repeated header that must be one, bytes
/// that are not UTF-8 or are control characters (also where percent-encoded); 411 and 413 for a body of no or too great length;
/// 400 for Transfer-Encoding and Range, 415 for Content-Encoding.
[[nodiscard]] std::variant<Request, Response> take_head(const Head& head, std::size_t most_body_bytes);

/// Percent-decoded ('+' is a space where `plus_is_space`); nothing where a '%' has no two digits behind it, or what comes out is a
/// control character or not UTF-8.
[[nodiscard]] std::optional<std::string> decoded(std::string_view text, bool plus_is_space);

}  // namespace ohmstead::web
