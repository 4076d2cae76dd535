#pragma once
// A house with its truth: somebody who walks through it and answers a tracing session.

#include <algorithm>
#include <cstdio>
#include <random>
#include <string>
#include <vector>

#include "house/index.h"
#include "tests/trace/world.h"
#include "trace/effect.h"
#include "trace/session.h"

namespace ohmstead::test {

/// Counts up from a fixed moment, as `2026-03-01T08:00:00Z`.
class Clock {
 public:
  std::string after(int seconds) {
    seconds_ += seconds;
    char text[32];
    std::snprintf(text, sizeof text, "2026-03-%02dT%02d:%02d:%02dZ", 1 + seconds_ / 86'400 % 28, seconds_ / 3600 % 24,
                  seconds_ / 60 % 60, seconds_ % 60);
    return text;
  }
  [[nodiscard]] int seconds() const { return seconds_; }

 private:
  int seconds_ = 8 * 3600;
};

/// What is really so.
struct Truth {
  /// For each point its taps; none: nothing listed feeds it.
  std::vector<std::vector<Tap>> feed;
  std::vector<AtStart> at_start;  ///< in the order of house.points; empty: all live
};

/// The person. Reads every point as it is, but for a share of `error` of the readings.
class Walker {
 public:
  Walker(Truth truth, double error, unsigned seed) : truth_(std::move(truth)), error_(error), random_(seed) {}

  Answer answer(const TraceSession& session) {
    const Step& step = session.step();
    if (step.kind == StepKind::open) open_.insert(open_.end(), step.handles.begin(), step.handles.end());
    if (step.kind == StepKind::close)
      std::erase_if(open_, [&](const HandleRef& handle) { return std::ranges::find(step.handles, handle) != step.handles.end(); });
    if (step.kind != StepKind::look && step.kind != StepKind::ask_dead)
      return {AnswerKind::done, Method::look, clock.after(4), "walker"};
    const std::size_t point = place_of(session.house(), step.point);
    if (step.kind == StepKind::ask_dead && at_start(point) == AtStart::dead_until_repaired) repair(session.house(), point);
    ++looks;
    const bool wrong = std::uniform_real_distribution<>(0, 1)(random_) < error_;
    const bool live = is_live(session.house(), point) != wrong;
    return {live ? AnswerKind::live : AnswerKind::dead, Method::tester, clock.after(seconds_a_look), "walker"};
  }

  /// Takes over a session in the middle: finds out what is open.
  void resume(const TraceSession& session) {
    open_.clear();
    for (const Opened& opened : session.house().opened)
      if (!row(session.house(), opened.round).finished) open_.push_back(opened.handle);
  }

  /// This breaker trips and will not come on again. The session does not know until it is told.
  void trip(Id<Breaker> breaker) {
    std::erase(open_, HandleRef{HandleKind::breaker, breaker.value});
    tripped_.push_back({HandleKind::breaker, breaker.value});
  }

  Clock clock;
  int looks = 0;
  int seconds_a_look = 10;

 private:
  static std::size_t place_of(const House& house, Id<Point> point) {
    return static_cast<std::size_t>(Index<Point>(house.points).at(point));
  }
  [[nodiscard]] AtStart at_start(std::size_t point) const {
    return truth_.at_start.empty() ? AtStart::live : truth_.at_start[point];
  }
  /// A switch turned on, or a GFCI reset, brings back all that is behind it.
  void repair(const House& house, std::size_t point) {
    const Id<Device> behind = house.points[point].behind;
    for (std::size_t p = 0; p < house.points.size(); ++p)
      if (p == point || (behind && house.points[p].behind == behind && at_start(p) == AtStart::dead_until_repaired)) truth_.at_start[p] = AtStart::live;
  }
  /// Every hot needs one live tap.
  [[nodiscard]] bool is_live(const House& house, std::size_t point) const {
    if (at_start(point) != AtStart::live) return false;
    std::vector<HandleRef> off = open_;
    off.insert(off.end(), tripped_.begin(), tripped_.end());
    const Effect effect = effect_of(house, off);
    for (int hot = 1; hot <= house.points[point].hots; ++hot) {
      bool fed = false, any = false;
      for (const Tap& tap : truth_.feed[point]) {
        if (tap.hot != hot) continue;
        any = true;
        const auto b = static_cast<std::size_t>(Index<Breaker>(house.breakers).at(tap.breaker));
        fed = fed || (effect.dead_poles[b] >> (tap.pole - 1) & 1) == 0;
      }
      if (any && !fed) return false;
    }
    return true;
  }

  Truth truth_;
  double error_;
  std::mt19937 random_;
  std::vector<HandleRef> open_, tripped_;
};

/// Answers until the session is done; false if that takes more than `most` answers.
inline bool run_to_the_end(TraceSession& session, Walker& walker, int most = 20'000) {
  for (int i = 0; i < most; ++i) {
    if (session.step().kind == StepKind::done) return true;
    session.answer(walker.answer(session));
  }
  return false;
}

/// A small house of one panel: rooms in a row, breakers of one pole, then of two.
struct HouseMaker {
  House house;
  Truth truth;
  explicit HouseMaker(int spaces = 24) {
    house.dwelling = {Id<Dwelling>::fresh(), "Test house"};
    house.floors.push_back({Id<Floor>::fresh(), "Ground floor", "", 0});
    const auto room = add_room("Hall");
    house.panels.push_back({Id<Panel>::fresh(), "Main panel", room, spaces, Numbering::odd_left_even_right, Supply::utility});
  }
  Id<Room> add_room(const std::string& name) {
    house.rooms.push_back({Id<Room>::fresh(), house.floors[0].id, name});
    return house.rooms.back().id;
  }
  Id<Breaker> add_breaker(int space, int poles = 1, int amps = 15, const std::string& label = "") {
    Breaker breaker{Id<Breaker>::fresh(), house.panels[0].id, space, Half::whole, poles, amps};
    breaker.old_label = label;
    house.breakers.push_back(breaker);
    return breaker.id;
  }
  std::size_t add_point(Id<Room> room, const std::string& name, std::vector<Tap> feed, int hots = 1,
                        PointKind kind = PointKind::receptacle) {
    Point point{Id<Point>::fresh(), room, {}, name, "", kind};
    point.hots = hots;
    house.points.push_back(point);
    truth.feed.push_back(std::move(feed));
    truth.at_start.push_back(AtStart::live);
    return house.points.size() - 1;
  }
  /// Records that a point was seen with these handles open.
  void see(std::size_t point, Seen seen, const std::vector<HandleRef>& open) {
    const Id<Round> round = Id<Round>::fresh();
    house.rounds.push_back({round, RoundKind::trace, clock.after(60), "", true});
    for (const HandleRef& handle : open) house.opened.push_back({Id<Opened>::fresh(), round, handle});
    house.observations.push_back({Id<Observation>::fresh(), round, house.points[point].id, seen, Method::tester, clock.after(10)});
  }
  static HandleRef off(Id<Breaker> breaker) { return {HandleKind::breaker, breaker.value}; }
  Clock clock;
};

}  // namespace ohmstead::test
