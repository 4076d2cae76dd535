#pragma once
// Cuts off connections whose time is over: the library's own timeout only sees that nothing moves at all, not that a request comes one byte
// a second.

#include <condition_variable>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "web/message.h"

namespace ohmstead::web {

/// From any thread.
class Deadlines {
 public:
  Deadlines();
  ~Deadlines();
  Deadlines(const Deadlines&) = delete;
  Deadlines& operator=(const Deadlines&) = delete;

  /// Watches a socket from now on; remove() it before it is closed. Returns its number.
  std::uint64_t add(int socket, Moment deadline);
  /// Another deadline, or none.
  void set(std::uint64_t number, std::optional<Moment> deadline);
  void remove(std::uint64_t number);

 private:
  struct Watched {
    int socket = -1;
    std::optional<Moment> deadline;
  };

  void watch();
  /// Shuts those whose time is over; when the next is due.
  std::optional<Moment> cut_off(Moment now);

  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::uint64_t, Watched> watched_;
  std::uint64_t last_ = 0;
  std::optional<Moment> next_;  ///< when the thread looks again
  bool stopping_ = false;
  std::thread thread_;
};

}  // namespace ohmstead::web
