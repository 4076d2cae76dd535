#include "json/json_line.h"

#include <algorithm>
#include <istream>
#include <nlohmann/json.hpp>
#include <set>
#include <vector>

#include "house/id.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

std::string field(const char* name) { return std::string("The field '") + name + "' "; }

}  // namespace

Error refused_line(const std::string& message) { return {ErrorKind::invalid_input, message}; }

std::optional<std::optional<std::string>> read_json_line(std::istream& in) {
  std::string line;
  bool too_long = false;
  for (int c = in.get();; c = in.get()) {
    const bool end = c == std::istream::traits_type::eof();
    if (end && line.empty() && !too_long) return std::nullopt;
    if (end || c == '\n') break;
    if (line.size() < kLongestLine) line += static_cast<char>(c);
    else too_long = true;
  }
  if (too_long) return std::optional<std::string>{};
  return std::optional<std::string>{line};
}

Json parse_json_line(const std::string& line, const std::string& what) {
  std::vector<std::set<std::string>> fields;  // of the objects that are open
  const auto plain = [&](int depth, Json::parse_event_t event, Json& parsed) {
    if (depth > kDeepestLine) throw refused_line("The " + what + " is nested too deeply; one flat JSON object is expected.");
    if (event == Json::parse_event_t::object_start) fields.emplace_back();
    if (event == Json::parse_event_t::object_end) fields.pop_back();
    if (event == Json::parse_event_t::key && !fields.back().insert(parsed.get<std::string>()).second)
      throw refused_line("The " + what + " has one field twice.");
    return true;
  };
  Json json;
  try {
    json = Json::parse(line, plain);
  } catch (const nlohmann::json::exception&) {
    throw refused_line("The " + what + " is not JSON; one JSON object" + (what == "line" ? " on one line" : "") + " is expected.");
  }
  if (!json.is_object()) throw refused_line("The " + what + " is JSON, but not an object in braces.");
  return json;
}

bool has_field(const Json& line, const char* name) { return line.find(name) != line.end(); }

std::string text_field(const Json& line, const char* name) {
  const auto found = line.find(name);
  if (found == line.end()) return {};
  if (!found->is_string()) throw refused_line(field(name) + "must be a text.");
  auto text = found->get<std::string>();
  if (text.size() > kLongestName) throw refused_line(field(name) + "is too long.");
  if (std::ranges::any_of(text, [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; }))
    throw refused_line(field(name) + "holds a control character.");
  return text;
}

std::string time_field(const Json& line, const char* name) {
  const std::string text = text_field(line, name);
  constexpr std::string_view kShape = "0000-00-00T00:00:00Z";
  const auto fits_at = [&](std::size_t i) { return kShape[i] == '0' ? text[i] >= '0' && text[i] <= '9' : text[i] == kShape[i]; };
  bool fits = text.size() == kShape.size();
  for (std::size_t i = 0; fits && i < kShape.size(); ++i) fits = fits_at(i);
  if (!text.empty() && !fits) throw refused_line(field(name) + "must be a time in UTC, such as 2026-11-25T09:30:00Z.");
  return text;
}

std::uint64_t id_field(const Json& line, const char* name) {
  if (const auto id = parse_id(text_field(line, name))) return *id;
  const std::string thing = name;
  throw refused_line(field(name) + "must be the id of " + (thing.starts_with('o') ? "an " : "a ") + thing + ".");
}

int number_field(const Json& line, const char* name, int low, int high) {
  const auto found = line.find(name);
  if (found != line.end() && found->is_number_integer())
    if (const auto number = found->get<std::int64_t>(); number >= low && number <= high) return static_cast<int>(number);
  throw refused_line(field(name) + "must be a whole number from " + std::to_string(low) + " to " + std::to_string(high) + ".");
}

std::optional<Json> JsonLines::next() {
  while (const auto line = read_json_line(in_)) {
    try {
      if (!*line) throw refused_line("The line is longer than " + std::to_string(kLongestLine) + " bytes; it was skipped.");
      if ((*line)->find_first_not_of(" \t\r") != std::string::npos) return parse_json_line(**line);
    } catch (const Error& error) {
      write_error(error);
    }
  }
  return std::nullopt;
}

void JsonLines::write(const Json& line) { out_ << line.dump(-1, ' ', false, Json::error_handler_t::replace) << '\n' << std::flush; }

void JsonLines::write_error(const Error& error) {
  write({{"type", "error"}, {"kind", "invalid_input"}, {"message", error.what()}, {"step", number}});
}

void JsonLines::require_step_now(const Json& request) const {
  if (const auto step = request.find("step"); step != request.end() && *step != number)
    throw refused_line("The answer is for another step; the step now is number " + std::to_string(number) + ".");
}

bool flag_field(const Json& line, const char* name) {
  const auto found = line.find(name);
  if (found == line.end() || !found->is_boolean()) throw refused_line(field(name) + "must be true or false.");
  return found->get<bool>();
}

}  // namespace ohmstead
