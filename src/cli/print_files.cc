#include "cli/print_files.h"

#include <ostream>

#include "ask/printable.h"
#include "db/output_file.h"
#include "house/error.h"

namespace ohmstead {

Sheet sheet_named(const Arguments& arguments, Sheet usual) {
  const std::string name = arguments.text("--sheet");
  if (!arguments.has("--sheet")) return usual;
  if (name == "letter" || name == "Letter") return Sheet::letter;
  if (name == "a4" || name == "A4") return Sheet::a4;
  throw Error(ErrorKind::invalid_input, "--sheet is letter or a4, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

std::optional<Location> place_named(const Arguments& arguments) {
  if (!arguments.has("--place")) return std::nullopt;
  const std::string name = arguments.text("--place");
  if (const auto location = parse_enum<Location>(name)) return location;
  throw Error(ErrorKind::invalid_input, "--place is dry, damp or wet, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

std::string page_path(const std::string& path, int page) {
  if (page == 0) return path;
  const std::size_t slash = path.rfind('/'), dot = path.rfind('.');
  const bool has_end = dot != std::string::npos && (slash == std::string::npos || dot > slash + 1) && dot > 0;
  const std::string number = "-" + std::to_string(page + 1);
  return has_end ? path.substr(0, dot) + number + path.substr(dot) : path + number;
}

void write_pictures(const Arguments& arguments, int pages, const std::function<std::string(const PictureForm&, int)>& picture) {
  const PictureForm dots{.dpi = arguments.number("--dpi", 150, 50, 1200)}, lines{.svg = true};
  for (int page = 0; page < pages; ++page) {
    if (arguments.has("--png")) write_output_file(page_path(arguments.text("--png"), page), picture(dots, page));
    if (arguments.has("--svg")) write_output_file(page_path(arguments.text("--svg"), page), picture(lines, page));
  }
}

void show_warnings(Session& session, const std::vector<std::string>& warnings) {
  for (const std::string& warning : warnings) session.err << "Note: " << terminal::printable(warning) << '\n';
}

std::string with_codes(std::size_t codes) { return codes == 0 ? "without codes" : "with " + std::to_string(codes) + (codes == 1 ? " code" : " codes"); }

void show_code_texts(Session& session, const Arguments& arguments, const std::vector<std::string>& texts) {
  if (!arguments.has("--codes-text")) return;
  for (const std::string& text : texts) session.out << "---\n" << text << '\n';
}

}  // namespace ohmstead
