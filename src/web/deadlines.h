#pragma once
// Cuts off connections whose time is over, or whose other end left in the middle of a request: the library's own timeout only sees that
// nothing moves at all, not that a request comes one byte a second; and it does not see an end that comes together with the last bytes.

#include <condition_variable>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "web/message.h"

namespace ohmstead::web {

struct DeadlineOptions {
  std::chrono::milliseconds look_again{250};  ///< how often it looks for ends that left
  std::chrono::milliseconds grace{500};       ///< what they sent before may still be read for so long
};

/// What a connection does until its deadline.
enum class Phase {
  sends,    ///< a request, or nothing yet: if its end leaves, nothing more can come
  fetches,  ///< an answer: its end may have finished sending, and still wait
};

/// From any thread.
class Deadlines {
 public:
  explicit Deadlines(const DeadlineOptions& options = {});
  ~Deadlines();
  Deadlines(const Deadlines&) = delete;
  Deadlines& operator=(const Deadlines&) = delete;

  /// Watches a socket that sends from now on; remove() it before it is closed. Returns its number.
  std::uint64_t add(int socket, Moment deadline);
  void set(std::uint64_t number, Moment deadline, Phase phase);
  /// It is not watched until the next set(): it waits for us.
  void rest(std::uint64_t number);
  void remove(std::uint64_t number);

 private:
  struct Watched {
    int socket = -1;
    std::optional<Moment> deadline;
    Phase phase = Phase::sends;
    bool left = false;  ///< its end did, and its grace runs
  };

  void watch();
  /// Shortens the deadlines of those that send and whose end left. Are there any that send?
  bool look_for_ends(Moment now);
  /// Shuts those whose time is over; when the next is due.
  std::optional<Moment> cut_off(Moment now);

  DeadlineOptions options_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::uint64_t, Watched> watched_;
  std::uint64_t last_ = 0;
  std::optional<Moment> next_;  ///< when the thread looks again
  bool stopping_ = false;
  std::thread thread_;
};

/// Did the other end close the connection, or its half of it?
[[nodiscard]] bool hung_up(int socket);

}  // namespace ohmstead::web
