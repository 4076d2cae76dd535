#pragma once
// Reading one JSON object a line, and its fields, from a program that may be cut off or wrong.

#include <iosfwd>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "house/enum_text.h"
#include "house/error.h"

namespace ohmstead {

/// Longest line that is read, in bytes, and deepest nesting.
inline constexpr std::size_t kLongestLine = 64 * 1024;
inline constexpr int kDeepestLine = 8;

/// One line without its end. Nothing at the end of the input; an empty optional inside when the
/// line was too long (it is skipped).
[[nodiscard]] std::optional<std::optional<std::string>> read_json_line(std::istream& in);

/// Throws Error{invalid_input}: not JSON, not an object, nested too deeply, a field twice in one object. `what` is what the sentence calls it.
[[nodiscard]] nlohmann::ordered_json parse_json_line(const std::string& line, const std::string& what = "line");

/// Error{invalid_input} with this message.
[[nodiscard]] Error refused_line(const std::string& message);

/// The two ends of a session that a program drives: requests in, documents out, one a line. What cannot be read is answered
/// with an error and skipped.
class JsonLines {
 public:
  JsonLines(std::istream& in, std::ostream& out) : in_(in), out_(out) {}

  /// The next request; nothing at the end of the input.
  [[nodiscard]] std::optional<nlohmann::ordered_json> next();
  void write(const nlohmann::ordered_json& line);
  void write_error(const Error& error);
  /// Throws Error{invalid_input} if the request has a field `step` that is not the number of the step now.
  void require_step_now(const nlohmann::ordered_json& request) const;

  int number = 1;  ///< of the step now; errors and answers name it

 private:
  std::istream& in_;
  std::ostream& out_;
};

// Fields. All throw Error{invalid_input} that names the field when it is there and makes no sense.

[[nodiscard]] bool has_field(const nlohmann::ordered_json& line, const char* name);
/// Empty when it is not there.
[[nodiscard]] std::string text_field(const nlohmann::ordered_json& line, const char* name);
/// Time written as in the file: `2026-11-25T09:30:00Z`. Empty when it is not there.
[[nodiscard]] std::string time_field(const nlohmann::ordered_json& line, const char* name);
/// Id as text; throws when it is not there, too.
[[nodiscard]] std::uint64_t id_field(const nlohmann::ordered_json& line, const char* name);
[[nodiscard]] int number_field(const nlohmann::ordered_json& line, const char* name, int low, int high);
[[nodiscard]] bool flag_field(const nlohmann::ordered_json& line, const char* name);

/// "live, dead, skip"
template <class E>
[[nodiscard]] std::string word_list() {
  std::string list;
  for (const std::string_view word : words_of(E{})) list += (list.empty() ? "" : ", ") + std::string(word);
  return list;
}

template <class E>
[[nodiscard]] std::optional<E> word_field(const nlohmann::ordered_json& line, const char* name) {
  const std::string word = text_field(line, name);
  if (word.empty()) return std::nullopt;
  if (const auto value = parse_enum<E>(word)) return value;
  throw refused_line(std::string("The field '") + name + "' must be one of: " + word_list<E>() + ".");
}

}  // namespace ohmstead
