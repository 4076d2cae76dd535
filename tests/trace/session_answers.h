#pragma once
// What the tests of a session say to it, and what they hold its result against.

#include <vector>

#include "tests/trace/simulated_house.h"
#include "trace/conclude.h"
#include "trace/session.h"

namespace ohmstead::test {

inline Answer say(AnswerKind kind, const char* at = "2026-03-01T08:00:00Z") { return {kind, Method::tester, at, ""}; }

/// Breaker of each point that the session proved; none where it did not.
inline std::vector<Id<Breaker>> proved(const TraceSession& session) {
  std::vector<Id<Breaker>> breakers;
  for (const Feed& feed : conclude(session.house()).of_point)
    breakers.push_back(feed.standing == Standing::proved ? feed.taps[0].breaker : Id<Breaker>{});
  return breakers;
}

inline std::vector<Id<Breaker>> right(const Truth& truth) {
  std::vector<Id<Breaker>> breakers;
  for (const auto& taps : truth.feed) breakers.push_back(taps.empty() ? Id<Breaker>{} : taps[0].breaker);
  return breakers;
}

}  // namespace ohmstead::test
