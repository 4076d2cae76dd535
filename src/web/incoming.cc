#include "web/incoming.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "house/utf8.h"

namespace ohmstead::web {

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_named(std::string_view name, std::string_view in_small_letters) {
  return std::ranges::equal(name, in_small_letters, {}, lower);
}

bool has_control(std::string_view text) {
  return std::ranges::any_of(text, [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; });
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  const char small = lower(c);
  return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
}

Verb verb_of(std::string_view method) { return method == "GET" ? Verb::get : method == "POST" ? Verb::post : Verb::other; }

std::optional<Response> take_target(std::string_view target, Request& request) {
  const auto refused = [] { return refusal(400, "invalid_input", "The address is not one of a page: ask for a path with plain characters."); };
  if (target.size() > kLongestTarget || !target.starts_with('/') || target.find('#') != std::string_view::npos) return refused();
  const std::size_t mark = std::min(target.find('?'), target.size());
  const auto path = decoded(target.substr(0, mark), false);
  if (!path) return refused();
  request.path = *path;
  for (std::size_t at = mark + 1; at < target.size();) {
    const std::size_t end = std::min(target.find('&', at), target.size());
    const std::string_view one = target.substr(at, end - at);
    const std::size_t sign = std::min(one.find('='), one.size());
    const auto key = decoded(one.substr(0, sign), true), value = decoded(one.substr(std::min(sign + 1, one.size())), true);
    if (!key || !value || request.query.size() >= kMostFields) return refused();
    request.query.emplace_back(*key, *value);
    at = end + 1;
  }
  return std::nullopt;
}

/// What no page sends, and what could be understood in two ways.
std::optional<Response> refused_header(std::string_view name) {
  for (const std::string_view never : {"transfer-encoding", "range", "upgrade"})
    if (is_named(name, never))
      return refusal(400, "invalid_input", "Requests are taken whole and plain: send it without the header '" + std::string(never) + "'.");
  if (is_named(name, "content-encoding")) return refusal(415, "invalid_input", "Requests are taken plain: send it without packing its body.");
  return std::nullopt;
}

/// Where the header's value is kept; null: nowhere.
std::string* place_of(std::string_view name, Request& request, std::string& length) {
  if (is_named(name, "origin")) return &request.origin;
  if (is_named(name, "content-type")) return &request.content_type;
  if (is_named(name, "x-ohmstead")) return &request.own_header;
  if (is_named(name, "cookie")) return &request.cookie;
  if (is_named(name, "content-length")) return &length;
  return nullptr;
}

std::optional<Response> refused_length(const std::string& length, Verb verb, std::size_t most) {
  if (length.empty())
    return verb == Verb::post ? std::optional(refusal(411, "invalid_input", "The request must say how long it is (Content-Length).")) : std::nullopt;
  std::size_t bytes = 0;
  const auto [end, fault] = std::from_chars(length.data(), length.data() + length.size(), bytes);
  if (end != length.data() + length.size() || fault == std::errc::invalid_argument)
    return refusal(400, "invalid_input", "The length of the request is not a number.");
  if (fault != std::errc{} || bytes > most)
    return refusal(413, "invalid_input", "The request is too long: at most " + std::to_string(most) + " bytes are taken.");
  return std::nullopt;
}

}  // namespace

std::optional<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      plain += plus_is_space && text[i] == '+' ? ' ' : text[i];
      continue;
    }
    const int high = i + 2 < text.size() ? digit(text[i + 1]) : -1, low = i + 2 < text.size() ? digit(text[i + 2]) : -1;
    if (high < 0 || low < 0) return std::nullopt;
    plain += static_cast<char>(high * 16 + low);
    i += 2;
  }
  if (has_control(plain) || !is_utf8(plain)) return std::nullopt;
  return plain;
}

std::variant<Request, Response> take_head(const Head& head, std::size_t most_body_bytes) {
  Request request;
  request.verb = verb_of(head.method);
  request.address = head.address;
  if (auto refused = take_target(head.target, request)) return *refused;
  std::string length;
  std::vector<const std::string*> given;
  for (const auto& [name, value] : head.headers) {
    if (auto refused = refused_header(name)) return *refused;
    if (is_named(name, "host")) request.hosts.push_back(value);
    std::string* const place = place_of(name, request, length);
    if (place == nullptr) continue;
    if (std::ranges::find(given, place) != given.end() || has_control(value))
      return refusal(400, "invalid_input", "A header of the request is given twice or is not plain text.");
    given.push_back(place);
    *place = value;
  }
  if (auto refused = refused_length(length, request.verb, most_body_bytes)) return *refused;
  return request;
}

}  // namespace ohmstead::web
