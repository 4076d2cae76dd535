#include <filesystem>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/back_up.h"

namespace ohmstead {

int run_copy(Session& session, const Arguments& arguments) {
  const std::string to = arguments.text("FILE");
  const std::string from = house_path(session);
  back_up(from, to);
  session.out << "Copied to " << terminal::printable(to) << ".\n";
  const auto folder = [](const std::string& path) { return std::filesystem::absolute(path).lexically_normal().parent_path(); };
  if (to.ends_with(".house") && folder(to) == folder(from))
    session.out << "Two house files are in one folder now: say which with --house FILE, or keep copies in another folder.\n";
  return kDone;
}

}  // namespace ohmstead
