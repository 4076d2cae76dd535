#pragma once
// A client that sends exactly the bytes it is told, well formed or not.

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

namespace ohmstead::web {

struct RawAnswer {
  int status = 0;
  std::string head;  ///< with the status line
  std::string body;
  [[nodiscard]] bool has_header(const std::string& line) const { return head.find("\r\n" + line + "\r\n") != std::string::npos; }
};

/// One connection, to this computer.
class RawClient {
 public:
  explicit RawClient(std::uint16_t port, std::chrono::milliseconds patience = std::chrono::seconds(20), const std::string& address = "127.0.0.1");
  ~RawClient();
  RawClient(RawClient&& other) noexcept;
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;
  RawClient& operator=(RawClient&&) = delete;

  /// False: the other end is closed.
  bool send(const std::string& bytes) const;
  /// The next answer; nothing if the connection is closed, or the patience is over, before it is whole.
  [[nodiscard]] std::optional<RawAnswer> receive();
  /// Is the connection closed by the other end within the patience, with nothing more to read?
  [[nodiscard]] bool is_closed();
  /// Closes our half: nothing more is sent, answers can still come.
  void finish_sending() const;
  void close_now();

 private:
  [[nodiscard]] bool read_more();

  int socket_ = -1;
  std::string read_;
};

/// A whole request: "GET /api/me", its Host, more header lines (each with its line end), a body.
struct RawRequest {
  std::string line;
  std::string host;
  std::string headers;
  std::string body;
  [[nodiscard]] std::string bytes() const;
};

/// What the page sends with a POST.
[[nodiscard]] std::string page_headers(const std::string& host, const std::string& cookie = "");
/// "name=value" of the cookie that an answer sets; empty: none.
[[nodiscard]] std::string cookie_of(const RawAnswer& answer);
/// Pairs with a secret of the terminal, at the address in `host`, and returns the cookie.
[[nodiscard]] std::string pair_with(std::uint16_t port, const std::string& host, const std::string& secret);

}  // namespace ohmstead::web
