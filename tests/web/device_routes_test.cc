#include "web/device_routes.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "house/error.h"
#include "web/page_files.h"

namespace ohmstead::web {
namespace {

using Json = nlohmann::ordered_json;

class DeviceRoutes : public testing::Test {
 protected:
  Answer wait(const std::string& since, std::uint64_t number = 1) {
    Request request;
    request.query = {{"since", since}};
    const Device device{number, Role::look, "Phone"};
    return wait_route_.handler({request, device, Json()});
  }
  Response tried(const Json& body, const Device& device = {}) {
    Request request;
    request.address = "10.0.0.2";
    return std::get<Response>(pair_route_.handler({request, device, body}));
  }
  /// Of an answer that was asked for news.
  static Json news(const Answer& answer, bool over = false) {
    const auto given = std::get<Parked>(answer).answer(over);
    return given ? Json::parse(given->body) : Json();
  }

  ChangeCounter changes{100};
  std::int64_t revision = 7;
  Route wait_route_ = wait_route(changes, [this] { return revision; });
  std::vector<std::uint64_t> left;
  Pairing pairing{[] { return Moment{}; }, [this](std::uint64_t number) { left.push_back(number); }};
  Route pair_route_ = pair_route(pairing, "ohmstead-1");
};

TEST_F(DeviceRoutes, news_come_when_the_number_is_not_that_of_now) {
  const Answer waiting = wait("100");
  EXPECT_TRUE(news(waiting).is_null());
  EXPECT_EQ(news(waiting, true), (Json{{"change", 100}, {"revision", 7}}));
  changes.step();
  revision = 8;
  EXPECT_EQ(news(waiting), (Json{{"change", 101}, {"revision", 8}}));
  for (const char* other : {"0", "99", "5000"}) EXPECT_EQ(news(wait(other))["change"], 101) << other << ": of another server, or old";
}

TEST_F(DeviceRoutes, the_number_is_a_whole_number) {
  for (const char* since : {"", "x", "-1", "1.5", "1 ", "99999999999999999999999"}) EXPECT_THROW(wait(since), Error) << since;
}

TEST_F(DeviceRoutes, one_device_does_not_take_the_places_of_all_and_what_is_over_makes_room) {
  std::vector<Answer> waiting;
  for (int i = 0; i < kMostWaits; ++i) waiting.push_back(wait("100"));
  EXPECT_EQ(std::get<Response>(wait("100")).status, 503);
  EXPECT_TRUE(std::holds_alternative<Parked>(wait("100", 2)));
  waiting.pop_back();
  EXPECT_TRUE(std::holds_alternative<Parked>(wait("100")));
}

TEST_F(DeviceRoutes, a_code_or_a_secret_pairs_and_nothing_else_does) {
  for (const Json& body : {Json{{"name", "a"}}, Json{{"code", "1"}, {"secret", "2"}}, Json{{"code", 1}}, Json{{"code", ""}}}) EXPECT_THROW(tried(body), Error) << body;
  EXPECT_EQ(tried({{"code", "00000000"}}).status, 403);
  const Response paired = tried({{"secret", pairing.offer(Role::trace).secret}, {"name", "Ana"}});
  EXPECT_EQ(Json::parse(paired.body), (Json{{"role", "trace"}, {"name", "Ana"}}));
  EXPECT_TRUE(paired.set_cookie.starts_with("ohmstead-1="));
  EXPECT_EQ(tried({{"code", pairing.offer(Role::look).digits}, {"name", "Ben"}}).status, 200);
}

TEST_F(DeviceRoutes, too_many_wrong_digits_are_answered_429) {
  const std::string right = pairing.offer(Role::look).digits, wrong = right == "00000000" ? "00000001" : "00000000";
  for (int i = 0; i < 5; ++i) EXPECT_EQ(tried({{"code", wrong}}).status, 403);
  EXPECT_EQ(tried({{"code", wrong}}).status, 429);
}

TEST_F(DeviceRoutes, who_pairs_again_has_one_cookie_not_two_and_leaves_the_place_of_the_first) {
  EXPECT_EQ(tried({{"secret", pairing.offer(Role::look).secret}}).status, 200);
  const Device first = pairing.devices().front().device;
  EXPECT_EQ(tried({{"secret", pairing.offer(Role::change).secret}}, first).status, 200);
  ASSERT_EQ(pairing.devices().size(), 1U);
  EXPECT_EQ(pairing.devices().front().device.role, Role::change);
  EXPECT_EQ(left, std::vector{first.number});
  EXPECT_FALSE(pairing.revoke(first.number));
  EXPECT_EQ(left.size(), 1U) << "told once";
}

TEST_F(DeviceRoutes, every_file_of_the_page_has_its_route_for_anybody) {
  const auto routes = file_routes();
  ASSERT_EQ(routes.size(), page_files().size());
  for (std::size_t i = 0; i < routes.size(); ++i) {
    EXPECT_EQ(routes[i].path, page_files()[i].path);
    EXPECT_EQ(routes[i].least, Role::nobody);
  }
}

}  // namespace
}  // namespace ohmstead::web
