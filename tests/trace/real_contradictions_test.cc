// Answers that contradict each other: two people, a wrong answer noticed later, answers that cannot all
// be true. Settled with few looks more, with one, four and any number of breakers off at once.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/disagreement.h"
#include "tests/trace/real_drive.h"
#include "trace/contradictions.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

constexpr int kMostExtraLooks = 3;
constexpr int kAMonth = 27 * 86'400;

/// Everything was traced and proved with so many off at once.
struct TracedHouse : FourRooms {
  explicit TracedHouse(int at_once) {
    TraceSession session = session_of(house, at_once);
    Walker walker(truth, 0, 1);
    EXPECT_TRUE(drive(session, walker).ended);
    house = session.house();
    EXPECT_EQ(proved(session), right(truth));
  }
  [[nodiscard]] Walker later(double error = 0, unsigned seed = 2) const {
    Walker walker(truth, error, seed);
    (void)walker.clock.after(kAMonth - 16 * 3600);
    return walker;
  }
};

TEST(TwoPeople, a_word_against_a_proof_is_settled_with_at_most_three_looks) {
  int shaken = 0;
  for (const int at_once : kWays)
    for (const Seen seen : {Seen::live, Seen::dead})
      for (const std::size_t point : {FourRooms::at(1, 0), FourRooms::at(2, 1), FourRooms::at(3, 3), std::size_t{16}}) {
        TracedHouse made(at_once);
        const Id<Breaker> own = made.truth.feed[point][0].breaker;
        tell(made.house, point, seen, seen == Seen::live ? own : made.breakers[8], "Ana", "2026-03-20T08:00:00Z");
        if (conclude(made.house).of_point[point].standing == Standing::proved) continue;  // seen so often that one word is not enough
        ++shaken;
        TraceSession session(made.house);
        Walker walker = made.later();
        const Drive seen_on = drive(session, walker);
        ASSERT_TRUE(seen_on.ended);
        EXPECT_LE(seen_on.looks, kMostExtraLooks) << at_once << " " << text_of(seen) << " point " << point;
        EXPECT_GE(seen_on.looks, 1) << at_once << " " << text_of(seen) << " point " << point;
        EXPECT_EQ(proved(session), right(made.truth)) << at_once << " " << text_of(seen) << " point " << point;
        EXPECT_THAT(seen_on.broken, IsEmpty());
      }
  EXPECT_GE(shaken, 18) << "of 24";
}

TEST(TwoPeople, who_contradict_each_other_about_one_point_are_settled_with_few_looks) {
  for (const int at_once : kWays)
    for (const std::size_t point : {FourRooms::at(1, 0), FourRooms::at(3, 3)}) {
      TracedHouse made(at_once);
      for (Observation& seen : made.house.observations)
        if (seen.point == made.house.points[point].id) seen.withdrawn = true;
      const Id<Breaker> own = made.truth.feed[point][0].breaker;
      tell(made.house, point, Seen::dead, own, "Bo", "2026-03-20T08:00:00Z");
      tell(made.house, point, Seen::live, own, "Ana", "2026-03-21T08:00:00Z");
      ASSERT_EQ(conclude(made.house).of_point[point].standing, Standing::disputed);
      TraceSession session(made.house);
      Walker walker = made.later();
      const Drive seen = drive(session, walker);
      ASSERT_TRUE(seen.ended);
      // Dead and live with one breaker tell nothing: the receptacle has its neighbors, the light is looked for like any other.
      const int most = point == FourRooms::at(1, 0) ? kMostExtraLooks : 6;
      EXPECT_LE(seen.looks_at.at(made.house.points[point].id), most) << at_once << " point " << point;
      EXPECT_LE(seen.looks, most + 3) << at_once << " point " << point << ": and at its neighbors, which stood on it";
      EXPECT_EQ(proved(session), right(made.truth)) << at_once << " point " << point;
    }
}

TEST(WrongAnswer, noticed_later_and_withdrawn_costs_few_looks_and_comes_out_right) {
  for (const int at_once : kWays) {
    FourRooms made;
    const Id<Point> point = made.house.points[FourRooms::at(1, 1)].id;
    TraceSession session = session_of(made.house, at_once);
    Walker walker(made.truth, 0, 1);
    Id<Observation> wrong;
    for (int i = 0; i < 40; ++i) {  // the first answer about the point is wrong
      const bool here = session.step().kind == StepKind::look && session.step().point == point;
      Answer answer = walker.answer(session);
      if (here && !wrong) answer.kind = answer.kind == AnswerKind::live ? AnswerKind::dead : AnswerKind::live;
      session.answer(answer);
      if (here && !wrong) wrong = session.house().observations.back().id;
    }
    ASSERT_TRUE(wrong);
    session.withdraw(wrong);
    const Drive seen = drive(session, walker);
    ASSERT_TRUE(seen.ended) << at_once;
    EXPECT_THAT(seen.broken, IsEmpty()) << at_once;
    EXPECT_EQ(proved(session), right(made.truth)) << at_once;
    EXPECT_TRUE(row(session.house(), wrong).withdrawn) << "it stays in the record";
    EXPECT_LE(seen.looks, 100) << at_once;
  }
}

TEST(WrongAnswer, a_withdrawal_can_be_undone_and_withdrawing_twice_changes_nothing) {
  for (const int at_once : kWays) {
    FourRooms made;
    TraceSession session = session_of(made.house, at_once);
    Walker walker(made.truth, 0, 1);
    for (int i = 0; i < 15; ++i) session.answer(walker.answer(session));
    const House before = session.house();
    const Step step = session.step();
    const Observation first = before.observations[1], last = before.observations.back();
    session.withdraw(first.id);
    session.withdraw(first.id);
    EXPECT_TRUE(row(session.house(), first.id).withdrawn);
    EXPECT_TRUE(session.undo());
    EXPECT_EQ(session.house(), before) << at_once;
    EXPECT_EQ(session.step(), step) << at_once;
    session.withdraw(first.id);
    session.withdraw(last.id);
    EXPECT_TRUE(session.undo()) << "the last withdrawal";
    EXPECT_FALSE(row(session.house(), last.id).withdrawn);
    EXPECT_TRUE(session.undo()) << "the first one";
    EXPECT_EQ(session.house(), before) << at_once;
    EXPECT_TRUE(session.undo()) << "and then the last answer";
    EXPECT_TRUE(row(session.house(), last.id).withdrawn);
  }
}

TEST(WrongAnswer, what_was_withdrawn_is_passed_over_when_answers_are_taken_back) {
  FourRooms made;
  TraceSession session = session_of(made.house, 4);
  Walker walker(made.truth, 0, 1);
  for (int i = 0; i < 8; ++i) session.answer(walker.answer(session));
  const auto seen = session.house().observations;
  ASSERT_GE(seen.size(), 3U);
  session.withdraw(seen[seen.size() - 1].id);
  TraceSession reloaded(session.house());  // the order in which answers were withdrawn is not kept
  EXPECT_TRUE(reloaded.undo());
  EXPECT_TRUE(row(reloaded.house(), seen[seen.size() - 2].id).withdrawn);
}

/// Each answer the other way round from some moment on, or all of them dead, or all live.
enum class Liar { turns_round, all_dead, all_live };

TEST(CannotAllBeTrue, a_session_ends_whatever_somebody_says_from_some_moment_on) {
  for (const int at_once : kWays)
    for (const Liar liar : {Liar::turns_round, Liar::all_dead, Liar::all_live}) {
      FourRooms made;
      TraceSession session = session_of(made.house, at_once);
      Walker walker(made.truth, 0, 1);
      int answers = 0;
      for (; answers < 3000 && session.step().kind != StepKind::done; ++answers) {
        Answer answer = walker.answer(session);
        if (answers > 25 && (answer.kind == AnswerKind::live || answer.kind == AnswerKind::dead))
          answer.kind = liar == Liar::all_dead                                          ? AnswerKind::dead
                        : liar == Liar::all_live || answer.kind == AnswerKind::dead ? AnswerKind::live
                                                                                        : AnswerKind::dead;
        session.answer(answer);
      }
      const std::string what = std::to_string(at_once) + " liar " + std::to_string(static_cast<int>(liar));
      EXPECT_EQ(session.step().kind, StepKind::done) << what;
      EXPECT_LE(answers, 600) << what;
      EXPECT_TRUE(problems_of(session.house()).empty()) << what;
      EXPECT_LT(session.progress().settled, 17) << what << ": not everything is called proved";
    }
}

TEST(CannotAllBeTrue, a_disputed_point_says_so_in_the_summary) {
  FourRooms made;
  for (const char* at : {"2026-03-20T08:00:00Z", "2026-03-20T09:00:00Z"}) {
    tell(made.house, 4, Seen::dead, made.breakers[1], "Bo", at);
    tell(made.house, 4, Seen::live, made.breakers[1], "Ana", at);
  }
  EXPECT_THAT(summary_text(made.house, conclude_units(made.house)),
              HasSubstr("Kitchen, receptacle 1: disputed: what was seen contradicts itself; check it again"));
}

}  // namespace
}  // namespace ohmstead::test
