#include "web/listener.h"

#include <microhttpd.h>

#include <cstring>
#include <map>
#include <memory>
#include <mutex>
#include <thread>

#include "house/error.h"
#include "web/answering.h"
#include "web/deadlines.h"
#include "web/incoming.h"

namespace ohmstead::web {

namespace {

constexpr unsigned kReaders = 2;                    // threads that read and write
constexpr std::size_t kConnectionMemory = 16 * 1024;  // the head of a request must fit into it
constexpr std::chrono::seconds kLastAnswers{1};

/// What every answer carries. Scripts and styles are the server's own files alone; nothing is fetched from elsewhere, kept, or framed.
constexpr std::pair<const char*, const char*> kHeaders[] = {
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; "
     "form-action 'none'; frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"X-Frame-Options", "DENY"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Cache-Control", "no-store"},
};

/// One request on its way.
struct Exchange {
  std::string target;
  bool begun = false;
  Request request;
  std::optional<Response> answer;
};

/// The requests that are under way, one a connection. The library does not tell the end of every one that it refuses itself: what is
/// left of such a one goes with the next request, or with its connection.
class UnderWay {
 public:
  Exchange* begin(const MHD_Connection* connection, const char* target) {
    auto begun = std::make_unique<Exchange>();
    begun->target = target;
    const std::scoped_lock lock(mutex_);
    return (of_[connection] = std::move(begun)).get();
  }
  void end(const MHD_Connection* connection) {
    const std::scoped_lock lock(mutex_);
    of_.erase(connection);
  }
  [[nodiscard]] bool any() const {
    const std::scoped_lock lock(mutex_);
    return !of_.empty();
  }

 private:
  mutable std::mutex mutex_;
  std::map<const MHD_Connection*, std::unique_ptr<Exchange>> of_;
};

MHD_Result add_header(void* into, MHD_ValueKind, const char* name, const char* value) {
  static_cast<Head*>(into)->headers.emplace_back(name, value == nullptr ? "" : value);
  return MHD_YES;
}

int socket_of(MHD_Connection* connection) {
  const MHD_ConnectionInfo* const info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
  return info == nullptr ? -1 : info->connect_fd;
}

/// Its number among the deadlines.
std::uint64_t number_of(MHD_Connection* connection) {
  const MHD_ConnectionInfo* const info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
  return info == nullptr ? 0 : reinterpret_cast<std::uintptr_t>(info->socket_context);
}

MHD_Result send(MHD_Connection* connection, const Response& answer) {
  MHD_Response* const response = MHD_create_response_from_buffer(answer.body.size(), const_cast<char*>(answer.body.data()), MHD_RESPMEM_MUST_COPY);
  if (response == nullptr) return MHD_NO;
  for (const auto& [name, value] : kHeaders) MHD_add_response_header(response, name, value);
  bool whole = MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, answer.type.c_str()) == MHD_YES;
  if (!answer.set_cookie.empty()) whole = whole && MHD_add_response_header(response, MHD_HTTP_HEADER_SET_COOKIE, answer.set_cookie.c_str()) == MHD_YES;
  const MHD_Result sent = whole ? MHD_queue_response(connection, static_cast<unsigned>(answer.status), response) : MHD_NO;
  MHD_destroy_response(response);
  return sent;
}

}  // namespace

struct Listener::Daemon {
  Daemon(const ListenSocket& socket, const ListenerOptions& its_options, Handler handler)
      : options(its_options), answering({options.workers, options.most_parked, std::chrono::seconds(1)}, std::move(handler)) {
    start(socket);
  }

  ~Daemon() {
    MHD_quiesce_daemon(http);
    answering.stop();
    const Moment end = std::chrono::steady_clock::now() + kLastAnswers;
    while (under_way.any() && std::chrono::steady_clock::now() < end) std::this_thread::sleep_for(std::chrono::milliseconds(2));
    MHD_stop_daemon(http);
  }

  void start(const ListenSocket& socket);
  MHD_Result take(MHD_Connection* connection, const char* method, std::string_view data, Exchange& exchange);
  MHD_Result begin(MHD_Connection* connection, const char* method, Exchange& exchange);
  MHD_Result answer(MHD_Connection* connection, const Response& response);
  void set_deadline(MHD_Connection* connection, std::chrono::milliseconds from_now, Phase phase);

  ListenerOptions options;
  Deadlines deadlines;
  UnderWay under_way;
  Answering answering;
  MHD_Daemon* http = nullptr;
};

namespace {

using Daemon = Listener::Daemon;

}  // namespace

void Listener::Daemon::set_deadline(MHD_Connection* connection, std::chrono::milliseconds from_now, Phase phase) {
  deadlines.set(number_of(connection), std::chrono::steady_clock::now() + from_now, phase);
}

MHD_Result Listener::Daemon::answer(MHD_Connection* connection, const Response& response) {
  set_deadline(connection, options.whole_answer, Phase::fetches);
  return send(connection, response);
}

MHD_Result Listener::Daemon::begin(MHD_Connection* connection, const char* method, Exchange& exchange) {
  exchange.begun = true;
  const MHD_ConnectionInfo* const info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
  Head head{method, exchange.target, {}, info == nullptr ? "" : address_text(info->client_addr)};
  MHD_get_connection_values(connection, MHD_HEADER_KIND, add_header, &head);
  auto taken = take_head(head, options.most_body_bytes);
  if (const auto* refused = std::get_if<Response>(&taken)) return answer(connection, *refused);  // before the request is whole: the library closes behind it
  exchange.request = std::move(std::get<Request>(taken));
  return MHD_YES;
}

MHD_Result Listener::Daemon::take(MHD_Connection* connection, const char* method, std::string_view data, Exchange& exchange) {
  if (!exchange.begun) return begin(connection, method, exchange);
  if (!data.empty()) {
    if (exchange.request.body.size() + data.size() > options.most_body_bytes) return MHD_NO;
    exchange.request.body += data;
    return MHD_YES;
  }
  if (exchange.answer) return answer(connection, *exchange.answer);
  deadlines.rest(number_of(connection));
  MHD_suspend_connection(connection);
  const auto done = [connection, &exchange](Response response) {
    exchange.answer = std::move(response);
    MHD_resume_connection(connection);
  };
  answering.take(std::move(exchange.request), {done, [end = socket_of(connection)] { return hung_up(end); }});
  return MHD_YES;
}

namespace {

MHD_Result on_request(void* daemon, MHD_Connection* connection, const char*, const char* method, const char*, const char* data,
                      std::size_t* size, void** context) try {
  if (*context == nullptr) return MHD_NO;
  const std::string_view given(data, *size);
  const MHD_Result result = static_cast<Daemon*>(daemon)->take(connection, method, given, *static_cast<Exchange*>(*context));
  if (result == MHD_YES) *size = 0;
  return result;
} catch (...) {
  return MHD_NO;
}

void* on_target(void* its_daemon, const char* target, MHD_Connection* connection) try {
  auto& daemon = *static_cast<Daemon*>(its_daemon);
  daemon.set_deadline(connection, daemon.options.whole_request, Phase::sends);
  return daemon.under_way.begin(connection, target);
} catch (...) {
  return nullptr;
}

void on_completed(void* its_daemon, MHD_Connection* connection, void** context, MHD_RequestTerminationCode) {
  auto& daemon = *static_cast<Daemon*>(its_daemon);
  daemon.set_deadline(connection, daemon.options.idle + daemon.options.whole_request, Phase::sends);
  *context = nullptr;
  daemon.under_way.end(connection);
}

void on_connection(void* its_daemon, MHD_Connection* connection, void** context, MHD_ConnectionNotificationCode what) {
  auto& daemon = *static_cast<Daemon*>(its_daemon);
  if (what == MHD_CONNECTION_NOTIFY_STARTED) {
    const Moment deadline = std::chrono::steady_clock::now() + daemon.options.whole_request;
    *context = reinterpret_cast<void*>(static_cast<std::uintptr_t>(daemon.deadlines.add(socket_of(connection), deadline)));
  } else {
    daemon.under_way.end(connection);
    daemon.deadlines.remove(reinterpret_cast<std::uintptr_t>(*context));
  }
}

std::size_t leave_encoded(void*, MHD_Connection*, char* text) { return std::strlen(text); }

void say_nothing(void*, const char*, va_list) {}

}  // namespace

void Listener::Daemon::start(const ListenSocket& socket) {
  http = MHD_start_daemon(
      MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME, 0, nullptr, nullptr, on_request, this,
      MHD_OPTION_EXTERNAL_LOGGER, say_nothing, nullptr, MHD_OPTION_LISTEN_SOCKET, socket.handle(), MHD_OPTION_THREAD_POOL_SIZE, kReaders,
      MHD_OPTION_CONNECTION_LIMIT, options.most_connections, MHD_OPTION_PER_IP_CONNECTION_LIMIT, options.most_per_address,
      MHD_OPTION_CONNECTION_MEMORY_LIMIT, kConnectionMemory, MHD_OPTION_CONNECTION_TIMEOUT, static_cast<unsigned>(options.idle.count()),
      MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_COMPLETED, on_completed, this, MHD_OPTION_NOTIFY_CONNECTION, on_connection, this,
      MHD_OPTION_URI_LOG_CALLBACK, on_target, this, MHD_OPTION_UNESCAPE_CALLBACK, leave_encoded, nullptr, MHD_OPTION_END);
  if (http == nullptr) throw Error(ErrorKind::output, "The server could not be started; is this computer out of memory or open files?");
}

Listener::Listener(const ListenSocket& socket, const ListenerOptions& options, Handler handler)
    : daemon_(std::make_unique<Daemon>(socket, options, std::move(handler))) {}
Listener::~Listener() = default;
void Listener::wake() { daemon_->answering.wake(); }

}  // namespace ohmstead::web
