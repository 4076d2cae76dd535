#include "web/html.h"

#include "ask/printable.h"

namespace ohmstead::web {

std::string escaped(std::string_view text) {
  std::string html;
  for (const char c : terminal::printable(text)) {
    switch (c) {
      case '<': html += "&lt;"; break;
      case '>': html += "&gt;"; break;
      case '&': html += "&amp;"; break;
      case '"': html += "&quot;"; break;
      case '\'': html += "&#39;"; break;
      default: html += c;
    }
  }
  return html;
}

std::string element(std::string_view name, std::string_view attributes, std::string_view inner) {
  std::string html = "<";
  html.append(name);
  if (!attributes.empty()) html.append(" ").append(attributes);
  return html.append(">").append(inner).append("</").append(name).append(">");
}

std::string json_in_html(std::string_view json) {
  std::string html;
  for (const char c : json) {
    if (c == '<') html += "\\u003c";
    else html += c;
  }
  return html;
}

}  // namespace ohmstead::web
