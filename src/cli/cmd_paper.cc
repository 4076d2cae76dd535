#include <algorithm>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_files.h"
#include "cli/print_log.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "print/papers.h"

namespace ohmstead {

namespace {

PaperKind kind_named(const std::string& name) {
  for (const PaperKind kind : {PaperKind::plan, PaperKind::worksheet, PaperKind::wall, PaperKind::packet, PaperKind::floor_plan, PaperKind::signs, PaperKind::notes})
    if (paper_word(kind) == name) return kind;
  throw Error(ErrorKind::invalid_input, "The papers are plan, worksheet, wall, packet, floor-plan, signs, notes and copy, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

/// The source that is named, the only one, or the one that the kept plan is for.
std::size_t source_of(const House& house, const Names& names, const Arguments& arguments) {
  if (!arguments.has("--source")) return the_only_source(house);
  const Id<Source> id = names.one_source(arguments.text("--source"));
  return static_cast<std::size_t>(std::ranges::find(house.sources, id, &Source::id) - house.sources.begin());
}

}  // namespace

int run_paper(Session& session, const Arguments& arguments) {
  PaperOptions options;
  const std::string which = arguments.text("WHICH");
  if (which == "copy") return run_paper_copy(session, arguments);
  options.kind = kind_named(which);
  options.sheet = sheet_named(arguments), options.location = place_named(arguments), options.codes = arguments.has("--codes");
  options.date = arguments.text("--date", session.now().substr(0, 10));
  HouseFile file = open_house(session, Access::read);
  const Record record = make_record(house_to_print(session, file));
  const Names names(record.house);
  if (needs_plan(options.kind)) options.source = source_of(record.house, names, arguments);
  options.revision = file.revision();
  if (options.kind == PaperKind::packet) {
    for (const FileChange& change : file.changes())
      if (change.revision <= revision_to_print(session, file)) options.changes.push_back({change.revision, change.at, change.what});
    options.pictures = file.pictures(record.house);
  }
  const std::string path = arguments.text("--output", which + ".pdf");
  const std::vector<PrintedItem> items{paper_item(record, names, options)};
  if (only_asked(session, items)) return kDone;
  options.check = items[0].code;
  const PrintedPaper printed = print_paper(record, names, options);
  write_output_file(path, printed.pdf);
  write_pictures(arguments, printed.pages, [&](const PictureForm& form, int page) { return paper_picture(record, names, options, form, page); });
  log_printed(session, file, words_again("paper", arguments), items);
  show_warnings(session, printed.warnings);
  session.out << "Printed the " << (options.kind == PaperKind::wall ? "sheet for the wall" : options.kind == PaperKind::notes ? "sheet of what the household should know" : which) << " to " << terminal::printable(path) << ", " << printed.pages
              << (printed.pages == 1 ? " page" : " pages") << ", " << with_codes(printed.code_texts.size()) << (options.kind == PaperKind::signs && !options.codes ? "; --codes adds them" : "") << ".\n";
  show_code_texts(session, arguments, printed.code_texts);
  return kDone;
}

}  // namespace ohmstead
