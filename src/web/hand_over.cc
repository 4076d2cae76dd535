#include "web/hand_over.h"

#include <algorithm>

#include "ask/house_findings.h"
#include "ask/without_private.h"
#include "db/record_in_page.h"
#include "db/sha256.h"
#include "house/error.h"
#include "json/json_text.h"
#include "trace/contradictions.h"
#include "web/house_view.h"
#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web {

namespace {

/// Opens what is folded before it is printed, for viewers whose style cannot.
constexpr std::string_view kPrintScript = "addEventListener('beforeprint', () => { for (const fold of document.querySelectorAll('#paper details')) fold.open = true; });\n";

std::string small_letters(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

/// As it stands in an element: with line ends as HTML has them, and not able to end it.
std::string inside(const char* name, std::string text) {
  std::erase(text, '\r');
  const std::string small = small_letters(text);
  if (small.find("</" + std::string(name)) != std::string::npos || small.find("<!--") != std::string::npos)
    throw Error(ErrorKind::invalid_input, std::string("The ") + name + " of the page would end its own element; it must not hold '</" + name + "' or '<!--'.");
  return text;
}

/// Nothing is fetched, and nothing runs but what is named by its sum (CSP level 3).
std::string policy(const std::string& style, const std::string& script) {
  const std::string words = "default-src 'none'; script-src 'sha256-" + sha256_base64(script) + "'; style-src 'sha256-" + sha256_base64(style) + "'; img-src data:; base-uri 'none'; form-action 'none'";
  return "<meta http-equiv=\"Content-Security-Policy\" content=\"" + words + "\">\n";
}

std::string page_head(const std::string& title, const std::string& style, const std::string& script) {
  return "<meta charset=\"utf-8\">\n" + policy(style, script) + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n" +
         element("title", "", escaped(title)) + "\n" + element("style", "", style) + "\n";
}

nlohmann::ordered_json findings_of(const Record& record, std::int64_t revision) {
  nlohmann::ordered_json lines = lines_json(words_of_findings(house_findings(record, contradictions_of(record.house, conclude_units(record.house)), revision)));
  for (auto& line : lines)
    if (line["kind"] == "danger") line["kind"] = "answer";  // its words say so, and it is the head of a list
  return lines;
}

}  // namespace

std::string hand_over_page(const House& given, const HandOverOptions& options) {
  const House house = options.without_private ? without_private(given) : given;
  const Record record = make_record(house);
  const Names names(record.house);
  const nlohmann::ordered_json view = house_view(record, names, {options.revision, options.changed_at, !options.without_private, true});
  const std::string style = inside("style", std::string(plain_page::plain_style()) + options.style);
  const std::string script = inside("script", std::string(kPrintScript) + options.script);
  std::string page = "<!doctype html>\n<html lang=\"en\">\n" + element("head", "", "\n" + page_head(plain_page::title_of(view) + ", " + options.date, style, script)) + "\n<body>\n";
  // The script stands before what is read without it: the page is there before the rest is, and that is never laid out for nobody.
  page += "<div id=\"app\"></div>\n" + element("script", "type=\"application/json\" id=\"house-view\"", json_in_html(view.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace)));
  page += "\n" + element("script", "", script) + "\n" + element("div", "id=\"paper\"", plain_page::plain_page({view, house, options.date, record_digest(house), findings_of(record, options.revision), options.pictures})) + "\n";
  page += record_element(house) + "\n</body>\n</html>\n";
  return page;
}

}  // namespace ohmstead::web
