#pragma once
// Signals that ask a long-running command to stop, waited for like input.

#include <signal.h>

namespace ohmstead {

/// While it lives, SIGINT, SIGTERM and SIGHUP end nothing, a write to a closed pipe fails, and so does reading from the terminal in the
/// background. Make it before any thread is started.
class StopSignals {
 public:
  StopSignals();
  ~StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;

  /// Readable when one came.
  [[nodiscard]] int handle() const { return handle_; }
  /// The signal that came; 0: none yet.
  [[nodiscard]] int came() const;

 private:
  sigset_t before_{};
  int handle_ = -1;
};

}  // namespace ohmstead
