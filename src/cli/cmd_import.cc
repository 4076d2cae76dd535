#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/interchange.h"
#include "db/record_in_page.h"
#include "db/stranger.h"

namespace ohmstead {

namespace {

/// A house file ends in .house; anything else is a document, or a saved page with one inside.
bool is_house_file(const std::string& path) {
  return path.size() > 6 && path.ends_with(".house");
}

House read_house(Session& session, const std::string& from) {
  if (is_house_file(from)) return read_stranger_file(from);
  const std::string text = read_all(session, from, kLongestDocument);
  return is_page(text) ? house_from_page(text) : house_from_json(text);
}

}  // namespace

int run_import(Session& session, const Arguments& arguments) {
  const std::string from = arguments.text("FROM"), to = arguments.text("FILE");
  const House house = read_house(session, from);
  HouseFile::create(to, house);
  session.out << "Started " << terminal::printable(to) << " from " << terminal::printable(from) << ": " << house.points.size() << " points, "
              << house.breakers.size() << " breakers.\n";
  return kDone;
}

}  // namespace ohmstead
