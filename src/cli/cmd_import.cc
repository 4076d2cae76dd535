#include <ostream>

#include "ask/photos.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/other_copy.h"
#include "cli/run.h"
#include "db/house_file.h"

namespace ohmstead {

int run_import(Session& session, const Arguments& arguments) {
  const std::string from = arguments.text("FROM"), to = arguments.text("FILE");
  const auto [house, marks, pictures] = read_other_copy(session, from);
  HouseFile::create(to, house, pictures);
  session.out << "Started " << terminal::printable(to) << " from " << terminal::printable(from) << ": " << house.points.size() << " points, "
              << house.breakers.size() << " breakers.\n";
  if (const std::string missing = words_of_missing_pictures(photos_without_picture(house, pictures), house.photos.size()); !missing.empty()) session.out << missing << '\n';
  return kDone;
}

}  // namespace ohmstead
