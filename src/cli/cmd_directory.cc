#include <algorithm>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "print/directory.h"

namespace ohmstead {

namespace {

Id<Panel> panel_asked_for(const House& house, const Names& names, const Arguments& arguments) {
  if (arguments.has("--panel")) return names.one_panel(arguments.text("--panel"));
  if (house.panels.empty()) throw Error(ErrorKind::not_found, "No panel is written down yet, so there is no directory to print. Enter one, such as `Panel Main 12 spaces: 1 15 hall; 3 20`.");
  if (house.panels.size() == 1) return house.panels[0].id;
  const auto main = std::ranges::find(house.panels, Supply::utility, &Panel::supply);
  return main == house.panels.end() ? house.panels[0].id : main->id;
}

std::optional<Sheet> sheet_named(const Arguments& arguments) {
  if (!arguments.has("--sheet")) return std::nullopt;
  const std::string name = arguments.text("--sheet");
  if (name == "letter" || name == "Letter") return Sheet::letter;
  if (name == "a4" || name == "A4") return Sheet::a4;
  throw Error(ErrorKind::invalid_input, "--sheet is letter or a4, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

DirectoryOptions options_from(const Session& session, const Arguments& arguments) {
  DirectoryOptions options;
  options.pocket_width_mm = arguments.number("--width-mm", options.pocket_width_mm, 40, 1000);
  options.pocket_height_mm = arguments.number("--height-mm", options.pocket_height_mm, 40, 1000);
  options.date = arguments.text("--date", session.now().substr(0, 10));
  options.sheet = sheet_named(arguments);
  options.large = arguments.has("--large");
  return options;
}

}  // namespace

int run_directory(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::read);
  const Record record = make_record(file.load());
  const Names names(record.house);
  DirectoryOptions options = options_from(session, arguments);
  options.panel = panel_asked_for(record.house, names, arguments);
  options.revision = file.revision();
  const std::string path = arguments.text("--output", "directory.pdf");
  const PrintedDirectory printed = print_directory(record.house, record.feeds, options);
  write_output_file(path, printed.pdf);
  if (arguments.has("--png")) write_output_file(arguments.text("--png"), directory_png(record.house, record.feeds, options, 150));
  for (const std::string& warning : printed.warnings) session.err << "Note: " << terminal::printable(warning) << '\n';
  session.out << "Printed the directory of " << names.name_of(ThingRef{ThingKind::panel, options.panel.value}) << " to " << terminal::printable(path)
              << " with " << printed.code_texts.size() << (printed.code_texts.size() == 1 ? " code" : " codes") << (printed.codes_on_back ? " on the back" : "") << ".\n";
  if (arguments.has("--codes-text"))
    for (const std::string& text : printed.code_texts) session.out << "---\n" << text << '\n';
  return kDone;
}

}  // namespace ohmstead
