#include "house/check.h"

#include <algorithm>

namespace ohmstead::house_detail {

namespace {

const char* table_of_handle(HandleKind kind) {
  switch (kind) {
    case HandleKind::main: return Panel::kTable;
    case HandleKind::breaker: return Breaker::kTable;
    case HandleKind::position:
    case HandleKind::position_breaker: return Position::kTable;
    case HandleKind::device: return Handle::kTable;
    case HandleKind::none: break;
  }
  return "";
}

/// Length of the UTF-8 sequence at the front of `text`, or 0 if there is none: no overlong forms,
/// no halves of a surrogate pair, nothing above U+10FFFF (RFC 3629 section 4).
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const unsigned first = byte(0), second = byte(1);
  if (first < 0x80) return 1;
  const auto follow = [&](std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i)
      if (byte(i) < 0x80 || byte(i) > 0xBF) return false;
    return true;
  };
  if (first >= 0xC2 && first <= 0xDF) return follow(1, 2) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const bool in_range = second >= (first == 0xE0 ? 0xA0U : 0x80U) && second <= (first == 0xED ? 0x9FU : 0xBFU);
    return in_range && follow(2, 3) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const bool in_range = second >= (first == 0xF0 ? 0x90U : 0x80U) && second <= (first == 0xF4 ? 0x8FU : 0xBFU);
    return in_range && follow(2, 4) ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

bool is_control(char c) { return c == '\x7f' || (c >= 0 && c < ' ' && c != '\t' && c != '\n'); }

}  // namespace

Report::Report(const House& house) : house_(house) {
  for_each_table(house, [&](const auto& table) {
    for (const auto& row : table) ids_.insert({row.kTable, row.id.value});
  });
}

void Report::add(const std::string& field, const std::string& message) {
  problems_.push_back({field.empty() ? path_ : path_ + "." + field, message});
}

void FieldCheck::operator()(const char* name, const std::string& text) {
  if (text.size() > longest)
    report.add(name, "The text is " + std::to_string(text.size()) + " bytes long; at most " + std::to_string(longest) +
                         " are kept.");
  if (!is_utf8(text)) report.add(name, "The text is not UTF-8.");
  if (std::ranges::any_of(text, is_control))
    report.add(name, "The text holds a control character; only tabs and new lines may be in it.");
}

void FieldCheck::operator()(const char* name, const HandleRef& ref) {
  if (!ref || !report.has(table_of_handle(ref.kind), ref.id))
    report.add(name, "It names a handle that is not in the house.");
}

void FieldCheck::operator()(const char* name, const ThingRef& ref) {
  if (ref.kind != ThingKind::house && !report.has(text_of(ref.kind), ref.id))
    report.add(name, "It names a thing that is not in the house.");
}

void check_range(Report& report, const char* field, int value, int low, int high) {
  if (value < low || value > high)
    report.add(field, std::string(field) + " is " + std::to_string(value) + "; it must be from " + std::to_string(low) +
                          " to " + std::to_string(high) + ".");
}

void check_name(Report& report, const std::string& name) {
  if (name.empty()) report.add("name", "A name is missing.");
}

}  // namespace ohmstead::house_detail
