#include "html_reader.h"

#include <libxml/HTMLparser.h>
#include <libxml/xmlerror.h>

namespace ohmstead::web {

namespace {

void note_error(void* errors, xmlErrorPtr error) {
  if (error->code != XML_HTML_UNKNOWN_TAG) static_cast<std::vector<std::string>*>(errors)->push_back("line " + std::to_string(error->line) + ": " + error->message);
}

std::string taken(xmlChar* text) {
  const std::string made = text == nullptr ? "" : reinterpret_cast<const char*>(text);
  xmlFree(text);
  return made;
}

void add(const xmlNode* node, HtmlPage& page) {
  for (; node != nullptr; node = node->next) {
    if (node->type != XML_ELEMENT_NODE) continue;
    HtmlElement element{reinterpret_cast<const char*>(node->name), {}, taken(xmlNodeGetContent(node))};
    for (const xmlAttr* attribute = node->properties; attribute != nullptr; attribute = attribute->next)
      element.attributes[reinterpret_cast<const char*>(attribute->name)] = taken(xmlNodeListGetString(node->doc, attribute->children, 1));
    page.elements.push_back(std::move(element));
    add(node->children, page);
  }
}

}  // namespace

std::vector<const HtmlElement*> HtmlPage::all(std::string_view name) const {
  std::vector<const HtmlElement*> found;
  for (const HtmlElement& element : elements)
    if (element.name == name) found.push_back(&element);
  return found;
}

HtmlPage read_html(const std::string& page) {
  HtmlPage read;
  xmlSetStructuredErrorFunc(&read.errors, note_error);
  const htmlDocPtr document = htmlReadMemory(page.data(), static_cast<int>(page.size()), nullptr, "UTF-8", HTML_PARSE_NONET);
  if (document != nullptr) add(xmlDocGetRootElement(document), read);
  xmlFreeDoc(document);
  xmlSetStructuredErrorFunc(nullptr, nullptr);
  return read;
}

}  // namespace ohmstead::web
