#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/back_up.h"

namespace ohmstead {

int run_copy(Session& session, const Arguments& arguments) {
  const std::string to = arguments.text("FILE");
  back_up(house_path(session), to);
  session.out << "Copied to " << terminal::printable(to) << ".\n";
  return kDone;
}

}  // namespace ohmstead
