// The thin executable: streams, environment and signals; everything else is run_command_line.

#include <csignal>
#include <cstdlib>
#include <ctime>
#include <fcntl.h>
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

/// By the time zone of this machine.
long clock_ahead(long seconds) {
  const auto moment = static_cast<std::time_t>(seconds);
  std::tm parts{};
  return localtime_r(&moment, &parts) == nullptr ? 0 : parts.tm_gmtoff;
}

/// A standard stream that is closed is opened on nothing, the wrong way round, so that no house file
/// or PDF takes its number and is written over; using it still fails.
void fill_closed_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (fcntl(stream, F_GETFD) == -1 && open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY) < 0) std::_Exit(70);
}

}  // namespace

int main(int argc, char** argv) {
  fill_closed_streams();
  std::signal(SIGPIPE, SIG_DFL);  // a reader that went away ends us quietly
  const char* house = std::getenv("OHMSTEAD_HOUSE");
  ohmstead::Session session{std::cin, std::cout, std::cerr, house == nullptr ? "" : house, false, "", "", isatty(STDIN_FILENO) == 1, {}, utc_now, clock_ahead};
  const int code = ohmstead::run_command_line({argv + 1, argv + argc}, session);
  std::cout.flush();
  if (!std::cout) {
    std::cerr << "ohmstead: the answer could not be written (is the disk full?).\n";
    return 3;
  }
  return code;
}
