#pragma once
// What comes in and goes out over HTTP, as plain values: handlers and their tests know no socket.

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace ohmstead::web {

/// The time as a server counts it: never set back. Given to what decides by time, so that tests need not wait.
using Moment = std::chrono::steady_clock::time_point;
using Clock = std::function<Moment()>;

enum class Verb { get, post, other };

/// One request, complete: its body was read up to the listener's limit. Header values are as they came.
struct Request {
  Verb verb = Verb::get;
  std::string path;     ///< "/api/trace", percent-decoded, without the query
  std::vector<std::pair<std::string, std::string>> query;  ///< decoded, in the order given
  std::vector<std::string> hosts;  ///< every Host header
  std::string origin, content_type, own_header, cookie;  ///< empty: not there; own_header is X-Ohmstead
  std::string body;
  std::string address;  ///< of the other end: "127.0.0.1"

  /// First value of a query field; empty: not there.
  [[nodiscard]] std::string field(std::string_view name) const;
  /// Value of a cookie; empty: not there.
  [[nodiscard]] std::string cookie_named(std::string_view name) const;
};

struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::string set_cookie;  ///< empty: none
};

/// `{"error":{"kind","message"}}`: what is refused, in one sentence for a person.
[[nodiscard]] Response refusal(int status, std::string_view kind, std::string_view message);

/// An answer that is not there yet: the request is parked until `answer` gives one or the time is over. `answer` is asked at once,
/// whenever the listener is woken, and with `over` true when the time is over; then it must give one.
struct Parked {
  std::chrono::milliseconds at_most{20'000};
  std::function<std::optional<Response>(bool over)> answer;
};

using Answer = std::variant<Response, Parked>;
using Handler = std::function<Answer(const Request&)>;

}  // namespace ohmstead::web
