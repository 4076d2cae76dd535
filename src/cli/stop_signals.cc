#include "cli/stop_signals.h"

#include <sys/signalfd.h>
#include <unistd.h>

#include <initializer_list>

namespace ohmstead {

StopSignals::StopSignals() {
  sigset_t stops;
  sigemptyset(&stops);
  for (const int one : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&stops, one);
  pthread_sigmask(SIG_BLOCK, &stops, &before_);
  for (const int one : {SIGPIPE, SIGTTIN}) signal(one, SIG_IGN);
  handle_ = signalfd(-1, &stops, SFD_CLOEXEC | SFD_NONBLOCK);
}

StopSignals::~StopSignals() {
  close(handle_);
  for (const int one : {SIGPIPE, SIGTTIN}) signal(one, SIG_DFL);
  pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

int StopSignals::came() const {
  signalfd_siginfo about{};
  return read(handle_, &about, sizeof about) == sizeof about ? static_cast<int>(about.ssi_signo) : 0;
}

}  // namespace ohmstead
