#include "web/listen_socket.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "ask/printable.h"
#include "house/error.h"

namespace ohmstead::web {

namespace {

struct Place {
  sockaddr_storage storage{};
  socklen_t length = 0;
};

Place place_of(const std::string& address, std::uint16_t port) {
  Place place;
  auto* const four = reinterpret_cast<sockaddr_in*>(&place.storage);
  auto* const six = reinterpret_cast<sockaddr_in6*>(&place.storage);
  if (inet_pton(AF_INET, address.c_str(), &four->sin_addr) == 1) {
    four->sin_family = AF_INET;
    four->sin_port = htons(port);
    place.length = sizeof *four;
  } else if (inet_pton(AF_INET6, address.c_str(), &six->sin6_addr) == 1) {
    six->sin6_family = AF_INET6;
    six->sin6_port = htons(port);
    place.length = sizeof *six;
  } else {
    throw Error(ErrorKind::output, "'" + terminal::printable(address.substr(0, 60)) + "' is not an address; give one such as 192.168.1.7.");
  }
  return place;
}

Error cannot_listen(const std::string& address, std::uint16_t port) {
  const std::string where = address_and_port(address, port);
  if (errno == EADDRINUSE) return {ErrorKind::output, "Another program already listens at " + where + "; stop it, or give another number with --port."};
  if (errno == EADDRNOTAVAIL) return {ErrorKind::output, address + " is not an address of this computer; give one that is."};
  if (errno == EACCES) return {ErrorKind::output, "This user may not listen at " + where + "; give a port number from 1024 on."};
  return {ErrorKind::output, "It is not possible to listen at " + where + ": " + std::strerror(errno) + "."};
}

}  // namespace

ListenSocket::ListenSocket(const std::string& address, std::uint16_t port) {
  const Place place = place_of(address, port);
  socket_ = socket(place.storage.ss_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
  const int on = 1;
  // SO_REUSEADDR lets a server start again while old connections die; SO_REUSEPORT would let a second one in.
  const bool listens = socket_ >= 0 && setsockopt(socket_, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on) == 0 &&
                       bind(socket_, reinterpret_cast<const sockaddr*>(&place.storage), place.length) == 0 && listen(socket_, 128) == 0;
  if (listens) return;
  const Error error = cannot_listen(address, port);
  if (socket_ >= 0) close(socket_);
  throw error;
}

ListenSocket::~ListenSocket() { close(socket_); }

std::uint16_t ListenSocket::port() const {
  Place place;
  place.length = sizeof place.storage;
  getsockname(socket_, reinterpret_cast<sockaddr*>(&place.storage), &place.length);
  return ntohs(place.storage.ss_family == AF_INET6 ? reinterpret_cast<const sockaddr_in6*>(&place.storage)->sin6_port
                                                   : reinterpret_cast<const sockaddr_in*>(&place.storage)->sin_port);
}

std::string address_text(const sockaddr* address) {
  if (address == nullptr) return "";
  char text[INET6_ADDRSTRLEN] = "";
  if (address->sa_family == AF_INET) inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(address)->sin_addr, text, sizeof text);
  if (address->sa_family == AF_INET6) inet_ntop(AF_INET6, &reinterpret_cast<const sockaddr_in6*>(address)->sin6_addr, text, sizeof text);
  return text;
}

std::string address_and_port(const std::string& address, std::uint16_t port) {
  const bool six = address.find(':') != std::string::npos;
  return (six ? "[" + address + "]" : address) + ":" + std::to_string(port);
}

}  // namespace ohmstead::web
