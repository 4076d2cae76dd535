#include "web/incoming.h"

#include <gtest/gtest.h>

namespace ohmstead::web {
namespace {

constexpr std::size_t kMost = 100;

Head get(const std::string& target, std::vector<std::pair<std::string, std::string>> headers = {}) { return {"GET", target, std::move(headers), "10.0.0.2"}; }

int status_of(const Head& head) {
  const auto taken = take_head(head, kMost);
  const auto* refused = std::get_if<Response>(&taken);
  return refused == nullptr ? 200 : refused->status;
}

TEST(Incoming, a_target_is_taken_apart_and_decoded) {
  const auto taken = take_head(get("/api/answer?ask=off&thing=caf%C3%A9+14&flag&thing=2", {{"hOST", "a:1"}, {"X-OHMSTEAD", "1"}, {"Other", "x"}}), kMost);
  const auto& request = std::get<Request>(taken);
  EXPECT_EQ(request.verb, Verb::get);
  EXPECT_EQ(request.path, "/api/answer");
  EXPECT_EQ(request.field("thing"), "café 14");
  EXPECT_EQ(request.field("flag"), "");
  EXPECT_EQ(request.query.size(), 4U);
  EXPECT_EQ(request.hosts, std::vector<std::string>{"a:1"});
  EXPECT_EQ(request.own_header, "1");
  EXPECT_EQ(request.address, "10.0.0.2");
}

TEST(Incoming, a_plus_is_a_space_in_the_query_alone) {
  EXPECT_EQ(std::get<Request>(take_head(get("/a+b?c=d+e"), kMost)).path, "/a+b");
  EXPECT_EQ(std::get<Request>(take_head(get("/a+b?c=d+e"), kMost)).field("c"), "d e");
}

TEST(Incoming, what_is_no_plain_path_is_refused) {
  for (const char* target : {"", "*", "http://a/b", "a/b", "/a%0", "/a%zz", "/a%00b", "/a%0d%0aX:1", "/a\x01", "/%ff", "/?a=%c3", "/a#b", "/?x=%7f"})
    EXPECT_EQ(status_of(get(target)), 400) << target;
  for (const char* target : {"/", "/a", "/a%20b", "/?", "/?a", "/?a=b=c", "/?&", "/a/../b"}) EXPECT_EQ(status_of(get(target)), 200) << target;
}

TEST(Incoming, the_longest_target_and_the_most_fields_are_taken_and_one_more_is_refused) {
  EXPECT_EQ(status_of(get("/" + std::string(kLongestTarget - 1, 'a'))), 200);
  EXPECT_EQ(status_of(get("/" + std::string(kLongestTarget, 'a'))), 400);
  std::string query = "/?";
  for (std::size_t i = 0; i < kMostFields; ++i) query += "a&";
  EXPECT_EQ(status_of(get(query)), 200);
  EXPECT_EQ(status_of(get(query + "a")), 400);
}

TEST(Incoming, headers_that_could_be_understood_in_two_ways_are_refused) {
  const std::pair<const char*, int> rows[] = {{"Transfer-Encoding", 400}, {"Range", 400}, {"Upgrade", 400}, {"Content-Encoding", 415}};
  for (const auto& [name, status] : rows) EXPECT_EQ(status_of(get("/", {{name, "x"}})), status) << name;
  for (const char* name : {"Origin", "Content-Type", "X-Ohmstead", "Cookie", "Content-Length"}) {
    EXPECT_EQ(status_of(get("/", {{name, "1"}, {"Accept", "1"}})), 200) << name;
    EXPECT_EQ(status_of(get("/", {{name, "1"}, {name, "1"}})), 400) << name;
    EXPECT_EQ(status_of(get("/", {{name, "1\x01"}})), 400) << name;
  }
}

TEST(Incoming, every_host_is_kept_so_that_the_gate_sees_two) {
  EXPECT_EQ(std::get<Request>(take_head(get("/", {{"Host", "a"}, {"host", "b"}}), kMost)).hosts, (std::vector<std::string>{"a", "b"}));
}

TEST(Incoming, a_body_has_a_length_within_the_limit) {
  const auto post = [](const std::string& length) { return Head{"POST", "/", {{"Content-Length", length}}, ""}; };
  EXPECT_EQ(status_of({"POST", "/", {}, ""}), 411);
  EXPECT_EQ(status_of(post("100")), 200);
  EXPECT_EQ(status_of(post("101")), 413);
  EXPECT_EQ(status_of(post("99999999999999999999999")), 413);
  for (const char* length : {"", "-1", "+1", "1x", "0x1", "1, 1", " 1"}) EXPECT_NE(status_of(post(length)), 200) << length;
}

TEST(Incoming, other_verbs_are_others) {
  for (const char* method : {"HEAD", "OPTIONS", "PUT", "get", "DELETE", "TRACE"})
    EXPECT_EQ(std::get<Request>(take_head({method, "/", {}, ""}, kMost)).verb, Verb::other) << method;
}

TEST(Message, a_cookie_is_found_by_its_whole_name) {
  Request request;
  request.cookie = "xohmstead-1=no; ohmstead-1=yes; ohmstead-1=later;ohmstead-2=two";
  EXPECT_EQ(request.cookie_named("ohmstead-1"), "yes");
  EXPECT_EQ(request.cookie_named("ohmstead-2"), "two");
  EXPECT_EQ(request.cookie_named("ohmstead"), "");
}

TEST(Message, a_refusal_is_one_json_object_whatever_its_text_holds) {
  EXPECT_EQ(refusal(403, "role", "No \"x\" <b>").body, "{\"error\":{\"kind\":\"role\",\"message\":\"No \\\"x\\\" <b>\"}}\n");
}

}  // namespace
}  // namespace ohmstead::web
