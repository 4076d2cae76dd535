#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/interchange.h"
#include "db/output_file.h"

namespace ohmstead {

int run_export(Session& session, const Arguments& arguments) {
  const HouseFile file = open_house(session, Access::read);
  const House house = load_house(session, file, session.err);
  const std::string text = house_to_json(house, file.pictures(house));
  const std::string path = arguments.text("--output", "-");
  if (path == "-") session.out << text;
  else {
    write_output_file(path, text);
    session.err << "Wrote " << terminal::printable(path) << ".\n";
  }
  return kDone;
}

}  // namespace ohmstead
