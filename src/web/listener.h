#pragma once
// The only place that knows libmicrohttpd: takes connections, reads whole requests within limits, and writes answers with the
// headers that every answer has. Why this library and these limits: docs/page.md.

#include <chrono>
#include <cstddef>
#include <memory>

#include "web/listen_socket.h"
#include "web/message.h"

namespace ohmstead::web {

struct ListenerOptions {
  unsigned most_connections = 256, most_per_address = 160;
  std::size_t most_body_bytes = 64 * 1024;
  std::chrono::milliseconds whole_request{10'000};  ///< from the first byte; a request that is not complete by then is cut off
  std::chrono::milliseconds whole_answer{60'000};   ///< an answer that is not fetched by then is cut off (the house over a bad radio link)
  std::chrono::seconds idle{15};  ///< a connection on which nothing moves so long is closed
  unsigned most_parked = 64;      ///< requests waiting; one more is answered 503
  unsigned workers = 4;           ///< threads that the handler is called in; reading and writing go on beside them
};

class Listener {
 public:
  /// Takes what comes to the socket from now on (keep it alive). The handler is called from several threads at once; an exception out
  /// of it is answered 500 without its text. Throws Error{output} if there is no memory or thread left for it.
  Listener(const ListenSocket& socket, const ListenerOptions& options, Handler handler);
  /// Stops: no handler runs any more when it returns; what was parked is answered as if its time were over.
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  /// Something changed: asks everything that is parked again. From any thread; returns at once.
  void wake();

  struct Daemon;  ///< what the library is given to work with

 private:
  std::unique_ptr<Daemon> daemon_;
};

}  // namespace ohmstead::web
