#include "web/page_files.h"

#include <algorithm>
#include <stdexcept>

namespace ohmstead::web {

std::string_view page_file(std::string_view path) {
  const auto files = page_files();
  const auto found = std::ranges::find(files, path, &PageFile::path);
  if (found == files.end()) throw std::logic_error("no page file " + std::string(path));
  return found->text;
}

}  // namespace ohmstead::web
