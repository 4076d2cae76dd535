#pragma once
// A socket that listens, and what stands at its other ends.

#include <sys/socket.h>

#include <cstdint>
#include <string>

namespace ohmstead::web {

/// Owns a socket.
class ListenSocket {
 public:
  /// Throws Error{output} with one sentence if the address cannot be had. A second server on the port is refused, never let in beside.
  ListenSocket(const std::string& address, std::uint16_t port);
  ~ListenSocket();
  ListenSocket(const ListenSocket&) = delete;
  ListenSocket& operator=(const ListenSocket&) = delete;

  [[nodiscard]] int handle() const { return socket_; }
  [[nodiscard]] std::uint16_t port() const;

 private:
  int socket_ = -1;
};

/// "192.168.1.7" of a socket's address; "" for what is not IP.
[[nodiscard]] std::string address_text(const sockaddr* address);

/// "192.168.1.7:8642", "[fd00::7]:8642"
[[nodiscard]] std::string address_and_port(const std::string& address, std::uint16_t port);

}  // namespace ohmstead::web
