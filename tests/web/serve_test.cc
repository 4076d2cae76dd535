// The real program on loopback, asked by raw sockets: what is refused, what holds, how it ends.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <unistd.h>

#include <chrono>
#include <random>
#include <thread>

#include "raw_client.h"
#include "served.h"

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds;
using testing::HasSubstr;

class Serve : public testing::Test {
 protected:
  Serve() { EXPECT_EQ(folder.start_house("Kitchen: 2r 1l\nPanel Main 4 spaces: 1 15 kitchen").code, 0); }

  whole::Folder folder;
};

std::optional<RawAnswer> answer_to(const Served& served, const std::string& bytes) {
  RawClient client(served.port());
  client.send(bytes);
  return client.receive();
}
int status_of(const Served& served, const std::string& bytes) {
  const auto answer = answer_to(served, bytes);
  return answer ? answer->status : 0;
}
std::string get(const Served& served, const std::string& target, const std::string& cookie = "") {
  return RawRequest{"GET " + target, served.host(), cookie.empty() ? "" : "Cookie: " + cookie + "\r\n", ""}.bytes();
}

TEST_F(Serve, a_device_is_let_in_with_the_secret_once_and_asks_what_its_role_allows) {
  Served served(folder);
  const std::string secret = served.event("code")["secret"];
  EXPECT_EQ(status_of(served, get(served, "/api/me")), 401);
  const std::string cookie = pair_with(served.port(), served.host(), secret);
  ASSERT_FALSE(cookie.empty());
  EXPECT_EQ(served.event("paired")["role"], "change");
  const auto me = answer_to(served, get(served, "/api/me", cookie));
  EXPECT_EQ(nlohmann::json::parse(me->body)["role"], "change");
  EXPECT_EQ(pair_with(served.port(), served.host(), secret), "");
  EXPECT_EQ(status_of(served, get(served, "/api/me", cookie + "x")), 401);
}

TEST_F(Serve, the_cookie_is_out_of_reach_of_scripts_and_of_other_pages) {
  Served served(folder);
  const std::string secret = served.event("code")["secret"];
  const auto answer = answer_to(served, RawRequest{"POST /api/pair", served.host(), page_headers(served.host()), R"({"secret":")" + secret + R"("})"}.bytes());
  ASSERT_TRUE(answer);
  for (const char* part : {"Set-Cookie: ohmstead-", "; HttpOnly", "; SameSite=Strict", "; Path=/"}) EXPECT_THAT(answer->head, HasSubstr(part));
}

TEST_F(Serve, the_page_and_its_files_are_there_for_anybody_and_nothing_else_is) {
  const Served served(folder);
  for (const char* path : {"/", "/page.css", "/page.js", "/icon.svg"}) EXPECT_EQ(status_of(served, get(served, path)), 200) << path;
  for (const char* path : {"/page.html", "/order.txt", "/../a.house", "/a.house", "/%2e%2e/a.house", "/etc/passwd", "/api", "/api/", "/page.js/", "//page.js", "/page.js%20"})
    EXPECT_EQ(status_of(served, get(served, path)), 404) << path;
}

TEST_F(Serve, what_does_not_fit_is_refused_before_it_reaches_the_house) {
  Served served(folder);
  const std::string cookie = served.new_device("look"), host = served.host(), own = page_headers(host, cookie), pair = R"({"code":"00000000"})";
  const std::string foreign = "Content-Type: application/json\r\nX-Ohmstead: 1\r\nOrigin: http://evil.example\r\nCookie: " + cookie + "\r\n";
  const std::string form = "Content-Type: text/plain\r\nOrigin: http://" + host + "\r\nCookie: " + cookie + "\r\n";
  const std::string before = folder.read("a.house");
  const std::tuple<const char*, std::string, int> rows[] = {
      {"another Host", RawRequest{"GET /api/me", "evil.example", "Cookie: " + cookie + "\r\n", ""}.bytes(), 421},
      {"its address without the port", RawRequest{"GET /api/me", "127.0.0.1", "Cookie: " + cookie + "\r\n", ""}.bytes(), 421},
      {"two Hosts", RawRequest{"GET /api/me", host, "Host: evil.example\r\n", ""}.bytes(), 421},
      {"the same Host twice", RawRequest{"GET /api/me", host, "Host: " + host + "\r\n", ""}.bytes(), 421},
      {"no Host", "GET /api/me HTTP/1.1\r\n\r\n", 400},
      {"no Host, as of old", "GET /api/me HTTP/1.0\r\n\r\n", 421},
      {"a foreign Origin", RawRequest{"POST /api/pair", host, foreign, pair}.bytes(), 403},
      {"a form of another page", RawRequest{"POST /api/pair", host, form, pair}.bytes(), 403},
      {"no Origin", RawRequest{"POST /api/pair", host, "Content-Type: application/json\r\nX-Ohmstead: 1\r\n", pair}.bytes(), 403},
      {"a wrong code", RawRequest{"POST /api/pair", host, own, pair}.bytes(), 403},
      {"no JSON", RawRequest{"POST /api/pair", host, own, "code=1"}.bytes(), 400},
      {"deep JSON", RawRequest{"POST /api/pair", host, own, R"({"code":)" + std::string(30'000, '[') + "}"}.bytes(), 400},
      {"a field twice", RawRequest{"POST /api/pair", host, own, R"({"code":"1","code":"2"})"}.bytes(), 400},
      {"too long a body", RawRequest{"POST /api/pair", host, own, std::string(65'537, ' ')}.bytes(), 413},
      {"no cookie", get(served, "/api/me"), 401},
      {"a role too low", RawRequest{"POST /api/trace", host, own, R"({"do":"undo"})"}.bytes(), 403},
      {"a role too low to change the record", RawRequest{"POST /api/survey", host, own, R"({"do":"enter","text":"Attic: 1l"})"}.bytes(), 403},
      {"no such request", RawRequest{"POST /api/pair2", host, own, "{}"}.bytes(), 404},
      {"a question that is told", RawRequest{"POST /api/me", host, own, "{}"}.bytes(), 405},
      {"OPTIONS", RawRequest{"OPTIONS /api/pair", host, "Origin: http://evil.example\r\n", ""}.bytes(), 405},
      {"PUT", RawRequest{"PUT /api/pair", host, "", ""}.bytes(), 405},
      {"chunks", "POST /api/pair HTTP/1.1\r\nHost: " + host + "\r\nTransfer-Encoding: chunked\r\n\r\n5\r\nhello\r\n0\r\n\r\n", 400},
      {"a packed body", RawRequest{"POST /api/pair", host, own + "Content-Encoding: gzip\r\n", "\x1f\x8b"}.bytes(), 415},
      {"a range", RawRequest{"GET /page.js", host, "Range: bytes=0-10\r\n", ""}.bytes(), 400},
      {"a NUL in the path", get(served, "/api/me%00", cookie), 400},
      {"a line break in the path", get(served, "/%0d%0aSet-Cookie:x=y", cookie), 400},
  };
  for (const auto& [what, bytes, status] : rows) EXPECT_EQ(status_of(served, bytes), status) << what;
  EXPECT_EQ(folder.read("a.house"), before);
  EXPECT_EQ(status_of(served, get(served, "/api/me", cookie)), 200);
}

TEST_F(Serve, sheets_are_shown_by_their_names_in_the_list_and_by_nothing_else) {
  Served served(folder);
  const std::string cookie = served.new_device("look"), before = folder.read("a.house");
  const auto listed = answer_to(served, get(served, "/api/sheets", cookie));
  ASSERT_EQ(listed->status, 200) << listed->body;
  EXPECT_EQ(nlohmann::json::parse(listed->body)["sheets"][0]["item"], "directory-panel-main");
  const auto about = answer_to(served, get(served, "/api/sheets?item=directory-panel-main", cookie));
  EXPECT_GT(nlohmann::json::parse(about->body)["pages"][0]["width"], 500);
  const auto picture = answer_to(served, get(served, "/api/sheet?item=directory-panel-main&page=1", cookie));
  EXPECT_TRUE(picture->has_header("Content-Type: image/png"));
  EXPECT_EQ(picture->body.substr(0, 8), "\x89PNG\r\n\x1a\n");
  const auto pdf = answer_to(served, get(served, "/api/sheet.pdf?item=directory-panel-main", cookie));
  EXPECT_TRUE(pdf->has_header("Content-Type: application/pdf"));
  EXPECT_EQ(pdf->body.substr(0, 5), "%PDF-");
  for (const char* item : {"", "directory", "..%2Fa.house", "a.house", "%2Fetc%2Fpasswd", "directory-panel-main%20--to%3D%2Ftmp", "--to%3D%2Ftmp", "directory-panel-main%0A", "%24(id)", "directory-panel-main%3Bid", "directory-panel-main.pdf"}) {
    EXPECT_EQ(status_of(served, get(served, std::string("/api/sheet?page=1&item=") + item, cookie)), 400) << item;
    EXPECT_EQ(status_of(served, get(served, std::string("/api/sheet.pdf?item=") + item, cookie)), 400) << item;
  }
  for (const char* page : {"0", "2x", "-1", "99999999999999999999999"}) EXPECT_EQ(status_of(served, get(served, std::string("/api/sheet?item=directory-panel-main&page=") + page, cookie)), 400) << page;
  EXPECT_EQ(status_of(served, get(served, "/api/sheet?item=directory-panel-main&page=1")), 401);
  EXPECT_EQ(status_of(served, RawRequest{"POST /api/sheets", served.host(), page_headers(served.host(), cookie), "{}"}.bytes()), 405);
  EXPECT_EQ(folder.read("a.house"), before) << "looking writes nothing";
}

TEST_F(Serve, what_was_printed_from_the_page_is_kept_once_by_who_may_and_by_nobody_else) {
  Served served(folder);
  const std::string looks = served.new_device("look"), traces = served.new_device("trace"), host = served.host(), before = folder.read("a.house");
  const auto row = [this] { return nlohmann::json::parse(folder.run({"print", "--list", "--json"}).out)["sheets"][0]; };
  const nlohmann::json drawn = nlohmann::json::parse(answer_to(served, get(served, "/api/sheets?item=directory-panel-main", traces))->body);
  EXPECT_EQ(drawn["state"], "never");
  const std::string body = R"({"item":"directory-panel-main","revision":)" + drawn["revision"].dump() + R"(,"key":"printedfirst"})";
  const auto post = [&](const std::string& headers, const std::string& text) { return answer_to(served, RawRequest{"POST /api/printed", host, headers, text}.bytes()); };
  const std::string cookie = "Cookie: " + traces + "\r\n", json = "Content-Type: application/json\r\n", own = "X-Ohmstead: 1\r\n", origin = "Origin: http://" + host + "\r\n";
  const std::tuple<const char*, std::string, std::string, int> refused[] = {
      {"nobody", page_headers(host), body, 401},
      {"who may only look", page_headers(host, looks), body, 403},
      {"another page", json + own + "Origin: http://evil.example\r\n" + cookie, body, 403},
      {"no origin", json + own + cookie, body, 403},
      {"not the page's header", json + origin + cookie, body, 403},
      {"a form", "Content-Type: text/plain\r\n" + own + origin + cookie, body, 403},
      {"no key", page_headers(host, traces), R"({"item":"directory-panel-main","revision":1})", 400},
      {"a sheet that is not there", page_headers(host, traces), R"({"item":"paper-nothing","revision":1,"key":"printednone"})", 400},
      {"a revision that never was", page_headers(host, traces), R"({"item":"directory-panel-main","revision":99,"key":"printedlate"})", 400},
  };
  for (const auto& [what, headers, text, status] : refused) {
    const auto answer = post(headers, text);
    EXPECT_EQ(answer ? answer->status : 0, status) << what;
  }
  EXPECT_EQ(folder.read("a.house"), before);
  EXPECT_EQ(row()["state"], "never");
  const auto kept = post(page_headers(host, traces), body);
  ASSERT_EQ(kept->status, 200) << kept->body;
  EXPECT_EQ(row()["state"], "current");
  EXPECT_EQ(nlohmann::json::parse(answer_to(served, get(served, "/api/sheets?item=directory-panel-main", looks))->body)["state"], "current") << "the page knows, too";
  const std::string after = folder.read("a.house");
  EXPECT_EQ(post(page_headers(host, traces), body)->body, kept->body);
  EXPECT_EQ(folder.read("a.house"), after) << "the same key again";
}

TEST_F(Serve, a_body_behind_a_refusal_is_never_read_as_a_request) {
  const Served served(folder);
  RawClient client(served.port());
  const std::string inner = get(served, "/");
  client.send("POST /api/none HTTP/1.1\r\nHost: evil\r\nContent-Encoding: x\r\nContent-Length: " + std::to_string(inner.size()) + "\r\n\r\n" + inner);
  EXPECT_EQ(client.receive()->status, 415);
  EXPECT_FALSE(client.receive());
}

TEST_F(Serve, requests_sent_together_are_answered_in_their_order) {
  Served served(folder);
  const std::string cookie = served.new_device("look");
  RawClient client(served.port());
  client.send(get(served, "/api/me", cookie) + get(served, "/none") + get(served, "/icon.svg"));
  EXPECT_EQ(client.receive()->status, 200);
  EXPECT_EQ(client.receive()->status, 404);
  EXPECT_EQ(client.receive()->status, 200);
}

TEST_F(Serve, a_device_that_is_taken_off_is_out_at_once_and_who_waits_is_told) {
  Served served(folder);
  const std::string one = served.new_device("trace"), other = served.new_device("look");
  const std::string now = std::to_string(nlohmann::json::parse(answer_to(served, get(served, "/api/wait?since=0", other))->body)["change"].get<std::uint64_t>());
  RawClient waiting(served.port());
  waiting.send(get(served, "/api/wait?since=" + now, other));
  served.type("d");
  EXPECT_EQ(served.event("devices")["devices"].size(), 2U);
  served.type("r 1");
  EXPECT_EQ(served.event("revoked")["done"], true);
  EXPECT_EQ(status_of(served, get(served, "/api/me", one)), 401);
  EXPECT_EQ(status_of(served, get(served, "/api/me", other)), 200);
  EXPECT_NE(std::to_string(nlohmann::json::parse(waiting.receive()->body)["change"].get<std::uint64_t>()), now);
  served.type("r 1");
  EXPECT_EQ(served.event("revoked")["done"], false);
  served.type("n boss");
  EXPECT_FALSE(served.event("error").is_null());
}

TEST_F(Serve, twenty_slow_senders_hold_up_nobody) {
  Served served(folder);
  const std::string cookie = served.new_device("look");
  std::vector<RawClient> slow;
  for (int i = 0; i < 20; ++i) {
    slow.emplace_back(served.port());
    slow.back().send(std::string("POST /api/pair HTTP/1.1\r\nHost: a\r\nContent-Length: 1000\r\n\r\n{").substr(0, static_cast<std::size_t>(3 * i + 1)));
  }
  for (int i = 0; i < 20; ++i) EXPECT_EQ(status_of(served, get(served, "/api/me", cookie)), 200);
}

TEST_F(Serve, a_second_server_on_the_port_or_on_the_file_is_refused_in_one_sentence) {
  const Served served(folder);
  const auto same_file = folder.run({"--house", "a.house", "serve", "--port", "0"});
  EXPECT_EQ(same_file.code, 5);
  EXPECT_THAT(same_file.err, HasSubstr("Another `ohmstead serve` has the house file 'a.house'"));
  EXPECT_EQ(folder.run({"new", "b.house", "--name", "Other"}).code, 0);
  const auto same_port = folder.run({"--house", "b.house", "serve", "--port", std::to_string(served.port())});
  EXPECT_EQ(same_port.code, 3);
  EXPECT_THAT(same_port.err, HasSubstr("Another program already listens at " + served.host()));
  EXPECT_EQ(same_port.out, "");
}

TEST_F(Serve, what_makes_no_sense_on_the_command_line_serves_nothing) {
  const std::vector<std::string> start{"--house", "a.house", "serve"};
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--port", "1.5"}, {"--port", "70000"}, {"--role", "boss"}, {"--role", "nobody"}, {"--hours", "-1"},
                                               {"--address", "8.8.8.8"}, {"--address", "0.0.0.0"}, {"--address", "127.0.0.1"}, {"--lan", "--address", "x"}}) {
    std::vector<std::string> words = start;
    words.insert(words.end(), more.begin(), more.end());
    const auto ran = folder.run(words);
    EXPECT_EQ(ran.code, 4) << more.back();
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
  }
  EXPECT_EQ(folder.run({"--house", "none.house", "serve", "--port", "0"}).code, 3);
}

TEST_F(Serve, it_ends_by_a_signal_by_q_and_by_itself_also_while_devices_wait) {
  const std::tuple<const char*, int, int> ends[] = {{"", SIGTERM, 0}, {"", SIGINT, 130}, {"", SIGHUP, 0}, {"q", 0, 0}};
  for (const auto& [typed, signal, code] : ends) {
    Served served(folder);
    const std::string cookie = served.new_device("look");
    std::vector<RawClient> waiting;
    for (int i = 0; i < 4; ++i) {
      waiting.emplace_back(served.port());
      const auto now = nlohmann::json::parse(answer_to(served, get(served, "/api/wait?since=0", cookie))->body)["change"].get<std::uint64_t>();
      waiting.back().send(get(served, "/api/wait?since=" + std::to_string(now), cookie));
    }
    std::this_thread::sleep_for(milliseconds(100));
    if (*typed != '\0') served.type(typed);
    EXPECT_EQ(served.end(signal), code);
    for (RawClient& one : waiting) EXPECT_EQ(one.receive()->status, 200);
    EXPECT_FALSE(served.event("stopped").is_null());
  }
  Served unused(folder, {"--hours", "0.0002"});
  EXPECT_EQ(unused.end(0), 0);
}

TEST_F(Serve, without_json_and_without_a_terminal_it_says_where_it_is) {
  const auto ran = folder.run({"--house", "a.house", "serve", "--port", "0", "--hours", "0.0002"});
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("'a.house' is served at http://127.0.0.1:"));
  EXPECT_THAT(ran.out, HasSubstr("#pair="));
  EXPECT_THAT(ran.out, HasSubstr("Only this computer can reach it"));
}

/// A request that was well formed, changed in a few places.
std::string spoilt(std::string bytes, std::mt19937_64& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  for (std::size_t times = 1 + below(4); times > 0 && !bytes.empty(); --times) {
    const std::size_t at = below(bytes.size());
    switch (below(6)) {
      case 0: bytes[at] = static_cast<char>(random()); break;
      case 1: bytes.erase(at, 1 + below(20)); break;
      case 2: bytes.resize(at); break;
      case 3: bytes.insert(at, bytes.substr(below(bytes.size()), below(80))); break;
      case 4: bytes.insert(at, std::string(1 + below(5000), static_cast<char>(random()))); break;
      default: bytes.insert(at, "\r\n"); break;
    }
  }
  return bytes;
}

void send_spoilt(const Served& served, const std::string& cookie, int times) {
  const std::string host = served.host();
  const std::string wells[] = {get(served, "/api/wait?since=1&x=%20", cookie), get(served, "/"), RawRequest{"POST /api/pair", host, page_headers(host, cookie), R"({"code":"12345678"})"}.bytes(),
                               RawRequest{"POST /api/trace", host, page_headers(host, cookie), R"({"do":"answer","answer":"done","key":"abcdefgh1"})"}.bytes()};
  std::vector<std::thread> senders;
  for (int sender = 0; sender < 4; ++sender)
    senders.emplace_back([&, sender] {
      std::mt19937_64 random(static_cast<std::uint64_t>(sender) + 1);
      for (int i = 0; i < times / 4; ++i) {
        RawClient client(served.port(), milliseconds(i % 50 == 0 ? 100 : 1));
        client.send(spoilt(wells[random() % std::size(wells)], random));
        if (i % 10 == 0) (void)client.receive();
      }
    });
  for (std::thread& one : senders) one.join();
}

void stands_spoilt_requests(const whole::Folder& folder, int times) {
  Served served(folder);
  const std::string cookie = served.new_device("look");
  const std::string before = folder.read("a.house");
  std::vector<RawClient> slow;
  for (int i = 0; i < 20; ++i) {
    slow.emplace_back(served.port());
    slow.back().send("GET / HT");
  }
  send_spoilt(served, cookie, times / 4);
  const long memory = resident_kib(served.process());
  send_spoilt(served, cookie, times - times / 4);
#ifndef __SANITIZE_ADDRESS__  // which keeps what was freed for a while
  EXPECT_LT(resident_kib(served.process()), memory + 30'000) << "KiB";
#else
  EXPECT_GT(memory, 0);
#endif
  int status = 0;
  for (int tries = 0; tries < 100 && status != 200; ++tries) {  // this address and device were wild: their connections and pace come back
    status = status_of(served, get(served, "/api/me", cookie));
    std::this_thread::sleep_for(milliseconds(50));
  }
  EXPECT_EQ(status, 200);
  EXPECT_EQ(folder.read("a.house"), before);
  EXPECT_EQ(served.end(SIGTERM), 0);
}

/// So many answers of a tracing session, and every tenth is taken back.
void trace(const Served& served, const std::string& cookie, int answers) {
  static int number = 10'000'000;
  RawClient client(served.port(), std::chrono::seconds(10));
  const auto asked = [&](const std::string& bytes) {
    client.send(bytes);
    const auto answer = client.receive();
    return answer && answer->status == 200 ? nlohmann::json::parse(answer->body) : nlohmann::json();
  };
  for (int kept = 0, tries = 0; kept < answers && tries < 5 * answers; ++tries) {
    const auto shown = asked(get(served, "/api/trace", cookie));
    nlohmann::json request{{"do", "undo"}, {"key", "key" + std::to_string(++number)}};
    if (!shown.is_null() && !shown["step"]["answers"].empty() && kept % 10 != 9)
      request.update({{"do", "answer"}, {"answer", shown["step"]["answers"][0]}, {"step", shown["step"]["step"]}});
    if (shown.is_null() || asked(RawRequest{"POST /api/trace", served.host(), page_headers(served.host(), cookie), request.dump()}.bytes()).is_null())
      std::this_thread::sleep_for(milliseconds(50));  // too fast
    else ++kept;
  }
}

TEST_F(Serve, memory_stays_as_it_is_while_answers_are_kept) {
  folder.write("more.txt", "Hall: 8r 4l\nBedroom: 8r 4l\nBath: 4r 2l\nCellar: 8r 6l\nGarage: 8r 4l\nPanel Side 12 spaces: 1 15 hall; 3 15 bedroom; 5 20 bath; 7 15 cellar; 9 20 garage\n");
  ASSERT_EQ(folder.run({"--house", "a.house", "enter", "more.txt"}).code, 0);
  Served served(folder);
  const std::string cookie = served.new_device("trace");
  trace(served, cookie, 40);
  const long early = resident_kib(served.process());
  trace(served, cookie, 120);
  const long late = resident_kib(served.process());
  RecordProperty("kib_more", static_cast<int>(late - early));
  EXPECT_LT(late, early + 300) << "KiB after 40 answers: " << early << ", after 160: " << late;
}

TEST_F(Serve, it_stands_malformed_requests_and_slow_senders_and_writes_nothing) { stands_spoilt_requests(folder, 600); }
TEST_F(Serve, ten_thousand_malformed_requests_too) { stands_spoilt_requests(folder, 10'000); }

}  // namespace
}  // namespace ohmstead::web
