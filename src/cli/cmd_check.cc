#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/check.h"

namespace ohmstead {

int run_check(Session& session, const Arguments&) {
  const std::string path = house_path(session);
  const auto findings = check_house_file(path);
  for (const std::string& finding : findings) session.out << terminal::printable(finding) << '\n';
  if (findings.empty()) session.out << terminal::printable(path) << " is whole, and nothing in it contradicts itself.\n";
  return findings.empty() ? kDone : kDoneButNo;
}

}  // namespace ohmstead
