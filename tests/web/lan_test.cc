// `serve --lan`, the real program on an address of a home network (run by on_a_network.sh): who is let in, to do what, and who is out.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "raw_client.h"
#include "served.h"

namespace ohmstead::web {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;
using Json = nlohmann::json;

constexpr char kAddress[] = "192.168.77.1";

class Lan : public testing::Test {
 protected:
  Lan() { EXPECT_EQ(folder.start_house("Kitchen: 2r 1l\nPanel Main 4 spaces: 1 15 kitchen").code, 0); }

  [[nodiscard]] RawAnswer answer_to(const std::string& bytes) const {
    RawClient client(served->port(), std::chrono::seconds(20), kAddress);
    client.send(bytes);
    return client.receive().value_or(RawAnswer{});
  }
  [[nodiscard]] std::string get(const std::string& target, const std::string& cookie = "") const { return get_from(served->host(), target, cookie); }
  [[nodiscard]] static std::string get_from(const std::string& host, const std::string& target, const std::string& cookie) {
    return RawRequest{"GET " + target, host, cookie.empty() ? "" : "Cookie: " + cookie + "\r\n", ""}.bytes();
  }
  [[nodiscard]] std::string post(const std::string& target, const Json& body, const std::string& cookie = "") const {
    return RawRequest{"POST " + target, served->host(), page_headers(served->host(), cookie), body.dump()}.bytes();
  }
  [[nodiscard]] int status_of(const std::string& bytes) const { return answer_to(bytes).status; }

  whole::Folder folder;
  std::unique_ptr<Served> served;
};

TEST_F(Lan, it_listens_at_that_address_alone_and_its_code_leads_there) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  EXPECT_THAT(served->host(), StartsWith(std::string(kAddress) + ":"));
  EXPECT_THROW(RawClient(served->port()), std::runtime_error) << "it listens on loopback as well";
  const Json code = served->event("code");
  EXPECT_EQ(code["url"], "http://" + served->host() + "/#pair=" + code["secret"].get<std::string>());
  EXPECT_EQ(code["role"], "trace");
  EXPECT_EQ(status_of(get("/page.js")), 200);
}

TEST_F(Lan, nobody_is_let_in_without_a_code_and_a_code_lets_in_one) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  const Json code = served->event("code");
  for (const char* path : {"/api/me", "/api/house", "/api/trace", "/api/wait?since=0", "/api/sheets"}) EXPECT_EQ(status_of(get(path)), 401) << path;
  EXPECT_EQ(status_of(post("/api/trace", {{"do", "undo"}})), 401);
  std::string wrong = code["digits"];
  wrong[0] = wrong[0] == '9' ? '0' : static_cast<char>(wrong[0] + 1);
  EXPECT_EQ(status_of(post("/api/pair", {{"code", wrong}})), 403);

  const std::string digits = code["digits"];
  const RawAnswer in = answer_to(post("/api/pair", {{"code", digits}, {"name", "Ann"}}));
  ASSERT_EQ(in.status, 200) << in.body;
  EXPECT_EQ(served->event("paired")["name"], "Ann");
  EXPECT_EQ(status_of(get("/api/me", cookie_of(in))), 200);
  EXPECT_EQ(status_of(post("/api/pair", {{"code", digits}})), 403) << "the digits are used";
  EXPECT_EQ(pair_with(served->port(), served->host(), code["secret"]), "") << "and so is the secret of that code";
}

TEST_F(Lan, the_cookie_is_for_this_address_alone_and_out_of_reach_of_scripts) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  const RawAnswer in = answer_to(post("/api/pair", {{"secret", served->event("code")["secret"]}}));
  for (const char* part : {"; HttpOnly", "; SameSite=Strict", "; Path=/"}) EXPECT_THAT(in.head, HasSubstr(part));
  EXPECT_THAT(in.head, Not(HasSubstr("Domain=")));
  EXPECT_THAT(in.head, HasSubstr("Content-Security-Policy: default-src 'none'"));
}

TEST_F(Lan, each_role_may_what_it_may) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  const Json room{{"do", "room"}, {"name", "Attic"}, {"key", "attic00001"}}, place{{"place", "rooms"}, {"ready", false}};
  const std::tuple<const char*, int, int, int> rows[] = {{"look", 200, 403, 403}, {"trace", 200, 200, 403}, {"change", 200, 200, 200}};
  for (const auto& [role, looks, traces, changes] : rows) {
    const std::string cookie = served->new_device(role);
    EXPECT_EQ(status_of(get("/api/house", cookie)), looks) << role;
    EXPECT_EQ(status_of(post("/api/place", place, cookie)), traces) << role;
    EXPECT_EQ(status_of(post("/api/survey", room, cookie)), changes) << role;
  }
}

TEST_F(Lan, only_its_own_address_is_its_host) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  const std::string cookie = served->new_device("look"), port = ":" + std::to_string(served->port());
  EXPECT_EQ(status_of(get_from(served->host(), "/api/me", cookie)), 200);
  for (const std::string& host : {"127.0.0.1" + port, "localhost" + port, "evil.example" + port, std::string(kAddress), "192.168.77.1.evil.example" + port})
    EXPECT_EQ(status_of(get_from(host, "/api/me", cookie)), 421) << host;
}

TEST_F(Lan, who_is_taken_off_is_out_at_once_and_the_others_are_not) {
  served = std::make_unique<Served>(folder, std::vector<std::string>{"--lan"});
  const std::string out = served->new_device("trace");
  const auto number = served->event("paired")["number"].get<std::uint64_t>();
  const std::string stays = served->new_device("trace");
  const auto now = Json::parse(answer_to(get("/api/trace", out)).body)["change"].get<std::uint64_t>();
  RawClient waits(served->port(), std::chrono::seconds(15), kAddress);  // sooner than it would end by itself
  waits.send(get("/api/wait?since=" + std::to_string(now), out));
  EXPECT_EQ(status_of(get("/api/me", out)), 200);
  served->type("r " + std::to_string(number));
  EXPECT_EQ(served->event("revoked")["done"], true);
  EXPECT_EQ(status_of(get("/api/me", out)), 401);
  EXPECT_EQ(status_of(post("/api/place", {{"place", "panel"}}, out)), 401);
  EXPECT_TRUE(waits.receive()) << "what it waited for is over";
  EXPECT_EQ(status_of(get("/api/me", stays)), 200);
}

}  // namespace
}  // namespace ohmstead::web
