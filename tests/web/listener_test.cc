#include "web/listener.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>
#include <thread>

#include "raw_client.h"

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds, std::chrono::seconds;

std::string get(const std::string& target, const std::string& headers = "") { return "GET " + target + " HTTP/1.1\r\nHost: a\r\n" + headers + "\r\n"; }

/// A listener whose handler tells what it was given.
class Echo {
 public:
  explicit Echo(const ListenerOptions& options = {}) : listener_(socket_, options, [this](const Request& request) { return answer(request); }) {}

  [[nodiscard]] RawClient client(milliseconds patience = seconds(20)) const { return RawClient(socket_.port(), patience); }
  [[nodiscard]] std::optional<RawAnswer> answer_to(const std::string& bytes) const {
    RawClient one = client();
    one.send(bytes);
    return one.receive();
  }
  /// So many requests that wait for news, each on a connection of its own.
  [[nodiscard]] std::vector<RawClient> parked(int count) const {
    std::vector<RawClient> clients;
    for (int i = 0; i < count; ++i) {
      clients.push_back(client());
      clients.back().send(get("/park"));
    }
    while (asked < count) std::this_thread::yield();
    return clients;
  }
  void tell_news() {
    news = true;
    listener_.wake();
  }
  std::atomic<bool> news{false};
  std::atomic<int> handled{0}, asked{0};

 private:
  Answer answer(const Request& request) {
    ++handled;
    if (request.path == "/throw") throw std::runtime_error("secret");
    if (request.path == "/cookie") return Response{200, "text/plain", "", "a=b; HttpOnly"};
    if (request.path == "/large") return Response{200, "text/plain", std::string(20'000'000, 'x'), ""};
    if (request.path == "/park")
      return Parked{seconds(20), [this](bool over) -> std::optional<Response> {
                      ++asked;
                      if (news) return Response{200, "text/plain", "news", ""};
                      return over ? std::optional(Response{200, "text/plain", "nothing new", ""}) : std::nullopt;
                    }};
    return Response{200, "text/plain", request.path + "|" + request.field("q") + "|" + request.address + "|" + request.body, ""};
  }

  ListenSocket socket_{"127.0.0.1", 0};
  Listener listener_;
};

std::string post(const std::string& body, const std::string& headers = "") {
  return "POST /p HTTP/1.1\r\nHost: a\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" + headers + "\r\n" + body;
}
int status_of(const std::optional<RawAnswer>& answer) { return answer ? answer->status : 0; }

TEST(Listener, gives_requests_on_as_they_came_and_answers_them_with_the_headers_of_every_answer) {
  const Echo echo;
  const auto answer = echo.answer_to(get("/a%20b?q=%C3%A9"));
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 200);
  EXPECT_EQ(answer->body, "/a b|é|127.0.0.1|");
  for (const char* header : {"X-Content-Type-Options: nosniff", "Referrer-Policy: no-referrer", "Cache-Control: no-store", "X-Frame-Options: DENY", "Content-Type: text/plain",
                             "Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri "
                             "'none'; form-action 'none'; frame-ancestors 'none'"})
    EXPECT_TRUE(answer->has_header(header)) << header << " in\n" << answer->head;
  EXPECT_EQ(answer->head.find("Access-Control"), std::string::npos);
  EXPECT_TRUE(echo.answer_to(get("/cookie"))->has_header("Set-Cookie: a=b; HttpOnly"));
}

TEST(Listener, one_connection_carries_one_request_after_another_also_sent_together) {
  const Echo echo;
  RawClient client = echo.client();
  client.send(get("/1") + post("two") + get("/3"));
  EXPECT_EQ(client.receive()->body, "/1||127.0.0.1|");
  EXPECT_EQ(client.receive()->body, "/p||127.0.0.1|two");
  EXPECT_EQ(client.receive()->body, "/3||127.0.0.1|");
  client.send(get("/4"));
  EXPECT_EQ(client.receive()->body, "/4||127.0.0.1|");
}

TEST(Listener, a_body_up_to_the_limit_is_taken_and_a_longer_one_is_refused_before_it_is_read) {
  const Echo echo;
  const std::string most(64 * 1024, 'b');
  EXPECT_EQ(echo.answer_to(post(most))->body, "/p||127.0.0.1|" + most);
  RawClient client = echo.client();
  client.send("POST /p HTTP/1.1\r\nHost: a\r\nContent-Length: 65537\r\n\r\n");
  EXPECT_EQ(status_of(client.receive()), 413);
  EXPECT_TRUE(client.is_closed());
  EXPECT_EQ(echo.handled, 1);
}

TEST(Listener, what_is_refused_by_its_head_is_cut_off_so_that_its_body_is_no_request) {
  Echo echo;
  const std::string inner = get("/inner");
  for (const std::string& head : {std::string("Transfer-Encoding: chunked\r\n"), std::string("Content-Encoding: gzip\r\nContent-Length: ") + std::to_string(inner.size()) + "\r\n",
                                  std::string("Range: bytes=0-1\r\nContent-Length: ") + std::to_string(inner.size()) + "\r\n",
                                  std::string("Origin: a\r\nOrigin: b\r\nContent-Length: ") + std::to_string(inner.size()) + "\r\n"}) {
    RawClient client = echo.client();
    client.send("POST /p HTTP/1.1\r\nHost: a\r\n" + head + "\r\n" + inner);
    EXPECT_GE(status_of(client.receive()), 400) << head;
    EXPECT_FALSE(client.receive()) << head;
  }
  EXPECT_EQ(echo.handled, 0);
}

TEST(Listener, a_connection_with_a_head_that_is_refused_is_closed_also_without_a_body) {
  const Echo echo;
  RawClient client = echo.client();
  client.send(get("/", "Range: bytes=0-1\r\n") + get("/inner"));
  const auto refused = client.receive();
  EXPECT_EQ(status_of(refused), 400);
  EXPECT_TRUE(refused->has_header("Connection: close")) << refused->head;
  EXPECT_FALSE(client.receive());
  EXPECT_EQ(echo.handled, 0);
}

TEST(Listener, lengths_that_contradict_each_other_are_refused) {
  Echo echo;
  for (const char* head : {"Content-Length: 5\r\nContent-Length: 6\r\n", "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n", "Content-Length: -1\r\n", "Content-Length: 5, 5\r\n",
                           "Content-Length: 0x5\r\n", "Content-Length: 99999999999999999999999999\r\n", "Content-Length:\r\n"})
    EXPECT_GE(status_of(echo.answer_to(std::string("POST /p HTTP/1.1\r\nHost: a\r\n") + head + "\r\nhello")), 400) << head;
  EXPECT_EQ(echo.handled, 0);
}

TEST(Listener, heads_larger_than_their_room_are_refused) {
  const Echo echo;
  EXPECT_GE(status_of(echo.answer_to(get("/", "X: " + std::string(30'000, 'x') + "\r\n"))), 400);
  std::string many;
  for (int i = 0; i < 3000; ++i) many += "X" + std::to_string(i) + ": 1\r\n";
  EXPECT_GE(status_of(echo.answer_to(get("/", many))), 400);
  EXPECT_EQ(status_of(echo.answer_to(get("/", "X: " + std::string(6000, 'x') + "\r\n"))), 200);
}

TEST(Listener, a_fault_of_the_handler_is_answered_without_its_text_and_the_connection_goes_on) {
  const Echo echo;
  RawClient client = echo.client();
  client.send(get("/throw"));
  const auto answer = client.receive();
  EXPECT_EQ(status_of(answer), 500);
  EXPECT_EQ(answer->body.find("secret"), std::string::npos);
  client.send(get("/"));
  EXPECT_EQ(status_of(client.receive()), 200);
}

TEST(Listener, who_sends_slowly_is_cut_off_wherever_in_the_request_and_others_are_served_meanwhile) {
  ListenerOptions options;
  options.whole_request = milliseconds(400);
  Echo echo(options);
  const std::string whole = post("0123456789");
  std::vector<std::thread> slow;
  std::atomic<int> cut{0};
  for (int i = 0; i < 20; ++i)
    slow.emplace_back([&, i] {
      RawClient client = echo.client();
      if (i % 4 > 0) client.send(whole.substr(0, i % 4 == 1 ? 10 : whole.size() - (i % 4 == 2 ? 20 : 5)));
      for (int sent = 0; i % 4 == 3 && sent < 5; ++sent) {  // goes on, one byte at a time: something always moves
        if (!client.send("x")) break;
        std::this_thread::sleep_for(milliseconds(200));
      }
      if (client.is_closed()) ++cut;
    });
  for (int i = 0; i < 50; ++i) EXPECT_EQ(status_of(echo.answer_to(get("/"))), 200);
  for (std::thread& one : slow) one.join();
  EXPECT_GE(cut, 15);
}

TEST(Listener, a_request_that_comes_slowly_but_in_time_is_served) {
  ListenerOptions options;
  options.whole_request = seconds(20);
  const Echo echo(options);
  RawClient client = echo.client();
  for (const char byte : post("abc")) {
    client.send(std::string(1, byte));
    std::this_thread::sleep_for(milliseconds(1));
  }
  EXPECT_EQ(client.receive()->body, "/p||127.0.0.1|abc");
}

TEST(Listener, who_fetches_nothing_of_its_answer_is_cut_off) {
  ListenerOptions options;
  options.whole_answer = milliseconds(300);
  const Echo echo(options);
  RawClient client = echo.client();
  client.send(get("/large"));
  std::this_thread::sleep_for(milliseconds(900));
  EXPECT_FALSE(client.receive());
}

TEST(Listener, a_connection_that_waits_for_its_next_request_is_kept_longer_than_a_request_may_take) {
  ListenerOptions options;
  options.whole_request = milliseconds(200);
  const Echo echo(options);
  RawClient client = echo.client();
  client.send(get("/"));
  EXPECT_EQ(status_of(client.receive()), 200);
  std::this_thread::sleep_for(milliseconds(600));
  client.send(get("/"));
  EXPECT_EQ(status_of(client.receive()), 200);
}

TEST(Listener, what_is_parked_holds_up_nobody_and_is_answered_when_woken) {
  Echo echo;
  std::vector<RawClient> parked = echo.parked(40);
  EXPECT_EQ(status_of(echo.answer_to(get("/"))), 200);
  echo.tell_news();
  for (RawClient& one : parked) EXPECT_EQ(one.receive()->body, "news");
  parked.front().send(get("/after"));
  EXPECT_EQ(parked.front().receive()->body, "/after||127.0.0.1|");
}

TEST(Listener, one_more_than_may_be_parked_is_told_to_ask_again) {
  ListenerOptions options;
  options.most_parked = 3;
  Echo echo(options);
  const std::vector<RawClient> parked = echo.parked(3);
  EXPECT_EQ(status_of(echo.answer_to(get("/park"))), 503);
}

TEST(Listener, parked_requests_of_who_has_left_make_room) {
  ListenerOptions options;
  options.most_parked = 2;
  Echo echo(options);
  for (int i = 0; i < 2; ++i) {
    RawClient client = echo.client();
    const int before = echo.asked;
    client.send(get("/park"));
    while (echo.asked == before) std::this_thread::yield();
  }
  int status = 503;
  for (int tries = 0; tries < 100 && status == 503; ++tries) {
    RawClient client = echo.client(milliseconds(200));
    client.send(get("/park"));
    status = status_of(client.receive());  // 0: it is parked, so nothing comes
    if (status == 503) std::this_thread::sleep_for(milliseconds(100));
  }
  EXPECT_EQ(status, 0);
}

TEST(Listener, stopping_answers_what_is_parked_and_leaves_nobody_waiting) {
  auto echo = std::make_unique<Echo>();
  std::vector<RawClient> parked = echo->parked(10);
  RawClient idle = echo->client(), half = echo->client();
  half.send("GET / HT");
  while (echo->asked < 10) std::this_thread::yield();
  echo.reset();
  for (RawClient& one : parked) EXPECT_EQ(one.receive()->body, "nothing new");
  EXPECT_TRUE(idle.is_closed());
  EXPECT_TRUE(half.is_closed());
}

TEST(Listener, starting_and_stopping_at_once_is_clean) {
  for (int i = 0; i < 50; ++i) const Echo echo;
}

TEST(Listener, who_leaves_in_the_middle_of_a_request_makes_room_soon) {
  ListenerOptions options;
  options.most_per_address = 10;
  const Echo echo(options);
  for (int i = 0; i < 10; ++i) {  // its last bytes and its end come together
    RawClient client = echo.client();
    client.send("GET / HT");
  }
  int status = 0;
  for (int tries = 0; tries < 50 && status == 0; ++tries) {
    status = status_of(echo.answer_to(get("/")));
    if (status == 0) std::this_thread::sleep_for(milliseconds(100));
  }
  EXPECT_EQ(status, 200) << "long before the 10 s that a request may take";
}

TEST(Listener, who_has_finished_sending_is_answered) {
  const Echo echo;
  RawClient client = echo.client();
  client.send(get("/park"));
  client.finish_sending();
  std::this_thread::sleep_for(milliseconds(100));
  EXPECT_EQ(status_of(client.receive()), 200);
}

TEST(Listener, one_address_cannot_take_all_connections) {
  ListenerOptions options;
  options.most_connections = 20, options.most_per_address = 5;
  const Echo echo(options);
  std::vector<RawClient> held;
  int served = 0;
  for (int i = 0; i < 12; ++i) {
    held.push_back(echo.client());
    held.back().send(get("/"));
    served += status_of(held.back().receive()) == 200 ? 1 : 0;
  }
  EXPECT_EQ(served, 5);
}

}  // namespace
}  // namespace ohmstead::web
