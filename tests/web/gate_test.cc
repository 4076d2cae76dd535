#include "web/gate.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "house/error.h"

namespace ohmstead::web {
namespace {

using Json = nlohmann::json;
using std::chrono::seconds;

class GateTest : public testing::Test {
 protected:
  static Answer plain(const Call& call) { return Response{200, "text/plain", call.device.name, ""}; }

  std::vector<Route> routes() {
    const auto body = [this](const Call& call) -> Answer { return ++done, Response{200, "application/json", call.body.dump(), ""}; };
    const auto refuse = [](ErrorKind kind) { return [kind](const Call&) -> Answer { throw Error(kind, "No."); }; };
    return {{Verb::get, "/", Role::nobody, plain},          {Verb::get, "/api/look", Role::look, plain},
            {Verb::get, "/api/wait", Role::look, plain, true}, {Verb::post, "/api/look", Role::trace, body},
            {Verb::post, "/api/change", Role::change, body}, {Verb::post, "/api/pair", Role::nobody, body},
            {Verb::get, "/api/lost", Role::look, refuse(ErrorKind::not_found)}, {Verb::get, "/api/held", Role::look, refuse(ErrorKind::conflict)},
            {Verb::get, "/api/full", Role::look, refuse(ErrorKind::storage)},
            {Verb::get, "/api/fault", Role::look, [](const Call&) -> Answer { throw std::runtime_error("inside"); }}};
  }

  std::string cookie_for(Role role) {
    const auto paired = pairing.pair(pairing.offer(role).secret, std::string(role_word(role)), "10.0.0.2");
    return "ohmstead=" + std::get<PairedDevice>(paired).cookie;
  }
  static Request get(const std::string& path, const std::string& cookie = "") {
    Request request;
    request.path = path, request.hosts = {"10.0.0.1:80"}, request.cookie = cookie, request.address = "10.0.0.2";
    return request;
  }
  static Request post(const std::string& path, const std::string& cookie = "", const std::string& body = "{}") {
    Request request = get(path, cookie);
    request.verb = Verb::post, request.body = body, request.content_type = "application/json", request.own_header = "1", request.origin = "http://10.0.0.1:80";
    return request;
  }
  int status(const Request& request) { return std::get<Response>(gate(request)).status; }
  std::string kind(const Request& request) { return Json::parse(std::get<Response>(gate(request)).body)["error"]["kind"]; }

  Moment now{};
  int done = 0;
  Pairing pairing{[this] { return now; }};
  Gate gate{{{"10.0.0.1:80", "other:80"}}, routes(), pairing, [this] { return now; }};
};

TEST_F(GateTest, only_its_own_host_once_is_let_in_whoever_asks) {
  const std::string cookie = cookie_for(Role::change);
  EXPECT_EQ(status(get("/")), 200);
  for (const std::vector<std::string>& hosts : {std::vector<std::string>{}, {"evil:80"}, {"10.0.0.1"}, {"10.0.0.1:81"}, {"10.0.0.1:80", "10.0.0.1:80"},
                                                {"10.0.0.1:80", "evil"}, {""}, {"10.0.0.1:80."}, {"OTHER:80"}}) {
    Request request = post("/api/change", cookie);
    request.hosts = hosts;
    EXPECT_EQ(status(request), 421);
  }
  EXPECT_EQ(done, 0);
}

TEST_F(GateTest, what_has_no_row_is_refused) {
  const std::string cookie = cookie_for(Role::change);
  for (const char* path : {"/api", "/api/", "/api/look/", "/API/look", "//api/look", "/api/look/../change", "/page.html", "/etc/passwd", ""})
    EXPECT_EQ(status(get(path, cookie)), 404) << path;
  EXPECT_EQ(status(post("/", cookie)), 405);
  EXPECT_EQ(status(get("/api/change", cookie)), 405);
  Request request = get("/api/look", cookie);
  request.verb = Verb::other;
  EXPECT_EQ(status(request), 405);
}

TEST_F(GateTest, every_role_may_do_its_own_and_what_is_below_it) {
  const std::string none = "", look = cookie_for(Role::look), trace = cookie_for(Role::trace), change = cookie_for(Role::change);
  const std::vector<std::string> askers{none, look, trace, change};
  const auto statuses = [&](const auto& make) {
    std::vector<int> all;
    for (const std::string& asker : askers) all.push_back(status(make(asker)));
    return all;
  };
  EXPECT_EQ(statuses([](const std::string& c) { return get("/", c); }), (std::vector{200, 200, 200, 200}));
  EXPECT_EQ(statuses([](const std::string& c) { return get("/api/look", c); }), (std::vector{401, 200, 200, 200}));
  EXPECT_EQ(statuses([](const std::string& c) { return post("/api/look", c); }), (std::vector{401, 403, 200, 200}));
  EXPECT_EQ(statuses([](const std::string& c) { return post("/api/change", c); }), (std::vector{401, 403, 403, 200}));
  EXPECT_EQ(done, 3);
}

TEST_F(GateTest, a_cookie_of_another_name_or_value_is_none) {
  const std::string cookie = cookie_for(Role::change);
  const std::string value = cookie.substr(cookie.find('=') + 1);
  EXPECT_EQ(status(get("/api/look", "other=" + value)), 401);
  EXPECT_EQ(status(get("/api/look", "ohmstead=" + value.substr(1))), 401);
  EXPECT_EQ(status(get("/api/look", "a=b; " + cookie)), 200);
  pairing.revoke(1);
  EXPECT_EQ(status(get("/api/look", cookie)), 401);
}

TEST_F(GateTest, a_post_that_another_page_could_send_is_refused) {
  const std::string cookie = cookie_for(Role::change);
  const auto changed = [&](const auto& change) {
    Request request = post("/api/change", cookie);
    change(request);
    return kind(request);
  };
  for (const char* type : {"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "application/jsonx", "text/json"})
    EXPECT_EQ(changed([&](Request& r) { r.content_type = type; }), "not_from_page") << type;
  for (const char* header : {"", "0", "2", "1 "}) EXPECT_EQ(changed([&](Request& r) { r.own_header = header; }), "not_from_page") << header;
  for (const char* origin : {"", "null", "http://evil", "https://10.0.0.1:80", "http://10.0.0.1:81", "http://other:80", "http://10.0.0.1:80/"})
    EXPECT_EQ(changed([&](Request& r) { r.origin = origin; }), "not_from_page") << origin;
  EXPECT_EQ(done, 0);
  Request request = post("/api/change", cookie);
  request.content_type = "application/json; charset=utf-8";
  EXPECT_EQ(status(request), 200);
}

TEST_F(GateTest, a_body_is_one_flat_json_object) {
  const std::string cookie = cookie_for(Role::change);
  const std::string deep = std::string(40, '[') + std::string(40, ']');
  for (const std::string& body : std::vector<std::string>{"", "1", "[]", "null", "{", "{}{}", "{\"a\":1,\"a\":2}", "{\"a\":{\"b\":1,\"b\":2}}", "{\"a\":" + deep + "}",
                                                          "{\"a\":\"\xff\"}", "{'a':1}", "{\"a\":1,}"}) {
    EXPECT_EQ(status(post("/api/change", cookie, body)), 400) << body;
    EXPECT_EQ(kind(post("/api/change", cookie, body)), "invalid_input") << body;
  }
  EXPECT_EQ(done, 0);
  EXPECT_EQ(status(post("/api/change", cookie, R"({"a":{"a":[1,{"a":2}]},"b":1})")), 200);
}

TEST_F(GateTest, a_question_with_a_body_is_refused) {
  Request request = get("/");
  request.body = "x";
  EXPECT_EQ(status(request), 400);
}

TEST_F(GateTest, what_a_handler_refuses_has_its_sentence_and_what_it_did_not_expect_goes_through) {
  const std::string cookie = cookie_for(Role::look);
  EXPECT_EQ(status(get("/api/lost", cookie)), 400);
  EXPECT_EQ(kind(get("/api/lost", cookie)), "not_found");
  EXPECT_EQ(status(get("/api/held", cookie)), 409);
  EXPECT_EQ(status(get("/api/full", cookie)), 503);
  EXPECT_THROW((void)gate(get("/api/fault", cookie)), std::runtime_error);
}

TEST_F(GateTest, strangers_are_slowed_down_and_paired_devices_go_on) {
  const std::string cookie = cookie_for(Role::look);
  int answered = 0;
  for (int i = 0; i < 1000; ++i) answered += status(get("/api/look")) == 401 ? 1 : 0;
  EXPECT_EQ(answered, 60);
  EXPECT_EQ(status(get("/")), 429);
  EXPECT_EQ(status(get("/api/look", cookie)), 200) << "from the same address";
  now += seconds(1);
  EXPECT_EQ(status(get("/")), 200);
}

TEST_F(GateTest, many_strange_addresses_have_a_limit_together) {
  int answered = 0;
  for (int i = 0; i < 1000; ++i) {
    Request request = get("/");
    request.address = "10.1." + std::to_string(i / 250) + "." + std::to_string(i % 250);
    answered += status(request) == 200 ? 1 : 0;
  }
  EXPECT_EQ(answered, 400);
}

TEST_F(GateTest, a_wild_device_does_not_slow_down_the_others) {
  const std::string wild = cookie_for(Role::look), calm = cookie_for(Role::look);
  int answered = 0;
  for (int i = 0; i < 1000; ++i) answered += status(get("/api/look", wild)) == 200 ? 1 : 0;
  EXPECT_EQ(answered, 120);
  EXPECT_EQ(status(get("/api/look", calm)), 200);
}

TEST_F(GateTest, waiting_is_no_sign_of_a_person) {
  const std::string cookie = cookie_for(Role::look);
  const Moment before = now;
  now += seconds(100);
  EXPECT_EQ(status(get("/api/wait", cookie)), 200);
  EXPECT_EQ(status(get("/api/look")), 401);
  EXPECT_EQ(pairing.last_person(), before);
  EXPECT_EQ(status(get("/api/look", cookie)), 200);
  EXPECT_EQ(pairing.last_person(), now);
}

TEST_F(GateTest, two_routes_for_one_request_are_a_fault_of_the_program) {
  std::vector<Route> twice{{Verb::get, "/", Role::look, plain}, {Verb::get, "/", Role::nobody, plain}};
  EXPECT_THROW(Gate({}, std::move(twice), pairing, [this] { return now; }), std::logic_error);
}

}  // namespace
}  // namespace ohmstead::web
