// The thin executable: streams, environment and signals; everything else is run_command_line.

#include <csignal>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <unistd.h>

#include "cli/command.h"

namespace {

std::string utc_now() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  return {text, std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts)};
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_DFL);  // a reader that went away ends us quietly
  const char* house = std::getenv("OHMSTEAD_HOUSE");
  ohmstead::Session session{std::cin, std::cout, std::cerr, house == nullptr ? "" : house, false, isatty(STDIN_FILENO) == 1, {}, utc_now};
  const int code = ohmstead::run_command_line({argv + 1, argv + argc}, session);
  std::cout.flush();
  if (!std::cout) {
    std::cerr << "ohmstead: the answer could not be written (is the disk full?).\n";
    return 3;
  }
  return code;
}
