#pragma once
// Sessions in small houses made by hand, with everything that real ones have: driven to their end,
// counted, and watched for rules that must not be broken.

#include <gmock/gmock.h>

#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/trace/session_answers.h"
#include "tests/trace/simulated_house.h"
#include "trace/board.h"

namespace ohmstead::test {

/// How many breakers may be off at once: one, four, any number.
inline constexpr int kWays[] = {1, 4, 0};

/// What a session asked for.
struct Drive {
  bool ended = false;
  int looks = 0;                      ///< also with nothing open
  int opened = 0;                     ///< breakers turned off, one for each time
  int walks = 0;                      ///< times that something was opened
  std::map<Id<Point>, int> looks_at;
  std::set<Id<Point>> asked_dead;     ///< points asked about with nothing open, for a switch, a GFCI or a bulb
  std::vector<std::string> broken;    ///< rules
  std::set<StepReason> reasons;
};

/// Watches the handles of one session for broken rules.
class Rules {
 public:
  void take(const TraceSession& session, const Step& step, int now) {
    const House& house = session.house();
    if (step.kind == StepKind::open)
      for (const HandleRef& handle : step.handles) off_[handle] = now;
    for (const auto& [handle, since] : off_)
      if (is_brief(house, handle) && now - since > kBriefSeconds) broken.push_back("too long off");
    if (step.kind == StepKind::close)
      for (const HandleRef& handle : step.handles) off_.erase(handle);
    if (step.kind != StepKind::open) return;
    const int at_once = manner_of(house).at_once;
    if (at_once > 0 && off_.size() > static_cast<std::size_t>(at_once)) broken.push_back("too many off");
    for (const auto& [handle, since] : off_) {
      if (is_brief(house, handle) && off_.size() > 1) broken.push_back("not alone");
      if (row(house, Id<Breaker>{handle.id}).open_rule == OpenRule::never) broken.push_back("must never be off");
    }
  }
  void expect_all_on() {
    if (!off_.empty()) broken.push_back("left off");
  }
  std::vector<std::string> broken;

 private:
  static bool is_brief(const House& house, const HandleRef& handle) {
    return row(house, Id<Breaker>{handle.id}).open_rule == OpenRule::briefly_alone;
  }
  std::map<HandleRef, int> off_;
};

/// Answers until the session is done, or `most` times.
inline Drive drive(TraceSession& session, Walker& walker, int most = 4000) {
  Drive seen;
  Rules rules;
  for (int i = 0; i < most && session.step().kind != StepKind::done; ++i) {
    const Step step = session.step();
    seen.reasons.insert(step.reason);
    if (step.kind == StepKind::open) ++seen.walks, seen.opened += static_cast<int>(step.handles.size());
    if (step.kind == StepKind::look || step.kind == StepKind::ask_dead) ++seen.looks, ++seen.looks_at[step.point];
    if (step.kind == StepKind::ask_dead) seen.asked_dead.insert(step.point);
    const Answer answer = walker.answer(session);
    rules.take(session, step, walker.clock.seconds());
    session.answer(answer);
  }
  seen.ended = session.step().kind == StepKind::done;
  if (seen.ended) rules.expect_all_on();
  seen.broken = rules.broken;
  return seen;
}

/// A session of this house with so many off at once.
inline TraceSession session_of(House house, int at_once) {
  keep_manner(house, {at_once});
  return TraceSession(std::move(house));
}

/// Points that were proved on a breaker that does not feed them, as "Kitchen receptacle 2".
inline std::vector<std::string> wrongly_blamed(const TraceSession& session, const Truth& truth) {
  std::vector<std::string> wrong;
  const Feeds feeds = conclude(session.house());
  for (std::size_t p = 0; p < feeds.of_point.size(); ++p) {
    if (feeds.of_point[p].standing != Standing::proved) continue;
    std::set<Id<Breaker>> said, so;
    for (const Tap& tap : feeds.of_point[p].taps) said.insert(tap.breaker);
    for (const Tap& tap : truth.feed[p]) so.insert(tap.breaker);
    if (said != so) wrong.push_back(session.house().points[p].name);
  }
  return wrong;
}

/// A session and what it asked for.
struct Driven {
  TraceSession session;
  Drive seen;
};

/// Drives a session of this house with true answers. Expects that it ends, breaks no rule and blames
/// no wrong breaker.
inline Driven driven_truthfully(const HouseMaker& made, int at_once) {
  TraceSession session = session_of(made.house, at_once);
  Walker walker(made.truth, 0, 1);
  Drive seen = drive(session, walker);
  EXPECT_TRUE(seen.ended) << at_once;
  EXPECT_THAT(seen.broken, ::testing::IsEmpty()) << at_once;
  EXPECT_THAT(wrongly_blamed(session, made.truth), ::testing::IsEmpty()) << at_once;
  return {std::move(session), std::move(seen)};
}

/// Four rooms with three receptacles and a light each, and a range in the kitchen. Receptacles of a
/// room are on one breaker, lights of two rooms on one, the range on two poles; three breakers are spare.
struct FourRooms : HouseMaker {
  std::vector<Id<Breaker>> breakers;
  std::vector<Id<Room>> rooms;
  static constexpr std::size_t kRange = 9, kFirstSpare = 6, kInRoom = 4;
  FourRooms() {
    rooms = {house.rooms[0].id, add_room("Kitchen"), add_room("Bedroom"), add_room("Garage")};
    for (int space = 1; space <= 9; ++space) breakers.push_back(add_breaker(space));
    breakers.push_back(add_breaker(10, 2, 40));
    for (std::size_t r = 0; r < rooms.size(); ++r) {
      for (int i = 1; i <= 3; ++i) add_point(rooms[r], "receptacle " + std::to_string(i), {{1, breakers[r], 1}});
      add_point(rooms[r], "ceiling light", {{1, breakers[4 + r / 2], 1}}, 1, PointKind::light);
    }
    add_point(rooms[1], "range", {{1, breakers[kRange], 1}, {2, breakers[kRange], 2}}, 2, PointKind::appliance);
  }
  /// Place of a room's receptacle, 0..2, or of its light, 3.
  static std::size_t at(std::size_t room, std::size_t i) { return room * kInRoom + i; }
};

}  // namespace ohmstead::test
