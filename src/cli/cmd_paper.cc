#include <algorithm>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "print/papers.h"

namespace ohmstead {

namespace {

PaperKind kind_named(const std::string& name) {
  if (name == "plan") return PaperKind::plan;
  if (name == "worksheet") return PaperKind::worksheet;
  if (name == "wall") return PaperKind::wall;
  throw Error(ErrorKind::invalid_input, "There are three papers: plan, worksheet and wall, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

Sheet sheet_named(const std::string& name) {
  if (name == "letter" || name == "Letter") return Sheet::letter;
  if (name == "a4" || name == "A4") return Sheet::a4;
  throw Error(ErrorKind::invalid_input, "--sheet is letter or a4, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

/// The source that is named, the only one, or the one that the kept plan is for.
std::size_t source_of(const House& house, const Names& names, const Arguments& arguments) {
  if (!arguments.has("--source")) return the_only_source(house);
  const Id<Source> id = names.one_source(arguments.text("--source"));
  return static_cast<std::size_t>(std::ranges::find(house.sources, id, &Source::id) - house.sources.begin());
}

/// FILE for the first page, FILE-2, FILE-3 for the others.
std::string page_path(const std::string& path, int page) {
  if (page == 0) return path;
  const std::size_t slash = path.rfind('/'), dot = path.rfind('.');
  const bool has_end = dot != std::string::npos && (slash == std::string::npos || dot > slash + 1) && dot > 0;
  const std::string number = "-" + std::to_string(page + 1);
  return has_end ? path.substr(0, dot) + number + path.substr(dot) : path + number;
}

}  // namespace

int run_paper(Session& session, const Arguments& arguments) {
  PaperOptions options;
  const std::string which = arguments.text("WHICH");
  options.kind = kind_named(which);
  options.sheet = sheet_named(arguments.text("--sheet", "letter"));
  options.date = arguments.text("--date", session.now().substr(0, 10));
  HouseFile file = open_house(session, Access::read);
  const Record record = make_record(file.load());
  const Names names(record.house);
  options.source = source_of(record.house, names, arguments);
  options.revision = file.revision();
  const std::string path = arguments.text("--output", which + ".pdf");
  const PrintedPaper printed = print_paper(record, names, options);
  write_output_file(path, printed.pdf);
  if (arguments.has("--png"))
    for (int page = 0; page < printed.pages; ++page) write_output_file(page_path(arguments.text("--png"), page), paper_png(record, names, options, 150, page));
  for (const std::string& warning : printed.warnings) session.err << "Note: " << terminal::printable(warning) << '\n';
  session.out << "Printed the " << (options.kind == PaperKind::wall ? "sheet for the wall" : which) << " to " << terminal::printable(path) << ", " << printed.pages
              << (printed.pages == 1 ? " page" : " pages") << ", with " << printed.code_texts.size() << (printed.code_texts.size() == 1 ? " code" : " codes") << ".\n";
  if (arguments.has("--codes-text"))
    for (const std::string& text : printed.code_texts) session.out << "---\n" << text << '\n';
  return kDone;
}

}  // namespace ohmstead
