#include "trace/behind.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "house/invariants.h"
#include "tests/trace/behind_world.h"
#include "tests/trace/session_answers.h"
#include "trace/behind_model.h"
#include "trace/step_text.h"

namespace ohmstead::test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

/// A bath and a hall on two breakers; the bath's receptacle is a GFCI.
struct Bath : HouseMaker {
  Id<Room> hall = house.rooms[0].id, bath = add_room("Bath");
  Id<Breaker> a = add_breaker(1), b = add_breaker(3);
  std::size_t own = add_point(bath, "receptacle 1", {{1, a, 1}}), second = add_point(bath, "receptacle 2", {{1, a, 1}}),
              light = add_point(bath, "light", {{1, b, 1}}, 1, PointKind::light), far = add_point(hall, "receptacle 1", {{1, a, 1}});
  HandleRef gfci = add_device(DeviceKind::gfci_receptacle, "GFCI", bath);
  Bath() {
    house.devices[0].at_point = house.points[own].id;
    house.points[own].behind = house.devices[0].id;
    house.walks.push_back({Id<Walk>::fresh(), hall, bath, 6});
  }
  HandleRef add_device(DeviceKind kind, const std::string& name, Id<Room> room) {
    Device device;
    device.id = Id<Device>::fresh(), device.kind = kind, device.name = name;
    house.devices.push_back(device);
    house.handles.push_back({Id<Handle>::fresh(), device.id, room, {}, name});
    return {HandleKind::device, house.handles.back().id.value};
  }
  [[nodiscard]] BehindStanding standing(std::size_t point) const { return find_behind(house, gfci)[point].standing; }
};

TEST(BehindModel, beliefs_are_those_of_counting_every_possible_house) {
  const std::vector<BehindCase> cases{{0.2, {0.9, 0.5, 0.01, 0.3}}, {0.5, {0.1, 0.6, 0.7, 0.2}}, {1.3, {0.3, 0.02, 0.4, 0.99}}};
  const std::vector<BehindLooks> looks{{1, 0}, {0, 0}, {2, 1}, {0, 1}};
  std::vector<double> counted(4, 0);
  double all = 0;
  for (const BehindCase& one : cases)
    for (unsigned behind = 0; behind < 16; ++behind) {
      double chance = one.weight;
      for (unsigned p = 0; p < 4; ++p) {
        const bool is = (behind >> p & 1) != 0;
        chance *= is ? one.takes[p] : 1 - one.takes[p];
        for (int i = 0; i < looks[p].dead; ++i) chance *= is ? 0.99 : 0.01;
        for (int i = 0; i < looks[p].live; ++i) chance *= is ? 0.01 : 0.99;
      }
      all += chance;
      for (unsigned p = 0; p < 4; ++p) counted[p] += (behind >> p & 1) != 0 ? chance : 0;
    }
  const auto beliefs = behind_beliefs(cases, looks);
  for (std::size_t p = 0; p < 4; ++p) EXPECT_NEAR(beliefs[p], counted[p] / all, 1e-12);
}

TEST(BehindModel, hundreds_of_looks_leave_a_belief_that_is_a_number) {
  const auto beliefs = behind_beliefs(std::vector<BehindCase>{{1, {0.5, 0.5, 0.5}}}, std::vector<BehindLooks>{{900, 900}, {900, 0}, {0, 900}});
  EXPECT_THAT(beliefs, ElementsAre(0.5, 1, 0));
}

TEST(Behind, a_point_is_behind_when_it_was_dead_with_nothing_but_the_device_open_and_live_with_it_closed) {
  Bath made;
  EXPECT_EQ(made.standing(made.second), BehindStanding::open);
  made.see(made.second, Seen::dead, {made.gfci}), made.see(made.second, Seen::dead, {made.gfci});
  EXPECT_EQ(made.standing(made.second), BehindStanding::open) << "never seen live";
  made.see(made.second, Seen::live, {});
  EXPECT_EQ(made.standing(made.second), BehindStanding::behind);
  made.house.observations.back().withdrawn = true;
  EXPECT_EQ(made.standing(made.second), BehindStanding::open);
}

TEST(Behind, dead_for_another_reason_counts_nothing) {
  Bath made;
  for (int i = 0; i < 3; ++i) made.see(made.second, Seen::dead, {made.gfci, HouseMaker::off(made.a)});
  made.see(made.second, Seen::live, {});
  EXPECT_EQ(find_behind(made.house, made.gfci)[made.second].dead, 0) << "a breaker was off as well";
  for (int i = 0; i < 3; ++i) made.see(made.light, Seen::dead, {made.gfci});
  made.see(made.light, Seen::dead, {});
  EXPECT_EQ(find_behind(made.house, made.gfci)[made.light].dead, 0) << "a burnt bulb";
  made.house.settings.push_back({Id<Setting>::fresh(), kStaysOffPrefix + made.b.text(), "yes"});
  made.see(made.second, Seen::dead, {made.gfci, HouseMaker::off(made.b)});
  EXPECT_EQ(find_behind(made.house, made.gfci)[made.second].dead, 1) << "that breaker is off all the time";
}

TEST(Behind, live_with_it_open_is_not_behind_whatever_else_was_open) {
  Bath made;
  made.see(made.far, Seen::live, {made.gfci, HouseMaker::off(made.b)});
  made.see(made.far, Seen::live, {made.gfci});
  EXPECT_EQ(made.standing(made.far), BehindStanding::not_behind);
  made.see(made.second, Seen::dead, {made.gfci}), made.see(made.second, Seen::live, {made.gfci});
  EXPECT_EQ(made.standing(made.second), BehindStanding::disputed);
}

TEST(Behind, one_point_found_makes_its_neighbour_likelier_and_one_on_another_breaker_less_likely) {
  Bath made;
  const auto before = find_behind(made.house, made.gfci);
  made.see(made.second, Seen::dead, {made.gfci});
  EXPECT_GT(find_behind(made.house, made.gfci)[made.far].belief, before[made.far].belief);
  for (int i = 0; i < 2; ++i) made.see(made.own, Seen::dead, {HouseMaker::off(made.a)}), made.see(made.far, Seen::dead, {HouseMaker::off(made.b)});
  EXPECT_LT(find_behind(made.house, made.gfci)[made.far].belief, 0.02) << "the GFCI is on one breaker, this receptacle on the other";
}

TEST(Behind, dead_with_a_device_open_by_accident_is_blamed_on_no_breaker) {
  Bath made;
  made.house.handles.push_back({Id<Handle>::fresh(), made.house.devices[0].id, made.hall, {}, "second"});  // now a pair of switches
  made.house.devices[0].kind = DeviceKind::wall_switch, made.house.devices[0].at_point = {};
  TransferDevice transfer;
  transfer.id = Id<TransferDevice>::fresh();
  Position position;
  position.id = Id<Position>::fresh(), position.device = transfer.id;
  made.house.transfer_devices.push_back(transfer), made.house.positions.push_back(position);
  for (const HandleRef& open : {HandleRef{HandleKind::device, made.house.handles[1].id.value}, HandleRef{HandleKind::position, position.id.value}}) {
    HouseMaker looked = made;
    for (int i = 0; i < 3; ++i) looked.see(made.light, Seen::dead, {open, HouseMaker::off(made.a)});
    EXPECT_EQ(conclude(looked.house).of_point[made.light].standing, Standing::open);
  }
  made.house.positions[0].breaker = made.b;  // it is recorded now: dead with it off points to that breaker
  for (int i = 0; i < 2; ++i) made.see(made.light, Seen::dead, {{HandleKind::position, position.id.value}});
  EXPECT_EQ(conclude(made.house).of_point[made.light].standing, Standing::likely);
}

TEST(Behind, of_a_feeder_and_a_position_the_feeds_say_what_they_take_down_and_looks_say_more) {
  Bath made;
  made.house.panels.push_back({Id<Panel>::fresh(), "Subpanel", made.hall, 4, Numbering::single_column, Supply::breaker, made.b, {}, 0});
  Breaker in_sub = made.house.breakers[0];
  in_sub.id = Id<Breaker>::fresh(), in_sub.panel = made.house.panels[1].id, in_sub.space = 1;
  made.house.breakers.push_back(in_sub);
  for (int i = 0; i < 2; ++i) made.see(made.light, Seen::dead, {HouseMaker::off(in_sub.id)}), made.see(made.far, Seen::dead, {HouseMaker::off(made.a)});
  const HandleRef feeder = HouseMaker::off(made.b);
  EXPECT_GT(find_behind(made.house, feeder)[made.light].belief, 0.9);
  EXPECT_LT(find_behind(made.house, feeder)[made.far].belief, 0.1);
  made.see(made.light, Seen::dead, {feeder}), made.see(made.light, Seen::live, {}), made.see(made.far, Seen::live, {feeder});
  EXPECT_EQ(find_behind(made.house, feeder)[made.light].standing, BehindStanding::behind);
  EXPECT_EQ(find_behind(made.house, feeder)[made.far].standing, BehindStanding::not_behind);
  TransferDevice transfer;
  transfer.id = Id<TransferDevice>::fresh();
  Position position;
  position.id = Id<Position>::fresh(), position.device = transfer.id, position.breaker = in_sub.id;
  made.house.transfer_devices.push_back(transfer), made.house.positions.push_back(position);
  EXPECT_GT(find_behind(made.house, {HandleKind::position, position.id.value})[made.light].belief, 0.9);
}

TEST(Behind, only_what_may_be_opened_is_asked_about) {
  Bath made;
  made.house.breakers[0].open_rule = OpenRule::never;
  const House before = made.house;
  EXPECT_THROW(ask_behind(made.house, HouseMaker::off(made.a)), Error);
  EXPECT_THROW(ask_behind(made.house, {HandleKind::device, 1}), Error);
  EXPECT_THROW(ask_behind(made.house, {HandleKind::position_breaker, 1}), Error);
  EXPECT_EQ(made.house, before);
  ask_behind(made.house, made.gfci);
  EXPECT_EQ(asked_behind(made.house), made.gfci);
  ask_behind(made.house, {});
  EXPECT_EQ(made.house, before);
}

/// Sessions of the bath.
struct BehindSession : ::testing::Test {
  Bath made;
  TraceSession start() {
    ask_behind(made.house, made.gfci);
    return TraceSession(made.house);
  }
  /// Answers until a step of this kind, as the truth is: the second receptacle is behind, nothing else.
  void until(TraceSession& session, StepKind kind) {
    for (int i = 0; i < 50 && session.step().kind != kind && session.step().kind != StepKind::done; ++i) session.answer(answer(session));
    ASSERT_EQ(session.step().kind, kind);
  }
  [[nodiscard]] Answer answer(const TraceSession& session) const {
    const Step& step = session.step();
    if (step.kind != StepKind::look && step.kind != StepKind::ask_dead) return say(AnswerKind::done);
    const bool behind = step.point == made.house.points[made.own].id || step.point == made.house.points[made.second].id;
    return say(behind && !step.handles.empty() ? AnswerKind::dead : AnswerKind::live);
  }
};

TEST_F(BehindSession, goes_from_the_caution_to_the_test_button_the_looks_the_reset_and_the_looks_again) {
  TraceSession session = start();
  EXPECT_EQ(session.step().kind, StepKind::caution);
  session.answer(say(AnswerKind::done));
  ASSERT_EQ(session.step().kind, StepKind::open);
  EXPECT_THAT(step_text(session.house(), session.step()), HasSubstr("Press TEST on GFCI in Bath"));
  session.answer(say(AnswerKind::done));
  ASSERT_EQ(session.step().kind, StepKind::look);
  EXPECT_EQ(session.step().handles, std::vector{made.gfci});
  until(session, StepKind::close);
  EXPECT_THAT(step_text(session.house(), session.step()), HasSubstr("Press RESET"));
  session.answer(say(AnswerKind::done));
  ASSERT_EQ(session.step().kind, StepKind::look);
  EXPECT_EQ(session.step().reason, StepReason::live_when_closed);
  until(session, StepKind::done);
  const std::string summary = summary_text(session.house(), session.conclusions());
  EXPECT_THAT(summary, HasSubstr("Behind GFCI in Bath (dead with it off, live with it on):\n- Bath, receptacle 1\n- Bath, receptacle 2\n"));
  EXPECT_THAT(summary, HasSubstr("Not behind it (live with it off):\n- Bath, light\n- Hall, receptacle 1\n"));
  EXPECT_EQ(session.progress().minutes_left, 0);
  EXPECT_TRUE(problems_of(session.house()).empty());
}

TEST_F(BehindSession, every_answer_can_be_taken_back_and_every_interruption_gone_on_from) {
  TraceSession session = start();
  for (int i = 0; i < 50 && session.step().kind != StepKind::done; ++i) {
    const Step step = session.step();
    session.answer(answer(session));
    EXPECT_EQ(TraceSession(session.house()).step(), session.step()) << "read again from its rows";
    const Step next = session.step();
    ASSERT_TRUE(session.undo());
    EXPECT_EQ(session.step(), step);
    session.answer(answer(session));
    EXPECT_EQ(session.step(), next);
  }
  EXPECT_EQ(session.step().kind, StepKind::done);
  for (int i = 0; i < 100 && session.undo(); ++i) {}
  for (const BehindPoint& point : find_behind(session.house(), made.gfci)) EXPECT_NE(point.standing, BehindStanding::behind);
}

TEST_F(BehindSession, what_was_left_open_is_closed_before_anything_else) {
  TraceSession session = start();
  until(session, StepKind::look);
  House left = session.house();
  ask_behind(left, {});
  TraceSession breakers(left);
  EXPECT_EQ(breakers.step().kind, StepKind::close);
  EXPECT_THAT(step_text(left, breakers.step()), HasSubstr("Press RESET"));
  House other = made.house;
  other.rounds.push_back({Id<Round>::fresh(), RoundKind::trace, "2026-03-01T08:00:00Z", "", false});
  other.opened.push_back({Id<Opened>::fresh(), other.rounds.back().id, HouseMaker::off(made.a)});
  ask_behind(other, made.gfci);
  EXPECT_EQ(TraceSession(other).step().kind, StepKind::close);
  EXPECT_EQ(TraceSession(other).step().handles, std::vector{HouseMaker::off(made.a)});
}

TEST_F(BehindSession, a_device_that_may_not_be_moved_ends_it_and_one_that_does_not_reset_is_named) {
  TraceSession skipped = start();
  until(skipped, StepKind::open);
  skipped.answer(say(AnswerKind::skip));
  EXPECT_EQ(skipped.step().kind, StepKind::done);
  EXPECT_THAT(summary_text(skipped.house(), skipped.conclusions()), HasSubstr("skipped"));
  TraceSession stuck = start();
  until(stuck, StepKind::close);
  stuck.answer(say(AnswerKind::skip));
  EXPECT_THAT(summary_text(stuck.house(), stuck.conclusions()), HasSubstr("did not go on again"));
  ASSERT_TRUE(stuck.undo());
  EXPECT_EQ(stuck.step().kind, StepKind::close);
}

TEST_F(BehindSession, a_load_that_keeps_somebody_alive_is_named_looked_at_first_and_put_back_at_once) {
  Load oxygen;
  oxygen.id = Id<Load>::fresh(), oxygen.point = made.house.points[made.second].id, oxygen.name = "oxygen";
  oxygen.importance = Importance::life_safety, oxygen.hurt_by_power_loss = true;
  made.house.loads.push_back(oxygen);
  TraceSession session = start();
  session.answer(say(AnswerKind::done));
  ASSERT_EQ(session.step().reason, StepReason::load_at_risk);
  EXPECT_THAT(step_text(session.house(), session.step()), HasSubstr("oxygen"));
  until(session, StepKind::open);
  EXPECT_TRUE(session.step().briefly);
  session.answer(say(AnswerKind::done));
  ASSERT_EQ(session.step().point, oxygen.point);
  session.answer(say(AnswerKind::dead));
  EXPECT_EQ(session.step().kind, StepKind::close);
  EXPECT_EQ(session.step().reason, StepReason::load_is_off);
}

TEST_F(BehindSession, a_point_that_is_dead_with_nothing_off_is_asked_about_first) {
  made.see(made.second, Seen::dead, {});
  TraceSession session = start();
  ASSERT_EQ(session.step().kind, StepKind::ask_dead);
  EXPECT_EQ(session.step().point, made.house.points[made.second].id);
  for (int i = 0; i < 5 && session.step().kind == StepKind::ask_dead; ++i) session.answer(say(AnswerKind::dead));
  EXPECT_EQ(session.step().kind, StepKind::caution);
}

struct Sum {
  int runs = 0, found = 0, missed = 0, wrong = 0, looks = 0, unfinished = 0;
  double seconds = 0;
  void add(const BehindRun& run) {
    ++runs, found += run.found, missed += run.missed, wrong += run.wrong, looks += run.looks, unfinished += run.finished ? 0 : 1;
    seconds += run.seconds;
  }
  void print(const char* what) const {
    std::printf("%-24s %3d devices: %5.2f minutes, %5.1f looks, %d found, %d missed, %d wrong\n", what, runs, seconds / 60 / runs,
                static_cast<double>(looks) / runs, found, missed, wrong);
  }
};

/// Sums over the devices of ten houses: guided, and every point looked at.
std::pair<Sum, Sum> run_houses(bool traced, double error, DeviceKind kind) {
  Sum guided, everywhere;
  for (unsigned seed = 5000; seed < 5010; ++seed) {
    const DeviceWorld world = make_device_world(seed, traced);
    for (std::size_t d = 0; d < world.devices.size(); ++d) {
      if (world.made.house.devices[d].kind != kind) continue;
      guided.add(run_behind(world, d, error, seed));
      everywhere.add(walk_everywhere(world, d, error, seed));
    }
  }
  std::printf("%s, %s, %.0f %% errors\n", std::string(text_of(kind)).c_str(), traced ? "breakers traced before" : "nothing traced before", error * 100);
  guided.print("  guided"), everywhere.print("  every point looked at");
  return {guided, everywhere};
}

TEST(BehindInvented, without_errors_nothing_is_wrong_and_next_to_nothing_is_missed) {
  for (const bool traced : {true, false})
    for (const DeviceKind kind : {DeviceKind::gfci_receptacle, DeviceKind::wall_switch}) {
      const auto [guided, everywhere] = run_houses(traced, 0, kind);
      EXPECT_GT(guided.runs, 20);
      EXPECT_EQ(guided.unfinished, 0);
      EXPECT_EQ(guided.wrong, 0);
      EXPECT_GE(guided.found, 0.9 * (guided.found + guided.missed));
      EXPECT_LT(guided.seconds, 0.5 * everywhere.seconds);
    }
}

TEST(BehindInvented, one_reading_in_a_hundred_wrong_leaves_few_points_wrong) {
  for (const bool traced : {true, false})
    for (const DeviceKind kind : {DeviceKind::gfci_receptacle, DeviceKind::wall_switch}) {
      const auto [guided, everywhere] = run_houses(traced, 0.01, kind);
      EXPECT_EQ(guided.unfinished, 0);
      EXPECT_LE(guided.wrong, 0.03 * (guided.found + guided.missed) + 1);
      EXPECT_LT(guided.wrong, everywhere.wrong);
      EXPECT_GE(guided.found, 0.9 * (guided.found + guided.missed));
    }
}

}  // namespace
}  // namespace ohmstead::test
