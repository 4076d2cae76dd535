#include <algorithm>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_files.h"
#include "cli/print_log.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "print/directory.h"
#include "print/room_directory_page.h"

namespace ohmstead {

namespace {

Id<Panel> panel_asked_for(const House& house, const Names& names, const Arguments& arguments) {
  if (arguments.has("--panel")) return names.one_panel(arguments.text("--panel"));
  if (house.panels.empty()) throw Error(ErrorKind::not_found, "No panel is written down yet, so there is no directory to print. Enter one, such as `Panel Main 12 spaces: 1 15 hall; 3 20`.");
  if (house.panels.size() == 1) return house.panels[0].id;
  const auto main = std::ranges::find(house.panels, Supply::utility, &Panel::supply);
  return main == house.panels.end() ? house.panels[0].id : main->id;
}

DirectoryOptions options_from(const Session& session, const Arguments& arguments) {
  DirectoryOptions options;
  options.pocket_width_mm = arguments.number("--width-mm", options.pocket_width_mm, 40, 1000);
  options.pocket_height_mm = arguments.number("--height-mm", options.pocket_height_mm, 40, 1000);
  options.date = arguments.text("--date", session.now().substr(0, 10));
  if (arguments.has("--sheet")) options.sheet = sheet_named(arguments);
  options.large = arguments.has("--large"), options.location = place_named(arguments);
  return options;
}

int print_by_room(Session& session, const Arguments& arguments, const Record& record, const HouseFile& file) {
  const DirectoryOptions asked = options_from(session, arguments);
  RoomDirectoryOptions options{asked.sheet, asked.pocket_width_mm, asked.pocket_height_mm, kNoDate, 0, "", asked.location.value_or(Location::dry), asked.large};
  const std::string path = arguments.text("--output", "directory-by-room.pdf");
  const RoomDirectory directory = room_directory(record);
  PrintedItem item{"directory-by-room", "directory by room", ""};
  item.code = check_code_of_drawn(record.house, item.key, [&](Canvas& canvas) { draw_room_directory(directory, options, canvas); });
  if (only_asked(session, {item})) return kDone;
  options.date = asked.date, options.revision = file.revision(), options.check = item.code;
  const PrintedRoomDirectory printed = print_room_directory(directory, options);
  write_output_file(path, printed.pdf);
  write_pictures(arguments, printed.pages, [&](const PictureForm& form, int page) { return room_directory_picture(directory, options, form, page); });
  log_printed(session, file, words_again("directory", arguments), {item});
  show_warnings(session, printed.warnings);
  session.out << "Printed what feeds each point, room by room, to " << terminal::printable(path) << ", " << printed.pages << (printed.pages == 1 ? " page" : " pages") << ", "
              << with_codes(printed.code_texts.size()) << (options.sheet ? "" : "; on a sheet it has them (--sheet letter)") << ".\n";
  show_code_texts(session, arguments, printed.code_texts);
  return kDone;
}

}  // namespace

int run_directory(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::read);
  const Record record = make_record(house_to_print(session, file));
  if (arguments.has("--by-room")) return print_by_room(session, arguments, record, file);
  const Names names(record.house);
  DirectoryOptions options = options_from(session, arguments);
  options.panel = panel_asked_for(record.house, names, arguments);
  options.revision = file.revision();
  const std::string path = arguments.text("--output", "directory.pdf");
  const std::vector<PrintedItem> items{directory_item(record.house, record.feeds, options)};
  if (only_asked(session, items)) return kDone;
  options.check = items[0].code;
  const PrintedDirectory printed = print_directory(record.house, record.feeds, options);
  write_output_file(path, printed.pdf);
  const bool has_back = printed.codes_on_back && !printed.code_texts.empty();
  write_pictures(arguments, has_back ? 2 : 1, [&](const PictureForm& form, int page) { return directory_picture(record.house, record.feeds, options, form, page); });
  log_printed(session, file, words_again("directory", arguments), items);
  show_warnings(session, printed.warnings);
  session.out << "Printed the directory of " << names.name_of(ThingRef{ThingKind::panel, options.panel.value}) << " to " << terminal::printable(path)
              << " " << with_codes(printed.code_texts.size()) << (has_back ? " on the back" : "") << ".\n";
  show_code_texts(session, arguments, printed.code_texts);
  return kDone;
}

}  // namespace ohmstead
