#pragma once
// The whole server: a socket, the gate before the routes, and what is paired.

#include <string>
#include <vector>

#include "web/changes.h"
#include "web/gate.h"
#include "web/listener.h"
#include "web/pairing.h"
#include "web/routes.h"

namespace ohmstead::web {

struct ServerOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;  ///< 0: any free one
  ListenerOptions listener;
  Clock clock = [] { return std::chrono::steady_clock::now(); };
  std::function<void(std::uint64_t)> left;  ///< as in Pairing: a device was taken off, or paired anew under another number
};

class Server {
 public:
  /// Serves from now on: the page's files, pairing, and these routes. Keep the counter, and what the routes use, alive. Throws
  /// Error{output} with one sentence if the address cannot be had.
  Server(const ServerOptions& options, std::vector<Route> routes, ChangeCounter& changes);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  [[nodiscard]] Pairing& pairing() { return pairing_; }
  [[nodiscard]] std::uint16_t port() const { return socket_.port(); }
  /// "http://192.168.1.7:8642/"
  [[nodiscard]] std::string url() const;
  /// With the secret behind '#', which a browser keeps to itself.
  [[nodiscard]] std::string url_with(const Offer& offer) const { return url() + "#pair=" + offer.secret; }

 private:
  std::string address_;
  ListenSocket socket_;
  Pairing pairing_;
  Gate gate_;
  ChangeCounter& changes_;
  Listener listener_;
};

/// The values of Host that are the server's own.
[[nodiscard]] std::vector<std::string> own_hosts(const std::string& address, std::uint16_t port);

}  // namespace ohmstead::web
