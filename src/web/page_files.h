#pragma once
// The page's own files, inside the program: what is served at "/", and what the saved file is made of. They are in src/web/page;
// which scripts and styles there are, and in which order, is said in src/web/page/order.txt.

#include <span>
#include <string_view>

namespace ohmstead::web {

struct PageFile {
  std::string_view path;  ///< "/", "/page.css", "/page.js", "/icon.svg"
  std::string_view type;  ///< "text/html; charset=utf-8"
  std::string_view text;
};

/// All of them; there is no other.
[[nodiscard]] std::span<const PageFile> page_files();
/// The text at a path of page_files(). Precondition: it is one.
[[nodiscard]] std::string_view page_file(std::string_view path);

}  // namespace ohmstead::web
