// What no single breaker explains: points on two breakers at once, on one that is not listed, behind
// a panel that nobody has found yet.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/trace/real_drive.h"
#include "trace/step_text.h"
#include "trace/unexplained.h"

namespace ohmstead::test {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// The garage's receptacles join two circuits: they are dead only with breakers 4 and 8 both off.
struct Joined : FourRooms {
  Joined() {
    for (std::size_t i = 0; i < 3; ++i) truth.feed[at(3, i)] = {{1, breakers[3], 1}, {1, breakers[7], 1}};
  }
};

std::string summary_of(const TraceSession& session) { return summary_text(session.house(), session.conclusions()); }

TEST(FedByTwo, is_found_where_several_may_be_off_at_once) {
  for (const int at_once : {2, 4, 0}) {
    const Joined made;
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_EQ(session.progress().settled, session.progress().total) << at_once;
    EXPECT_LE(seen.looks, 115) << at_once;
    EXPECT_LE(seen.walks, 20) << at_once;
    EXPECT_THAT(summary_of(session), Not(HasSubstr("Garage"))) << at_once;
  }
}

TEST(FedByTwo, is_found_with_one_reading_of_a_hundred_wrong) {
  for (const int at_once : {4, 0}) {
    int wrong = 0, open = 0, broken = 0, looks = 0;
    for (unsigned seed = 0; seed < 60; ++seed) {
      const Joined made;
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, 0.01, seed);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended);
      wrong += static_cast<int>(wrongly_blamed(session, made.truth).size());
      open += session.progress().total - session.progress().settled;
      broken += static_cast<int>(seen.broken.size()), looks += seen.looks;
    }
    EXPECT_LE(wrong, 3) << at_once << ": of 180 points, each fed by two";
    EXPECT_LE(open, 6) << at_once << ": points of 60 houses that were not settled";
    EXPECT_EQ(broken, 0) << at_once;
    EXPECT_LE(looks, 60 * 120) << at_once;
  }
}

TEST(FedByTwo, with_one_off_at_a_time_the_session_says_what_it_may_be) {
  const Joined made;
  TraceSession session = session_of(made.house, 1);
  Walker walker(made.truth, 0, 1);
  const Drive seen = drive(session, walker);
  ASSERT_TRUE(seen.ended);
  EXPECT_THAT(seen.broken, IsEmpty());
  EXPECT_EQ(seen.opened, seen.walks) << "never two at a time";
  EXPECT_LE(seen.looks, 115);
  EXPECT_THAT(wrongly_blamed(session, made.truth), IsEmpty());
  EXPECT_EQ(session.progress().unexplained, 3);
  EXPECT_THAT(summary_of(session), HasSubstr("or two breakers feed them at once. Two at once can be found with more than one breaker off at a time."));
}

TEST(FedByTwo, the_step_says_why_more_than_one_goes_off) {
  const Joined made;
  TraceSession session = session_of(made.house, 2);
  Walker walker(made.truth, 0, 1);
  while (session.step().reason != StepReason::fed_by_two) {
    ASSERT_NE(session.step().kind, StepKind::done);
    session.answer(walker.answer(session));
  }
  EXPECT_EQ(session.step().kind, StepKind::open);
  EXPECT_EQ(session.step().handles.size(), 2U);
  EXPECT_THAT(why_text(session.house(), session.conclusions(), session.step()), HasSubstr("Perhaps two feed it at once"));
  session.answer(walker.answer(session));
  EXPECT_THAT(why_text(session.house(), session.conclusions(), session.step()), HasSubstr("two of those that are off feed it at once"));
}

TEST(FedByTwo, a_breaker_that_may_be_off_only_alone_is_not_tried_with_another) {
  for (const int at_once : {4, 0}) {
    Joined made;
    row(made.house, made.breakers[7]).open_rule = OpenRule::briefly_alone;
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_EQ(session.progress().unexplained, 3) << at_once;
    EXPECT_THAT(wrongly_blamed(session, made.truth), IsEmpty()) << at_once;
  }
}

TEST(FedByTwo, two_hots_on_two_breakers_that_are_not_tied_are_found) {
  for (const int at_once : kWays) {
    FourRooms made;
    const std::size_t range = made.house.points.size() - 1;
    made.truth.feed[range] = {{1, made.breakers[6], 1}, {2, made.breakers[8], 1}};
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_EQ(session.progress().settled, session.progress().total) << at_once;
    EXPECT_LE(seen.looks_at.at(made.house.points[range].id), 10) << at_once;
    EXPECT_FALSE(seems_spare(session.house(), made.breakers[6])) << at_once;
    EXPECT_TRUE(seems_spare(session.house(), made.breakers[7])) << at_once;
  }
}

TEST(Unlisted, a_point_on_no_listed_breaker_costs_few_looks_and_blames_none) {
  for (const int at_once : kWays) {
    int looks = 0, blamed = 0, explained = 0, most = 0;
    for (unsigned seed = 0; seed < 40; ++seed) {
      FourRooms made;
      const std::size_t lost = FourRooms::at(2, 1);
      made.truth.feed[lost].clear();
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, seed == 0 ? 0 : 0.01, seed);
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended);
      EXPECT_THAT(seen.broken, IsEmpty());
      blamed += static_cast<int>(wrongly_blamed(session, made.truth).size());
      explained += session.progress().unexplained == 1 ? 0 : 1;
      looks += seen.looks_at.at(made.house.points[lost].id);
      most = std::max(most, seen.looks_at.at(made.house.points[lost].id));
      if (seed == 0) {
        EXPECT_THAT(summary_of(session), HasSubstr("Bedroom, receptacle 2: live whatever was off: nothing listed explains this."));
      }
    }
    EXPECT_LE(blamed, 1) << at_once;
    EXPECT_LE(explained, 2) << at_once;
    EXPECT_LE(looks / 40.0, 22) << at_once << ": ten breakers, each twice, and some to be sure";
    EXPECT_LE(most, 40) << at_once;
  }
}

/// Garage and workshop, next to each other, hang on a panel that is not written down.
struct HiddenPanel : FourRooms {
  HiddenPanel() {
    rooms.push_back(add_room("Workshop"));
    add_point(rooms[4], "bench light", {}, 1, PointKind::light);
    house.walks.push_back({Id<Walk>::fresh(), rooms[3], rooms[4], 5});
    for (std::size_t i = 0; i < 4; ++i) truth.feed[at(3, i)].clear();
    truth.feed[at(0, 2)].clear();  // far from it: something else
  }
};

TEST(Unlisted, several_close_together_are_told_as_one_hidden_panel) {
  for (const int at_once : kWays) {
    const HiddenPanel made;
    const auto [session, seen] = driven_truthfully(made, at_once);
    EXPECT_EQ(session.progress().unexplained, 6) << at_once;
    EXPECT_LE(seen.looks, 170) << at_once;
    const auto lines = unexplained_lines(session.house(), session.conclusions());
    ASSERT_EQ(lines.size(), 2U) << at_once;
    EXPECT_THAT(lines, Contains(HasSubstr("Nothing listed explains receptacle 1, receptacle 2, receptacle 3 and ceiling light in Garage, bench light "
                                          "in Workshop: they were live whatever was off, and are close together. Look near them for a panel")));
    EXPECT_THAT(lines, Contains(HasSubstr("Hall, receptacle 3: live whatever was off")));
  }
}

}  // namespace
}  // namespace ohmstead::test
