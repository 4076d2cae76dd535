#pragma once
// The only place that knows libmicrohttpd: takes connections, reads whole requests within limits, and writes answers with the
// headers that every answer has. Why this library and these limits: docs/page.md.

#include <cstdint>
#include <memory>
#include <string>

#include "web/message.h"

namespace ohmstead::web {

struct ListenerOptions {
  std::string address = "127.0.0.1";  ///< one IPv4 or IPv6 address of this machine
  std::uint16_t port = 0;             ///< 0: any free one
  unsigned most_connections = 120, most_per_address = 100;
  std::size_t most_body_bytes = 64 * 1024;
  std::chrono::seconds whole_request{10};  ///< a request that is not complete by then is cut off
  unsigned most_parked = 64;               ///< requests waiting; one more is answered 503
};

class Listener {
 public:
  /// Listens from now on; the handler is called from several threads at once. An exception out of it is answered 500 without its
  /// text. Throws Error{output} with one sentence if the address cannot be had (in use, not of this machine).
  Listener(const ListenerOptions& options, Handler handler);
  /// Stops: no handler runs any more when it returns; what was parked is answered as if its time were over.
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  [[nodiscard]] std::uint16_t port() const;
  /// Something changed: asks everything that is parked again. From any thread.
  void wake();

 private:
  struct Daemon;
  std::unique_ptr<Daemon> daemon_;
};

}  // namespace ohmstead::web
