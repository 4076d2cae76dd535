#include "web/bucket.h"

#include <gtest/gtest.h>

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds, std::chrono::seconds;
constexpr Pace kPace{2, 3}, kMuch{1e6, 1e6};

TEST(Bucket, gives_what_it_holds_at_once_then_so_many_a_second) {
  const Moment start{};
  Bucket bucket(kPace, start);
  for (int i = 0; i < 3; ++i) EXPECT_TRUE(bucket.take(start)) << i;
  EXPECT_FALSE(bucket.take(start));
  EXPECT_FALSE(bucket.take(start + milliseconds(499)));
  EXPECT_TRUE(bucket.take(start + milliseconds(501)));
  EXPECT_FALSE(bucket.take(start + milliseconds(502)));
}

TEST(Bucket, never_holds_more_than_when_it_was_made) {
  Bucket bucket(kPace, Moment{});
  const Moment late = Moment{} + seconds(1000);
  EXPECT_TRUE(bucket.full(late));
  for (int i = 0; i < 3; ++i) EXPECT_TRUE(bucket.take(late));
  EXPECT_FALSE(bucket.take(late));
  EXPECT_FALSE(bucket.full(late));
}

TEST(Bucket, time_that_seems_to_go_back_fills_nothing) {
  Bucket bucket(kPace, Moment{} + seconds(10));
  for (int i = 0; i < 3; ++i) EXPECT_TRUE(bucket.take(Moment{} + seconds(10)));
  EXPECT_FALSE(bucket.take(Moment{}));
  EXPECT_FALSE(bucket.take(Moment{} + seconds(10)));
}

TEST(Buckets, one_name_does_not_take_from_another) {
  Buckets buckets(kPace, kMuch, Moment{});
  for (int i = 0; i < 3; ++i) EXPECT_TRUE(buckets.take("a", Moment{}));
  EXPECT_FALSE(buckets.take("a", Moment{}));
  EXPECT_TRUE(buckets.take("b", Moment{}));
}

TEST(Buckets, all_together_have_a_limit_and_what_it_refuses_costs_the_name_nothing) {
  Buckets buckets({0.001, 1}, {1, 4}, Moment{});
  for (const char* name : {"a", "b", "c", "d"}) EXPECT_TRUE(buckets.take(name, Moment{}));
  EXPECT_FALSE(buckets.take("e", Moment{}));
  EXPECT_TRUE(buckets.take("e", Moment{} + seconds(1)));
  EXPECT_FALSE(buckets.take("e", Moment{} + seconds(2)));
}

TEST(Buckets, more_names_than_it_keeps_share_one_bucket) {
  Buckets buckets({0.001, 1}, kMuch, Moment{});
  for (std::size_t i = 0; i < Buckets::kMostNames; ++i) EXPECT_TRUE(buckets.take(std::to_string(i), Moment{}));
  EXPECT_TRUE(buckets.take("new", Moment{}));
  EXPECT_FALSE(buckets.take("newer", Moment{}));
  EXPECT_FALSE(buckets.take("0", Moment{})) << "a known name is not forgotten";
}

TEST(Buckets, full_ones_are_forgotten_to_make_room) {
  Buckets buckets({1, 1}, kMuch, Moment{});
  for (std::size_t i = 0; i < Buckets::kMostNames; ++i) EXPECT_TRUE(buckets.take(std::to_string(i), Moment{}));
  const Moment later = Moment{} + seconds(5);
  EXPECT_TRUE(buckets.take("x", later));
  EXPECT_TRUE(buckets.take("y", later));
}

}  // namespace
}  // namespace ohmstead::web
