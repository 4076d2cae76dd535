#pragma once
// The page's own style and script, put together from src/web/page as its order says, for tests without the server.

#include <sstream>
#include <string>

#include "tests/support/sample_house.h"

namespace ohmstead::web {

struct PageText {
  std::string style, script;
};

[[nodiscard]] inline PageText page_text() {
  PageText page;
  std::istringstream order(source_file("src/web/page/order.txt"));
  for (std::string name; std::getline(order, name);) {
    if (name.empty() || name[0] == '#') continue;
    (name.ends_with(".css") ? page.style : page.script) += source_file("src/web/page/" + name) + "\n";
  }
  return page;
}

}  // namespace ohmstead::web
