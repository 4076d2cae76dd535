#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/interchange.h"
#include "db/stranger.h"

namespace ohmstead {

namespace {

/// A house file begins with SQLite's magic; everything else is taken for the JSON document.
bool is_house_file(const std::string& path) {
  return path.size() > 6 && path.ends_with(".house");
}

}  // namespace

int run_import(Session& session, const Arguments& arguments) {
  const std::string from = arguments.text("FROM"), to = arguments.text("FILE");
  const House house = is_house_file(from) ? read_stranger_file(from) : house_from_json(read_all(session, from, 64'000'000));
  HouseFile::create(to, house);
  session.out << "Started " << terminal::printable(to) << " from " << terminal::printable(from) << ": " << house.points.size() << " points, "
              << house.breakers.size() << " breakers.\n";
  return kDone;
}

}  // namespace ohmstead
