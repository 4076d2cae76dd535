#include <algorithm>
#include <filesystem>
#include <ostream>

#include "ask/photos.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_files.h"
#include "cli/print_log.h"
#include "cli/run.h"
#include "db/interchange.h"
#include "db/output_file.h"
#include "db/paper_copy.h"
#include "db/storage_error.h"
#include "print/paper_copy_page.h"
#include "print/scan.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLargestScan = 64'000'000;

/// The record cut into pieces for the fewest pages of codes.
PaperCopySheet sheet_for(const House& house, std::int64_t revision, Sheet paper, CodeSize size) {
  const PackedRecord record = pack_record(house);
  const auto pieces = [&](int characters) { return cut_into_pieces(record, revision, static_cast<std::size_t>(characters)); };
  const CodeGrid grid = best_code_grid(paper, size, [&](int characters) { return static_cast<int>(pieces(characters).pieces.size()); });
  PaperCopy copy = pieces(grid.characters());
  return {{house.dwelling.name, copy.set, copy.sha256, "", revision, copy.k, copy.m}, std::move(copy.pieces), grid.version, paper, size};
}

/// The copy is true as long as the record is the same.
PrintedItem copy_item(const House& house) {
  return {"paper:copy", "paper copy", check_code(house, "paper:copy", {house_to_json(house)})};
}

std::string counted_pages(int pages) { return std::to_string(pages) + (pages == 1 ? " page" : " pages"); }

bool begins_with(const std::string& bytes, std::string_view start) { return bytes.compare(0, start.size(), start) == 0; }

std::string set_asked_for(const Arguments& arguments) {
  std::string set = terminal::printable(arguments.text("--set").substr(0, 40));
  std::ranges::transform(set, set.begin(), [](char c) { return c >= 'a' && c <= 'f' ? static_cast<char>(c - 'a' + 'A') : c; });
  return set;
}

/// Pictures are read until there is enough; texts always, because they take no time and may show that sets were mixed up.
void take_file(PaperReading& reading, const std::string& set, const std::string& bytes, const std::string& shown) {
  if (!is_picture(bytes)) {
    if (begins_with(bytes, "%PDF"))
      throw Error(ErrorKind::invalid_input, shown + " is a PDF. Make pictures of its pages first, such as with `pdftoppm -gray -r 300 scan.pdf page`, and give these.");
    (void)reading.add(bytes);
    return;
  }
  if (reading.enough(set)) return;
  read_codes_of_picture(bytes, shown, [&](const std::string& text) {
    if (begins_with(text, "OHP1/")) (void)reading.add(text);
    return !reading.enough(set);
  });
}

}  // namespace

int run_paper_copy(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::read);
  const Sheet paper = sheet_named(arguments);
  House house = house_to_print(session, file);
  house.printed.clear();  // each print would make the next copy larger
  const std::vector<PrintedItem> items{copy_item(house)};
  if (only_asked(session, items)) return kDone;
  PaperCopySheet sheet = sheet_for(house, file.revision(), paper, arguments.has("--fine") ? CodeSize::fine : CodeSize::usual);
  sheet.facts.date = arguments.text("--date", session.now().substr(0, 10));
  const PrintedPaperCopy printed = print_paper_copy(sheet);
  const std::string path = arguments.text("--output", "copy.pdf");
  write_output_file(path, printed.pdf);
  write_pictures(arguments, printed.pages, [&](const PictureForm& form, int page) { return paper_copy_picture(sheet, form, page); });
  log_printed(session, file, words_again("paper", arguments), items);
  show_warnings(session, printed.warnings);
  session.out << "Printed the paper copy to " << terminal::printable(path) << ": set " << sheet.facts.set << ", " << sheet.pieces.size() << " codes on "
              << counted_pages(printed.code_pages) << ", any " << sheet.facts.k << " of which bring the record back, and a page that says how to read them.\n";
  if (printed.code_pages > 1 && sheet.size == CodeSize::usual) session.out << "With --fine it takes fewer pages, to be read with a flatbed scanner.\n";
  if (printed.code_pages > 1) session.out << "A whole page must not be lost: print it twice, and keep the two apart.\n";
  if (!house.photos.empty()) session.out << "Pictures of photos are not on paper; what comes back says of each 'picture not here'.\n";
  if (arguments.has("--codes-text"))
    for (const std::string& text : sheet.pieces) session.out << text << '\n';  // one a line, as from-paper takes them
  return kDone;
}

int run_from_paper(Session& session, const Arguments& arguments) {
  const std::string to = arguments.text("--to");
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::symlink_status(to, ignored)))
    throw Error(ErrorKind::storage, ohmstead::quoted(to) + " is already there; a new house file never replaces one. Give another name.");
  const std::string set = set_asked_for(arguments);
  PaperReading reading;
  for (const std::string& path : arguments.texts("FILE"))
    take_file(reading, set, read_all(session, path, kLargestScan), path == "-" ? "Standard input" : ohmstead::quoted(path));
  for (const std::string& note : reading.notes()) session.err << "Note: " << note << '\n';
  const FromPaper back = reading.bring_back(set);
  HouseFile::create(to, back.house);
  session.out << "Started " << terminal::printable(to) << " from set " << back.set << " (revision " << back.revision << "), " << back.read << " of its " << back.k + back.m
              << " pieces read: " << back.house.points.size() << " points, " << back.house.breakers.size() << " breakers.\n"
              << "SHA-256 of the record " << back.sha256 << "; it must be the one at the foot of the paper.\n";
  if (!back.house.photos.empty()) session.out << words_of_missing_pictures(back.house.photos.size(), back.house.photos.size()) << '\n';
  return kDone;
}

}  // namespace ohmstead
