// Diagnoses by hand in a small house whose wiring was declared.
#include "trace/diagnosis.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "house/error.h"
#include "house/index.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

constexpr const char* kWhen = "2026-03-01T08:00:00Z";

/// Kitchen on 1, hall on 3 and 4, the bath's GFCI with two more receptacles on 2; the shed is not traced.
House cottage() {
  House empty;
  empty.dwelling.id = {1};
  return enter_text(empty, "Kitchen: 2 receptacles, 1 light, dishwasher\nHall: 2 receptacles, 2 lights\nBath: gfci + 1 downstream, 1 light sw\nShed: 1 light\n"
                           "Panel Main in Hall 12 spaces, 100 A main: 1 20; 3 15; 4 15; 2 20; 5 15\nGenerator G 3600/4500 W 120/240\nTransfer T in Hall 2 positions from G: 1 20 <- Main 1; 2 15\nBy J.\n"
                           "Kitchen receptacle 1 <- Main 1\nKitchen receptacle 2 <- Main 1\nKitchen light <- Main 1\nKitchen dishwasher <- Main 5\n"
                           "Hall receptacle 1 <- Main 3\nHall light 1 <- Main 3\nHall receptacle 2 <- Main 4\nHall light 2 <- Main 4\nBath gfci <- Main 2\nBath light <- Main 3\n").house;
}

std::size_t place(const House& house, const std::string& room, const std::string& name) {
  for (std::size_t p = 0; p < house.points.size(); ++p)
    if (row(house, house.points[p].room).name == room && house.points[p].name == name) return p;
  ADD_FAILURE() << room << " " << name;
  return 0;
}
Id<Point> point(const House& house, const std::string& room, const std::string& name) { return house.points[place(house, room, name)].id; }
HandleRef breaker(const House& house, int space) { return {HandleKind::breaker, std::ranges::find(house.breakers, space, &Breaker::space)->id.value}; }

DiagnosisSession asks(const House& house, const std::vector<Id<Point>>& dead, Diagnosis diagnosis = {}) {
  diagnosis.id = Id<Diagnosis>::fresh(), diagnosis.at = kWhen;
  const House next = begin_diagnosis(house, diagnosis, {.dead = dead});
  return {next, open_diagnosis(next)};
}

/// How a house answers in which this handle tripped; a reset ends as said.
struct Tripped {
  HandleRef handle;
  std::vector<Id<Point>> dead;
  LookSaw cure = LookSaw::works;

  [[nodiscard]] LookSaw to(const DiagnosisStep& step) const {
    if (step.kind == DiagnosisStepKind::cure) return step.handle == handle ? cure : LookSaw::still_dead;
    if (step.what == LookAt::handle) return step.handle == handle ? LookSaw::tripped : LookSaw::on;
    if (step.what == LookAt::neighbors || step.what == LookAt::source) return LookSaw::yes;
    return std::ranges::find(dead, step.point) == dead.end() ? LookSaw::live : LookSaw::dead;
  }
};

void play(DiagnosisSession& session, const Tripped& truth) {
  for (int i = 0; i < 40 && session.step().kind != DiagnosisStepKind::done; ++i) session.answer({truth.to(session.step()), 0, kWhen});
}

Tripped kitchen_tripped(const House& house) {
  return {breaker(house, 1), {point(house, "Kitchen", "receptacle 1"), point(house, "Kitchen", "receptacle 2"), point(house, "Kitchen", "light")}};
}

TEST(Diagnosis, a_breaker_that_tripped_is_found_reset_and_kept) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")}, {.before = Before::appliance_started});
  EXPECT_EQ(session.step().kind, DiagnosisStepKind::look);
  play(session, kitchen_tripped(house));
  EXPECT_EQ(session.step().end, DiagnosisEnd::cured);
  EXPECT_LE(session.looks(), 6U);
  require_sound(session.house());
  ASSERT_EQ(session.house().trips.size(), 1U);
  EXPECT_EQ(session.house().trips[0].handle, breaker(house, 1));
  EXPECT_EQ(session.house().trips[0].cause, "something was switched on");
  EXPECT_TRUE(session.house().diagnoses[0].finished);
  EXPECT_EQ(session.house().diagnoses[0].came_to, "handle_open " + text_of_ref(breaker(house, 1)));
  EXPECT_TRUE(session.undo());
  EXPECT_TRUE(session.house().trips[0].withdrawn);
  EXPECT_EQ(session.step().kind, DiagnosisStepKind::cure);
  EXPECT_FALSE(session.house().diagnoses[0].finished);
}

TEST(Diagnosis, the_moves_of_a_cure_turn_on_just_what_is_off) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")});
  const Tripped truth = kitchen_tripped(house);
  while (session.step().kind == DiagnosisStepKind::look) session.answer({truth.to(session.step()), 0, kWhen});
  ASSERT_EQ(session.step().kind, DiagnosisStepKind::cure);
  EXPECT_THAT(session.step().moves, testing::ElementsAre(DiagnosisMove{breaker(house, 1), kOn}));
}

TEST(Diagnosis, what_trips_again_at_once_is_left_off) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")});
  Tripped truth = kitchen_tripped(house);
  truth.cure = LookSaw::trips_again;
  play(session, truth);
  EXPECT_EQ(session.step().end, DiagnosisEnd::trips_again);
  EXPECT_EQ(session.step().handle, breaker(house, 1));
  EXPECT_EQ(session.house().trips.size(), 1U);
}

TEST(Diagnosis, a_gfci_whose_button_is_out_is_found) {
  const House house = cottage();
  const HandleRef gfci{HandleKind::device, std::ranges::find_if(house.handles, [&](const Handle& h) { return row(house, h.device).kind == DeviceKind::gfci_receptacle; })->id.value};
  Tripped truth{gfci, {}};
  for (const Point& p : house.points)
    if (row(house, p.room).name == "Bath" && p.kind == PointKind::receptacle) truth.dead.push_back(p.id);
  ASSERT_EQ(truth.dead.size(), 2U);
  DiagnosisSession session = asks(house, {truth.dead.back()});
  play(session, truth);
  EXPECT_EQ(session.step().end, DiagnosisEnd::cured);
  EXPECT_EQ(session.causes()[0].cause.handle, gfci);
}

TEST(Diagnosis, a_bulb_that_burnt_out_is_told_from_all_that_feeds_it) {
  const House house = cottage();
  const Id<Point> light = point(house, "Hall", "light 1");
  DiagnosisSession session = asks(house, {light});
  for (int i = 0; i < 20 && session.step().kind == DiagnosisStepKind::look; ++i) {
    const DiagnosisStep& step = session.step();
    session.answer({step.what == LookAt::handle ? LookSaw::on : step.what == LookAt::neighbors ? LookSaw::yes : LookSaw::live, 0, kWhen});
  }
  EXPECT_EQ(session.step().end, DiagnosisEnd::told);
  EXPECT_EQ(session.causes()[0].cause.kind, CauseKind::itself);
  EXPECT_TRUE(session.house().trips.empty());
}

TEST(Diagnosis, bright_lights_come_before_every_other_look) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Hall", "light 1")});
  for (int i = 0; i < 20 && session.step().what != LookAt::point; ++i) session.answer({LookSaw::skip, 0, kWhen});
  ASSERT_EQ(session.step().what, LookAt::point);
  session.answer({LookSaw::bright, 0, kWhen});
  EXPECT_EQ(session.step().kind, DiagnosisStepKind::danger);
  const House kept = session.house();
  session.answer({LookSaw::done, 0, kWhen});
  EXPECT_EQ(session.step().end, DiagnosisEnd::danger);
  DiagnosisSession again(kept, open_diagnosis(kept));
  again.answer({LookSaw::skip, 0, kWhen});
  EXPECT_NE(again.step().kind, DiagnosisStepKind::danger);
  for (int i = 0; i < 20 && again.step().what != LookAt::point; ++i) again.answer({LookSaw::skip, 0, kWhen});
  again.answer({LookSaw::bright, 0, kWhen});
  EXPECT_EQ(again.step().kind, DiagnosisStepKind::danger) << "that the first was none says nothing of this one";
}

TEST(Diagnosis, without_a_complaint_that_stands_nothing_is_found) {
  const House house = cottage();
  House seen = asks(house, {point(house, "Kitchen", "light")}).house();
  seen.diagnosis_looks[0].withdrawn = true;
  seen.diagnosis_looks.push_back({Id<DiagnosisLook>::fresh(), seen.diagnoses[0].id, LookAt::point, point(house, "Hall", "light 1"), {}, {}, LookSaw::dead, 0, kWhen});
  seen.diagnosis_looks.push_back({Id<DiagnosisLook>::fresh(), seen.diagnoses[0].id, LookAt::handle, {}, breaker(house, 3), {}, LookSaw::tripped, 0, kWhen});
  EXPECT_EQ(DiagnosisSession(seen, seen.diagnoses[0].id).step().end, DiagnosisEnd::not_found);
}

TEST(Diagnosis, dim_and_bright_on_two_legs_are_an_open_neutral) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Hall", "light 1")}, {.before = Before::storm});
  House seen = session.house();
  const auto add = [&](const char* room, const char* name, LookSaw saw) {
    seen.diagnosis_looks.push_back({Id<DiagnosisLook>::fresh(), seen.diagnoses[0].id, LookAt::point, point(house, room, name), {}, {}, saw, 0, kWhen});
  };
  add("Kitchen", "light", LookSaw::bright), add("Hall", "light 2", LookSaw::dim), add("Kitchen", "receptacle 1", LookSaw::bright);
  const DiagnosisSession after(seen, seen.diagnoses[0].id);
  EXPECT_EQ(after.causes()[0].cause.kind, CauseKind::neutral_of_service);
  EXPECT_EQ(after.step().kind, DiagnosisStepKind::danger);
}

TEST(Diagnosis, an_open_neutral_of_a_multiwire_circuit_is_on_its_two_circuits_only) {
  House house = cottage();
  const Id<Circuit> first = Id<Circuit>::fresh();
  std::erase_if(house.circuits, [&](const Circuit& c) { return HandleRef{HandleKind::breaker, c.breaker.value} == breaker(house, 1) || HandleRef{HandleKind::breaker, c.breaker.value} == breaker(house, 3); });
  house.circuits.push_back({.id = first, .breaker = {breaker(house, 1).id}, .multiwire = first});
  house.circuits.push_back({.id = Id<Circuit>::fresh(), .breaker = {breaker(house, 3).id}, .multiwire = first});
  require_sound(house);
  House seen = asks(house, {point(house, "Hall", "light 1")}).house();
  const auto add = [&](const char* room, const char* name, LookSaw saw) {
    seen.diagnosis_looks.push_back({Id<DiagnosisLook>::fresh(), seen.diagnoses[0].id, LookAt::point, point(house, room, name), {}, {}, saw, 0, kWhen});
  };
  add("Kitchen", "light", LookSaw::bright), add("Hall", "receptacle 1", LookSaw::dim), add("Hall", "light 2", LookSaw::live), add("Hall", "receptacle 2", LookSaw::live), add("Kitchen", "dishwasher", LookSaw::live);
  const DiagnosisSession after(seen, seen.diagnoses[0].id);
  EXPECT_EQ(after.causes()[0].cause.kind, CauseKind::neutral_shared);
}

TEST(Diagnosis, it_goes_on_where_it_was_and_what_is_not_sure_is_not_asked_again) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")});
  const DiagnosisStep first = session.step();
  session.answer({LookSaw::not_sure, 0, kWhen});
  EXPECT_NE(session.step(), first);
  const DiagnosisSession resumed(session.house(), open_diagnosis(session.house()));
  EXPECT_EQ(resumed.step(), session.step());
  EXPECT_TRUE(session.undo());
  EXPECT_EQ(session.step(), first);
  EXPECT_FALSE(session.undo());
}

TEST(Diagnosis, an_answer_that_does_not_fit_records_nothing) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")});
  const House before = session.house();
  EXPECT_THROW(session.answer({LookSaw::trips_again, 0, kWhen}), Error);
  EXPECT_THROW(session.answer({LookSaw::live, 120, kWhen}), Error) << "nobody said that there is a meter";
  EXPECT_THROW(session.answer({LookSaw::skip, 0, std::string(300, 'x')}), Error);
  EXPECT_EQ(session.house(), before);
  EXPECT_THROW((void)begin_diagnosis(house, {}, {}), Error);
}

TEST(Diagnosis, what_is_not_traced_is_said_to_be_so) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Shed", "light")});
  play(session, {{}, {}});
  EXPECT_EQ(session.step().kind, DiagnosisStepKind::done);
  ASSERT_FALSE(session.causes().empty());
  EXPECT_EQ(session.causes()[0].cause.kind, CauseKind::not_recorded);
}

TEST(Diagnosis, what_the_source_does_not_carry_has_no_cause) {
  const House house = cottage();
  DiagnosisSession session = asks(house, {point(house, "Hall", "light 1")}, {.source = house.sources[0].id});
  EXPECT_EQ(session.step().end, DiagnosisEnd::not_found);
}

TEST(Diagnosis, on_the_source_it_may_have_stopped_or_the_position_may_stand_wrong) {
  const House house = cottage();
  const DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")}, {.before = Before::to_backup, .source = house.sources[0].id});
  std::vector<CauseKind> kinds;
  for (const RankedCause& cause : session.causes()) kinds.push_back(cause.cause.kind);
  EXPECT_THAT(kinds, testing::Contains(CauseKind::source_stopped));
  EXPECT_TRUE(std::ranges::any_of(session.causes(), [](const RankedCause& c) { return c.cause.handle.kind == HandleKind::position; }));
}

TEST(Diagnosis, trips_on_record_raise_a_breaker) {
  House house = cottage();
  const auto belief = [&] {
    const DiagnosisSession session = asks(house, {point(house, "Kitchen", "light")});
    return std::ranges::find_if(session.causes(), [&](const RankedCause& c) { return c.cause.kind == CauseKind::handle_open && c.cause.handle == breaker(house, 1); })->belief;
  };
  const double before = belief();
  house.trips.push_back({Id<Trip>::fresh(), breaker(house, 1), kWhen});
  EXPECT_GT(belief(), before * 1.2);
}

TEST(Diagnosis, two_faults_are_found_when_no_single_one_fits) {
  const House house = cottage();
  Tripped truth = kitchen_tripped(house);
  DiagnosisSession session = asks(house, {point(house, "Kitchen", "light"), point(house, "Hall", "light 2")});
  truth.dead.push_back(point(house, "Hall", "light 2")), truth.dead.push_back(point(house, "Hall", "receptacle 2"));
  const HandleRef other = breaker(house, 4);
  for (int i = 0; i < 40 && session.step().kind != DiagnosisStepKind::done; ++i) {
    LookSaw saw = truth.to(session.step());
    if (session.step().what == LookAt::handle && session.step().handle == other) saw = LookSaw::tripped;
    if (session.step().kind == DiagnosisStepKind::cure) saw = session.step().moves.size() == 2 ? LookSaw::works : LookSaw::still_dead;
    session.answer({saw, 0, kWhen});
  }
  EXPECT_EQ(session.causes()[0].cause.kind, CauseKind::two_faults);
}

TEST(Diagnosis, volts_at_a_receptacle) {
  for (const auto& [volts, means] : {std::pair{0, LookSaw::dead}, {19, LookSaw::dead}, {20, LookSaw::dim}, {107, LookSaw::dim}, {108, LookSaw::live}, {132, LookSaw::live}, {133, LookSaw::bright}, {218, LookSaw::bright}})
    EXPECT_EQ(meaning_of_volts(volts, 120), means) << volts;
  EXPECT_EQ(meaning_of_volts(230, 230), LookSaw::live);
}

}  // namespace
}  // namespace ohmstead
