#include <filesystem>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "web/hand_over.h"
#include "web/page_files.h"

namespace ohmstead {

namespace {

constexpr std::size_t kBytesInKb = 1000;

/// Beside the folder's house, with its name: "hillside.html".
std::string usual_path(const Session& session) { return std::filesystem::path(house_path(session)).filename().replace_extension(".html").string(); }

}  // namespace

int run_hand_over(Session& session, const Arguments& arguments) {
  const HouseFile file = open_house(session, Access::read);
  web::HandOverOptions options{file.revision(), file.changed_at(), session.now().substr(0, 10), arguments.has("--without-private"), "", ""};
  options.style = web::page_file("/page.css"), options.script = web::page_file("/page.js");
  const House house = file.load();
  options.pictures = file.pictures(house);
  const std::string page = web::hand_over_page(house, options);
  const std::string path = arguments.text("--output", usual_path(session));
  if (path == "-") {
    session.out << page;
    return kDone;
  }
  write_output_file(path, page);
  session.out << "Wrote " << terminal::printable(path) << ", " << page.size() / kBytesInKb << " kB: what feeds what, what to do in an outage, and the whole record, revision " << options.revision << ".\n"
              << (options.without_private ? "What is private was left out (docs/hand-over.md says what that is).\n"
                                          : "It holds everything, private notes and names of people too; for strangers add --without-private.\n")
              << "Send it to a phone and open it there once while there is power.\n";
  return kDone;
}

}  // namespace ohmstead
