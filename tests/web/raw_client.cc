#include "raw_client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cstdlib>
#include <stdexcept>
#include <utility>

namespace ohmstead::web {

RawClient::RawClient(std::uint16_t port, std::chrono::milliseconds patience, const std::string& address)
    : socket_(socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_port = htons(port);
  inet_pton(AF_INET, address.c_str(), &at.sin_addr);
  const timeval limit{patience.count() / 1000, patience.count() % 1000 * 1000};
  setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
  setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &limit, sizeof limit);
  if (connect(socket_, reinterpret_cast<const sockaddr*>(&at), sizeof at) != 0) throw std::runtime_error("no connection");
}

RawClient::~RawClient() { close_now(); }
RawClient::RawClient(RawClient&& other) noexcept : socket_(std::exchange(other.socket_, -1)), read_(std::move(other.read_)) {}

void RawClient::close_now() {
  if (socket_ >= 0) close(socket_);
  socket_ = -1;
}

void RawClient::finish_sending() const { shutdown(socket_, SHUT_WR); }

bool RawClient::send(const std::string& bytes) const {
  for (std::size_t at = 0; at < bytes.size();) {
    const ssize_t sent = ::send(socket_, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL);
    if (sent <= 0) return false;
    at += static_cast<std::size_t>(sent);
  }
  return true;
}

bool RawClient::read_more() {
  char block[16384];
  const ssize_t got = recv(socket_, block, sizeof block, 0);
  if (got <= 0) return false;
  read_.append(block, static_cast<std::size_t>(got));
  return true;
}

std::optional<RawAnswer> RawClient::receive() {
  std::size_t end = std::string::npos;
  while ((end = read_.find("\r\n\r\n")) == std::string::npos)
    if (!read_more()) return std::nullopt;
  RawAnswer answer;
  answer.head = read_.substr(0, end + 4);
  if (answer.head.starts_with("HTTP/1.1 100")) {
    read_.erase(0, end + 4);
    return receive();
  }
  answer.status = std::atoi(answer.head.substr(9, 3).c_str());
  const std::string kLength = "\r\nContent-Length: ";
  const std::size_t length_at = answer.head.find(kLength);
  const std::size_t length = length_at == std::string::npos ? 0 : std::strtoul(answer.head.c_str() + length_at + kLength.size(), nullptr, 10);
  while (read_.size() < end + 4 + length)
    if (!read_more()) return std::nullopt;
  answer.body = read_.substr(end + 4, length);
  read_.erase(0, end + 4 + length);
  return answer;
}

bool RawClient::is_closed() {
  if (!read_.empty()) return false;
  char one = 0;
  const ssize_t got = recv(socket_, &one, 1, 0);
  if (got > 0) return false;
  return got == 0 || (errno != EAGAIN && errno != EWOULDBLOCK);
}

std::string RawRequest::bytes() const {
  std::string text = line + " HTTP/1.1\r\nHost: " + host + "\r\n" + headers;
  if (line.starts_with("POST")) text += "Content-Length: " + std::to_string(body.size()) + "\r\n";
  return text + "\r\n" + body;
}

std::string page_headers(const std::string& host, const std::string& cookie) {
  return "Content-Type: application/json\r\nX-Ohmstead: 1\r\nOrigin: http://" + host + "\r\n" + (cookie.empty() ? "" : "Cookie: " + cookie + "\r\n");
}

std::string cookie_of(const RawAnswer& answer) {
  const std::string kName = "\r\nSet-Cookie: ";
  const std::size_t at = answer.head.find(kName);
  if (at == std::string::npos) return "";
  const std::size_t from = at + kName.size();
  return answer.head.substr(from, answer.head.find_first_of(";\r", from) - from);
}

std::string pair_with(std::uint16_t port, const std::string& host, const std::string& secret) {
  RawClient client(port, std::chrono::seconds(20), host.substr(0, host.find(':')));
  client.send(RawRequest{"POST /api/pair", host, page_headers(host), R"({"secret":")" + secret + R"(","name":"Phone"})"}.bytes());
  const auto answer = client.receive();
  return answer && answer->status == 200 ? cookie_of(*answer) : "";
}

}  // namespace ohmstead::web
