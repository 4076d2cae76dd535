#include "web/answering.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds, std::chrono::seconds;

Response text(const std::string& body) { return {200, "text/plain", body, ""}; }

Request asks(const std::string& path) {
  Request request;
  request.path = path;
  return request;
}

/// One request and its answer to come.
struct Asked {
  std::shared_ptr<std::promise<Response>> promise = std::make_shared<std::promise<Response>>();
  std::future<Response> answer = promise->get_future();
  Answering::Asker asker{[kept = promise](Response response) { kept->set_value(std::move(response)); }, [] { return false; }};
  [[nodiscard]] bool is_there(milliseconds patience) const { return answer.wait_for(patience) == std::future_status::ready; }
};

Asked ask(Answering& answering, const std::string& path) {
  Asked asked;
  answering.take(asks(path), asked.asker);
  return asked;
}

/// Parks everything until `news` is set.
struct News {
  std::atomic<bool> there{false};
  std::atomic<int> asked{0};
  milliseconds at_most = seconds(20);
  Handler handler = [this](const Request&) {
    return Parked{at_most, [this](bool over) -> std::optional<Response> {
                    ++asked;
                    if (there) return text("news");
                    return over ? std::optional(text("nothing new")) : std::nullopt;
                  }};
  };
};

TEST(Answering, every_request_gets_its_own_answer) {
  Answering answering({}, [](const Request& request) { return text(request.path); });
  std::vector<Asked> all;
  for (int i = 0; i < 200; ++i) all.push_back(ask(answering, std::to_string(i)));
  for (int i = 0; i < 200; ++i) EXPECT_EQ(all[static_cast<std::size_t>(i)].answer.get().body, std::to_string(i));
}

TEST(Answering, a_fault_of_the_handler_is_answered_without_its_text) {
  Answering answering({}, [](const Request& request) -> Answer {
    if (request.path == "number") throw 7;
    if (request.path == "parked") return Parked{seconds(1), [](bool) -> std::optional<Response> { throw std::runtime_error("secret"); }};
    if (request.path == "none") return Parked{milliseconds(1), [](bool) -> std::optional<Response> { return std::nullopt; }};
    throw std::runtime_error("secret");
  });
  for (const char* path : {"text", "number", "parked", "none"}) {
    const Response answer = ask(answering, path).answer.get();
    EXPECT_EQ(answer.status, 500) << path;
    EXPECT_EQ(answer.body.find("secret"), std::string::npos);
  }
}

TEST(Answering, what_is_parked_is_answered_when_woken) {
  News news;
  Answering answering({}, news.handler);
  const Asked one = ask(answering, "");
  answering.wake();
  EXPECT_FALSE(one.is_there(milliseconds(100)));
  news.there = true;
  answering.wake();
  ASSERT_TRUE(one.is_there(seconds(10)));
}

TEST(Answering, what_is_parked_is_answered_when_its_time_is_over) {
  News news;
  news.at_most = milliseconds(50);
  Answering answering({}, news.handler);
  Asked one = ask(answering, "");
  EXPECT_EQ(one.answer.get().body, "nothing new");
}

TEST(Answering, a_change_between_the_first_question_and_parking_is_not_missed) {
  // The change happens while it is asked the first time: that answer is "nothing", and nobody wakes it afterwards.
  for (int round = 0; round < 300; ++round) {
    std::atomic<int> asked{0};
    Answering* self = nullptr;
    Answering answering({4, 64, std::chrono::hours(1)}, [&](const Request&) {
      return Parked{seconds(20), [&](bool) -> std::optional<Response> {
                      if (asked++ > 0) return text("news");
                      self->wake();
                      return std::nullopt;
                    }};
    });
    self = &answering;
    const Asked one = ask(answering, "");
    ASSERT_TRUE(one.is_there(seconds(10))) << round;
  }
}

TEST(Answering, one_more_than_may_wait_is_sent_away_and_a_place_that_is_left_is_free_again) {
  News news;
  Answering answering({2, 3, seconds(1)}, news.handler);
  std::vector<Asked> waiting;
  for (int i = 0; i < 3; ++i) waiting.push_back(ask(answering, ""));
  while (news.asked < 3) std::this_thread::yield();
  EXPECT_EQ(ask(answering, "").answer.get().status, 503);
  news.there = true;
  answering.wake();
  for (Asked& one : waiting) EXPECT_EQ(one.answer.get().body, "news");
  news.there = false;
  Asked again = ask(answering, "");  // answered means that its place is free
  news.there = true;
  answering.wake();
  EXPECT_EQ(again.answer.get().body, "news");
}

TEST(Answering, who_is_answered_may_wait_again_at_once_while_others_are_still_being_answered) {
  News news;
  Answering answering({2, 1, seconds(1)}, news.handler);
  Asked first, again;
  first.asker.done = [&](const Response&) {  // while this is under way, its other end asks again and is asked to wait
    news.there = false;
    const int before = news.asked;
    answering.take(asks(""), again.asker);
    while (news.asked == before) std::this_thread::yield();
  };
  answering.take(asks(""), first.asker);
  while (news.asked < 1) std::this_thread::yield();
  news.there = true;
  answering.wake();
  while (news.asked < 3) std::this_thread::yield();
  news.there = true;
  answering.wake();
  EXPECT_EQ(again.answer.get().body, "news");
}

TEST(Answering, who_has_gone_makes_room) {
  News news;
  Answering answering({2, 1, milliseconds(10)}, news.handler);
  Asked gone;
  gone.asker.gone = [] { return true; };
  answering.take(asks(""), gone.asker);
  ASSERT_TRUE(gone.is_there(seconds(10)));
}

TEST(Answering, what_a_parked_request_holds_is_free_when_it_is_answered) {
  for (const bool at_once : {true, false}) {
    const auto held = std::make_shared<int>(1);
    std::atomic<bool> news{at_once};
    std::promise<long> users;
    Answering answering({}, [&](const Request&) {
      return Parked{seconds(20), [&news, copy = held](bool) -> std::optional<Response> { return news ? std::optional(text("")) : std::nullopt; }};
    });
    answering.take(asks(""), {[&](const Response&) { users.set_value(held.use_count()); }, nullptr});
    std::this_thread::sleep_for(milliseconds(at_once ? 0 : 50));
    news = true;
    answering.wake();
    EXPECT_EQ(users.get_future().get(), 1);
  }
}

TEST(Answering, a_slow_handler_holds_up_only_its_own_thread) {
  std::promise<void> go;
  const std::shared_future<void> gone = go.get_future().share();
  Answering answering({2, 8, seconds(1)}, [&](const Request& request) {
    if (request.path == "slow") gone.wait();
    return text(request.path);
  });
  Asked slow = ask(answering, "slow");
  EXPECT_EQ(ask(answering, "quick").answer.get().body, "quick");
  EXPECT_FALSE(slow.is_there(milliseconds(1)));
  go.set_value();
  EXPECT_EQ(slow.answer.get().body, "slow");
}

TEST(Answering, stopping_answers_everybody_once_and_afterwards_no_handler_runs) {
  News news;
  std::vector<Asked> all;
  {
    Answering answering({2, 64, seconds(1)}, news.handler);
    for (int i = 0; i < 40; ++i) all.push_back(ask(answering, ""));
    answering.stop();
    const int asked = news.asked;
    all.push_back(ask(answering, ""));
    EXPECT_EQ(all.back().answer.get().status, 503);
    all.pop_back();
    answering.wake();
    answering.stop();
    EXPECT_EQ(news.asked, asked);
  }
  for (Asked& one : all) {
    ASSERT_TRUE(one.is_there(milliseconds(0)));
    const Response answer = one.answer.get();
    EXPECT_TRUE(answer.body == "nothing new" || answer.status == 503);
  }
}

}  // namespace
}  // namespace ohmstead::web
