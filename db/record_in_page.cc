#include "db/record_in_page.h"

#include <nlohmann/json.hpp>

#include "db/interchange.h"
#include "db/sha256.h"
#include "house/error.h"

namespace ohmstead {

namespace {

constexpr std::string_view kStart = "<script type=\"application/json\" id=\"house-record\" data-sha256=\"";
constexpr std::string_view kBegin = "\">", kEnd = "</script>";
constexpr std::size_t kDigestLetters = 64;

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::invalid_input, sentence); }

}  // namespace

std::string record_element(const House& house) {
  const std::string document = house_to_json(house);
  std::string element(kStart);
  element.append(sha256_text(document)).append(kBegin);
  for (const char c : nlohmann::ordered_json::parse(document).dump()) {
    if (c == '<') element += "\\u003c";
    else element += c;
  }
  return element.append(kEnd);
}

std::string record_digest(const House& house) { return sha256_text(house_to_json(house)); }

bool is_page(std::string_view text) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  if (text.starts_with(kMark)) text.remove_prefix(kMark.size());
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && text[first] == '<';
}

House house_from_page(std::string_view page) {
  const std::size_t start = page.find(kStart);
  if (start == std::string_view::npos)
    refuse("There is no house record in this page: it is not a file that `ohmstead hand-over` wrote, or it was cut off before the record; get the file again.");
  if (page.find(kStart, start + 1) != std::string_view::npos) refuse("There are several house records in this page; take the file as `ohmstead hand-over` wrote it.");
  const std::string_view rest = page.substr(start + kStart.size());
  const std::size_t end = rest.find(kEnd);
  if (end == std::string_view::npos) refuse("This page is cut off within its house record; get the file again.");
  if (end < kDigestLetters + kBegin.size() || rest.substr(kDigestLetters, kBegin.size()) != kBegin) refuse("The check sum of the house record in this page is missing; get the file again.");
  House house = house_from_json(rest.substr(kDigestLetters + kBegin.size(), end - kDigestLetters - kBegin.size()));
  if (record_digest(house) != rest.substr(0, kDigestLetters))
    refuse("The house record in this page was changed after it was written: its check sum is another one. Get the file again from whoever wrote it.");
  return house;
}

}  // namespace ohmstead
