// What daily life says counts like a look of a session, two people who disagree send somebody to
// look again, and an answer that turns out wrong later can be taken out.

#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/disagreement.h"
#include "tests/trace/session_answers.h"
#include "trace/contradictions.h"
#include "trace/session.h"

namespace ohmstead::test {
namespace {

constexpr std::size_t kPoint = 2;       ///< Kitchen receptacle 1, on breaker 2
constexpr int kMostExtraLooks = 3;
constexpr const char* kLater = "2026-04-01T08:00:00Z";

/// Runs the session to its end with truthful answers; how often it asked about the point.
int looks_at(TraceSession& session, Walker& walker, Id<Point> point) {
  int looks = 0;
  for (int i = 0; i < 2000 && session.step().kind != StepKind::done; ++i) {
    const Step& step = session.step();
    looks += (step.kind == StepKind::look || step.kind == StepKind::ask_dead) && step.point == point;
    session.answer(walker.answer(session));
  }
  EXPECT_EQ(session.step().kind, StepKind::done);
  return looks;
}

/// A house in which everything was proved by a session.
struct Traced : ThreeRooms {
  Traced() {
    TraceSession session(house);
    Walker walker(truth, 0, 1);
    EXPECT_TRUE(run_to_the_end(session, walker));
    house = session.house();
    EXPECT_EQ(proved(session), right(truth));
  }
  /// A person who comes back a month later.
  [[nodiscard]] Walker later() const {
    Walker walker(truth, 0, 2);
    (void)walker.clock.after(27 * 86'400);
    return walker;
  }
  void forget(std::size_t point) {
    for (Observation& seen : house.observations)
      if (seen.point == house.points[point].id) seen.withdrawn = true;
  }
};

TEST(Disagreement, a_breaker_that_tripped_is_evidence_like_any_other) {
  ThreeRooms made;
  tell(made.house, 0, Seen::dead, made.breakers[0], "Ana", kLater);
  EXPECT_EQ(conclude(made.house).of_point[0].standing, Standing::likely);
  EXPECT_EQ(conclude(made.house).of_point[0].taps[0].breaker, made.breakers[0]);
  tell(made.house, 0, Seen::dead, made.breakers[0], "Bo", kLater);
  tell(made.house, 0, Seen::live, made.breakers[3], "Bo", kLater);
  EXPECT_EQ(conclude(made.house).of_point[0].standing, Standing::proved);
}

TEST(Disagreement, two_people_against_each_other_are_disputed_and_the_session_asks_until_it_is_settled) {
  Traced made;
  made.forget(kPoint);
  tell(made.house, kPoint, Seen::dead, made.breakers[1], "Bo", "2026-03-10T08:00:00Z");
  tell(made.house, kPoint, Seen::live, made.breakers[1], "Ana", "2026-03-11T08:00:00Z");
  EXPECT_EQ(conclude(made.house).of_point[kPoint].standing, Standing::disputed);
  TraceSession session(made.house);
  ASSERT_NE(session.step().kind, StepKind::done) << "somebody must be sent to look again";
  Walker walker = made.later();
  const int looks = looks_at(session, walker, made.house.points[kPoint].id);
  EXPECT_GE(looks, 1);
  EXPECT_LE(looks, kMostExtraLooks);
  EXPECT_EQ(proved(session), right(made.truth));
  for (const Observation& seen : made.house.observations)  // whatever is settled, nobody's word is dropped
    EXPECT_EQ(row(session.house(), seen.id), seen);
}

TEST(Disagreement, one_word_against_a_proof_shakes_it_and_few_looks_settle_it) {
  for (const Seen seen : {Seen::live, Seen::dead}) {
    Traced made;
    const double before = conclude(made.house).of_point[kPoint].belief;
    tell(made.house, kPoint, seen, made.breakers[seen == Seen::live ? 1 : 3], "Ana", "2026-03-20T08:00:00Z");
    const Feed shaken = conclude(made.house).of_point[kPoint];
    EXPECT_LT(shaken.belief, before);
    EXPECT_NE(shaken.standing, Standing::proved);
    EXPECT_EQ(contradictions_of(made.house, conclude_units(made.house)).size(), 1U);
    TraceSession session(made.house);
    Walker walker = made.later();
    const int looks = looks_at(session, walker, made.house.points[kPoint].id);
    EXPECT_LE(looks, kMostExtraLooks) << text_of(seen);
    EXPECT_GE(looks, 1) << text_of(seen);
    EXPECT_EQ(proved(session), right(made.truth)) << text_of(seen);
  }
}

TEST(Disagreement, the_word_that_was_right_wins_against_a_wrong_trace) {
  Traced made;
  made.forget(kPoint);
  tell(made.house, kPoint, Seen::dead, made.breakers[4], "Bo", "2026-03-10T08:00:00Z");  // he took 5 for 2
  tell(made.house, kPoint, Seen::dead, made.breakers[1], "Ana", "2026-03-11T08:00:00Z");
  TraceSession session(made.house);
  ASSERT_NE(session.step().kind, StepKind::done);
  Walker walker = made.later();
  (void)looks_at(session, walker, made.house.points[kPoint].id);
  EXPECT_EQ(proved(session), right(made.truth));
}

TEST(Disagreement, an_answer_of_daily_life_that_turns_out_wrong_is_taken_out_and_the_proof_is_back) {
  Traced made;
  const Feed proof = conclude(made.house).of_point[kPoint];
  for (const char* at : {"2026-03-20T08:00:00Z", "2026-03-21T08:00:00Z"}) tell(made.house, kPoint, Seen::live, made.breakers[1], "Ana", at);
  EXPECT_NE(conclude(made.house).of_point[kPoint].standing, Standing::proved);
  TraceSession session(made.house);
  ASSERT_NE(session.step().kind, StepKind::done);
  const auto found = contradictions_of(session.house(), session.conclusions());
  ASSERT_EQ(found.size(), 1U);
  for (const Sight& sight : found[0].against) session.withdraw(sight.observation);
  EXPECT_EQ(session.step().kind, StepKind::done);
  EXPECT_EQ(conclude(session.house()).of_point[kPoint], proof);
  EXPECT_TRUE(problems_of(session.house()).empty());
}

}  // namespace
}  // namespace ohmstead::test
