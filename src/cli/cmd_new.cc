#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

VoltageSystem system_named(const std::string& text) {
  if (text == "120/240") return VoltageSystem::split_phase_120_240;
  if (text == "120/208") return VoltageSystem::wye_120_208;
  if (text == "120/208-3") return VoltageSystem::wye_120_208_3;
  if (text == "230") return VoltageSystem::single_230;
  throw Error(ErrorKind::invalid_input, "--voltage is 120/240, 120/208, 120/208-3 or 230, not '" + terminal::printable(text.substr(0, 40)) + "'.");
}

}  // namespace

int run_new(Session& session, const Arguments& arguments) {
  const std::string path = arguments.text("FILE");
  Dwelling dwelling{Id<Dwelling>::fresh(), arguments.text("--name", "House"), system_named(arguments.text("--voltage", "120/240"))};
  HouseFile::create(path, dwelling);
  session.out << "Started " << terminal::printable(path) << ". Next: `ohmstead enter` a few lines, or let `ohmstead survey` ask.\n";
  return kDone;
}

}  // namespace ohmstead
