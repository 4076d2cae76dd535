#pragma once
// A page as an independent parser reads it (libxml2), for tests.

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead::web {

struct HtmlElement {
  std::string name;
  std::map<std::string, std::string> attributes;
  std::string text;  ///< all that is in it
};

struct HtmlPage {
  std::vector<HtmlElement> elements;  ///< in their order
  std::vector<std::string> errors;    ///< but for names of elements that are newer than the parser

  [[nodiscard]] std::vector<const HtmlElement*> all(std::string_view name) const;
};

[[nodiscard]] HtmlPage read_html(const std::string& page);

}  // namespace ohmstead::web
