#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/other_copy.h"
#include "cli/run.h"
#include "db/house_file.h"

namespace ohmstead {

int run_import(Session& session, const Arguments& arguments) {
  const std::string from = arguments.text("FROM"), to = arguments.text("FILE");
  const House house = read_other_copy(session, from).house;
  HouseFile::create(to, house);
  session.out << "Started " << terminal::printable(to) << " from " << terminal::printable(from) << ": " << house.points.size() << " points, "
              << house.breakers.size() << " breakers.\n";
  return kDone;
}

}  // namespace ohmstead
