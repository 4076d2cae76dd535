// Proving sessions in houses that are wired right, and in houses that are not.

#include "backup/proving.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cstdio>
#include <functional>
#include <map>
#include <optional>

#include "backup/proof_report.h"
#include "backup/proof_start.h"
#include "house/index.h"
#include "house/invariants.h"
#include "proving_world.h"

namespace ohmstead {
namespace {

using ::testing::ElementsAre;
using ::testing::Not;
using test::prove_to_the_end;
using test::Prover;
using test::ProvingWorld;
using test::random_world;

constexpr unsigned kHouses = 300;

ProvingSession session_of(const ProvingWorld& world) { return {world.house, declared_feeds(world.house), world.source}; }
ProofReport report_of(const ProvingSession& session, const ProvingWorld& world) { return proved(session.house(), declared_feeds(world.house), world.source); }

/// Is there a circuit that no position carries on every leg that is carried? Else nothing tells whether the source reaches the panel.
bool panel_can_be_seen(const ProvingSession& session) {
  unsigned wanted = 0, seen = 0;
  for (const ProofLine& line : session.wiring().lines)
    if (line.unit >= 0) wanted |= line.legs;
  for (const std::size_t l : session.wiring().panel_lines) seen |= session.wiring().lines[l].legs;
  return (wanted & ~seen) == 0;
}

TEST(Proving, a_house_that_is_wired_right_is_proved_with_the_planned_looks_and_no_more) {
  int looks = 0, moves = 0, units = 0;
  for (unsigned seed = 1; seed <= kHouses; ++seed) {
    const ProvingWorld world = random_world(seed);
    ProvingSession session = session_of(world);
    Prover prover(world);
    const ProofProgress before = session.progress();
    ASSERT_TRUE(prove_to_the_end(session, prover)) << seed;
    EXPECT_EQ(prover.looks, before.looks_left) << seed;
    EXPECT_EQ(prover.moves, before.moves_left) << seed;
    EXPECT_EQ(prover.unlawful, 0) << seed;
    EXPECT_TRUE(session.now().utility && !session.now().running && session.now().all_on_utility());
    const ProofReport report = report_of(session, world);
    EXPECT_EQ(report.nothing_fed_from_two, panel_can_be_seen(session)) << seed;
    for (const UnitProof& unit : report.units) EXPECT_EQ(unit.result, report.nothing_fed_from_two ? ProofResult::proved : ProofResult::not_yet) << seed;
    EXPECT_TRUE(problems_of(session.house()).empty());
    looks += prover.looks, moves += prover.moves, units += static_cast<int>(report.units.size());
  }
  std::printf("%u houses wired right: %.1f units, %.1f looks and %.1f moves a house\n", kHouses, 1.0 * units / kHouses, 1.0 * looks / kHouses, 1.0 * moves / kHouses);
}

/// One wiring fault in a house that is right otherwise, and what must be said of it.
struct Fault {
  std::string name;
  std::vector<std::size_t> units;     ///< that are wrong
  std::vector<ProofFault> faults;     ///< one for each of them
  Id<Breaker> carries;                ///< other_circuit: what it carries
  bool panel_live = false;
};

/// Wires a fault into the world; nothing if this house has no place for it.
class Miswiring {
 public:
  Miswiring(ProvingWorld& world, const ProvingSession& session, unsigned seed) : world_(world), wiring_(session.wiring()), random_(seed) {}

  std::optional<Fault> swap() {
    const std::size_t a = any_unit(), b = any_unit();
    if (a == b || positions(a).size() != positions(b).size()) return std::nullopt;
    for (std::size_t i = 0; i < positions(a).size(); ++i) {
      Wired &one = wires(a)[i].get(), &other = wires(b)[i].get();
      std::swap(one.breaker, other.breaker), std::swap(one.pole, other.pole);
    }
    return Fault{"exchanged", {a, b}, {ProofFault::exchanged, ProofFault::exchanged}};
  }
  std::optional<Fault> other_circuit() {
    const std::size_t a = any_unit();
    for (const std::size_t l : shuffled_lines()) {
      const ProofLine& line = wiring_.lines[l];
      const auto breaker = static_cast<std::size_t>(std::ranges::find(world_.house.breakers, line.breaker, &Breaker::id) - world_.house.breakers.begin());
      if (line.unit >= 0 || world_.house.breakers[breaker].poles != static_cast<int>(positions(a).size())) continue;
      int pole = 1;
      for (auto& wired : wires(a)) wired.get().breaker = static_cast<int>(breaker), wired.get().pole = pole++;
      return Fault{"other circuit", {a}, {ProofFault::other_circuit}, line.breaker};
    }
    return std::nullopt;
  }
  std::optional<Fault> nothing() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().breaker = -1;
    return Fault{"nothing", {a}, {ProofFault::carries_nothing}};
  }
  std::optional<Fault> utility_only() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().backup_side = false;
    return Fault{"utility side only", {a}, {ProofFault::utility_side_only}};
  }
  std::optional<Fault> backup_only() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().utility_side = false;
    return Fault{"backup side only", {a}, {ProofFault::backup_side_only}};
  }
  std::optional<Fault> dead() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().utility_side = wired.get().backup_side = false;
    return Fault{"dead both ways", {a}, {ProofFault::dead_both_ways}};
  }
  std::optional<Fault> parallel() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().parallel = true;
    return Fault{"parallel", {a}, {ProofFault::fed_another_way}};
  }
  std::optional<Fault> turned_round() {
    const std::size_t a = any_unit();
    for (auto& wired : wires(a)) wired.get().turned_round = true;
    return Fault{"turned round", {a}, {ProofFault::turned_round}, {}, true};
  }
  std::optional<Fault> one_leg() {
    const std::size_t a = any_unit();
    const auto& lines = wiring_.units[a].lines;
    if (positions(a).size() != 2 || lines.size() != 3) return std::nullopt;  // what needs both, and one point on each
    for (auto& wired : wires(a)) wired.get().leg = 1;
    return Fault{"one leg", {a}, {ProofFault::one_leg}};
  }
  std::optional<Fault> half_dead() {
    const std::size_t a = any_unit();
    if (positions(a).size() != 2 || wiring_.units[a].lines.size() != 3) return std::nullopt;
    wires(a)[1].get().backup_side = false;
    return Fault{"half dead", {a}, {ProofFault::half_dead}};
  }

 private:
  using Wired = test::Wired;
  std::size_t any_unit() { return random_() % wiring_.units.size(); }
  const std::vector<std::size_t>& positions(std::size_t unit) { return wiring_.units[unit].positions; }
  std::vector<std::reference_wrapper<Wired>> wires(std::size_t unit) {
    std::vector<std::reference_wrapper<Wired>> found;
    for (const std::size_t p : positions(unit)) found.emplace_back(world_.wires[p]);
    return found;
  }
  std::vector<std::size_t> shuffled_lines() {
    std::vector<std::size_t> lines(wiring_.lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) lines[i] = i;
    std::ranges::shuffle(lines, random_);
    return lines;
  }
  ProvingWorld& world_;
  const ProofWiring& wiring_;
  std::mt19937 random_;
};

using MakeFault = std::optional<Fault> (Miswiring::*)();
constexpr MakeFault kFaults[] = {&Miswiring::swap, &Miswiring::other_circuit, &Miswiring::nothing, &Miswiring::utility_only, &Miswiring::backup_only,
                                 &Miswiring::dead, &Miswiring::parallel, &Miswiring::turned_round, &Miswiring::one_leg, &Miswiring::half_dead};

/// Does the report say this fault, and no other?
void expect_named(const ProofReport& report, const Fault& fault, const ProofWiring& wiring) {
  unsigned panel = 0, carried = 0;  // legs on which the panel can be seen; of the circuit that is wrong
  for (const std::size_t l : wiring.panel_lines) panel |= wiring.lines[l].legs;
  for (const std::size_t l : wiring.units[fault.units[0]].lines) carried |= wiring.lines[l].legs;
  const bool panel_seen = (panel & carried) != 0;
  for (std::size_t u = 0; u < report.units.size(); ++u) {
    const auto wrong = std::ranges::find(fault.units, u);
    const UnitProof& unit = report.units[u];
    if (wrong == fault.units.end()) {
      EXPECT_NE(unit.result, ProofResult::wrong) << "unit " << u << ' ' << text_of(unit.fault);
      continue;
    }
    ProofFault expected = fault.faults[static_cast<std::size_t>(wrong - fault.units.begin())];
    if (expected == ProofFault::turned_round && !panel_seen) expected = ProofFault::utility_side_only;
    EXPECT_EQ(text_of(unit.fault), text_of(expected));
    if (fault.carries) {
      EXPECT_THAT(unit.breakers, ElementsAre(fault.carries));
    }
    if (expected == ProofFault::exchanged) {
      EXPECT_EQ(unit.other, static_cast<int>(fault.units[0] == u ? fault.units[1] : fault.units[0]));
    }
  }
  EXPECT_FALSE(report.nothing_fed_from_two && fault.panel_live && panel_seen);
  EXPECT_EQ(!report.panel_live.empty(), fault.panel_live && panel_seen);  // else the source is never let into the panel
  EXPECT_TRUE(report.backfed.empty());
}

TEST(ProvingFaults, every_wiring_fault_is_found_and_named_and_nothing_else_is) {
  for (std::size_t f = 0; f < std::size(kFaults); ++f) {
    int made = 0, looks = 0;
    std::string name;
    for (unsigned seed = 1; seed <= kHouses; ++seed) {
      ProvingWorld world = random_world(seed);
      ProvingSession session = session_of(world);
      const auto fault = (Miswiring(world, session, seed).*kFaults[f])();
      if (!fault) continue;
      Prover prover(world);
      SCOPED_TRACE(fault->name + " in house " + std::to_string(seed));
      ASSERT_TRUE(prove_to_the_end(session, prover));
      EXPECT_EQ(prover.unlawful, 0);
      expect_named(report_of(session, world), *fault, session.wiring());
      EXPECT_TRUE(session.now().utility && !session.now().running && session.now().all_on_utility() && session.now().off.empty());
      ++made, looks += prover.looks, name = fault->name;
    }
    EXPECT_GT(made, 10) << f;
    std::printf("%s: %d houses, %.1f looks a house\n", name.c_str(), made, made == 0 ? 0.0 : 1.0 * looks / made);
  }
}

TEST(ProvingErrors, one_wrong_reading_in_a_hundred_gives_no_false_alarm_in_a_house_that_is_wired_right) {
  int sessions = 0, units = 0, proved_units = 0, looks = 0, alarms = 0;
  for (unsigned seed = 1; seed <= kHouses; ++seed) {
    const ProvingWorld world = random_world(seed);
    for (unsigned people = 1; people <= 4; ++people) {
      ProvingSession session = session_of(world);
      Prover prover(world, 0.01, 1000 * seed + people);
      ASSERT_TRUE(prove_to_the_end(session, prover)) << seed;
      const ProofReport report = report_of(session, world);
      EXPECT_EQ(prover.unlawful, 0);
      alarms += static_cast<int>(report.backfed.size() + report.panel_live.size());
      const bool can_be = panel_can_be_seen(session);
      for (const UnitProof& unit : report.units) {
        alarms += unit.result == ProofResult::wrong;
        if (!can_be) continue;
        ++units, proved_units += unit.result == ProofResult::proved;
      }
      ++sessions, looks += prover.looks;
    }
  }
  EXPECT_EQ(alarms, 0);
  EXPECT_EQ(proved_units, units);
  std::printf("%d sessions with 1 %% wrong readings: %d of %d units proved, %d false alarms, %.1f looks a session\n", sessions, proved_units, units, alarms, 1.0 * looks / sessions);
}

TEST(ProvingErrors, faults_are_still_found_when_one_reading_in_a_hundred_is_wrong) {
  int made = 0, found = 0;
  for (std::size_t f = 0; f < std::size(kFaults); ++f)
    for (unsigned seed = 1; seed <= kHouses / 3; ++seed) {
      ProvingWorld world = random_world(seed);
      ProvingSession session = session_of(world);
      const auto fault = (Miswiring(world, session, seed).*kFaults[f])();
      if (!fault) continue;
      Prover prover(world, 0.01, seed);
      ASSERT_TRUE(prove_to_the_end(session, prover)) << fault->name << seed;
      const ProofReport report = report_of(session, world);
      ++made, found += std::ranges::all_of(fault->units, [&](std::size_t u) { return report.units[u].result == ProofResult::wrong; });
    }
  std::printf("%d wiring faults with 1 %% wrong readings: %d found\n", made, found);
  EXPECT_GE(found, made * 97 / 100);
}

/// Every answer of a session, taken back and given again, and the session begun anew from the record after each.
void expect_the_same_after_undo_and_pause(const ProvingWorld& world, Prover& prover) {
  ProvingSession session = session_of(world);
  for (int i = 0; i < 2000 && session.step().kind != ProofStepKind::done; ++i) {
    const ProofStep before = session.step();
    const ProofState stood = session.now();
    const ProofAnswer answer = prover.answer(session);
    session.answer(answer);
    ASSERT_TRUE(session.undo());
    ASSERT_EQ(session.step(), before) << text_of(before.kind) << " taken back";
    ASSERT_EQ(session.now(), stood);
    session.answer(answer);
    const ProvingSession resumed(session.house(), declared_feeds(world.house), world.source);
    ASSERT_EQ(resumed.step(), session.step()) << text_of(before.kind);
    ASSERT_EQ(resumed.now(), session.now());
    ASSERT_TRUE(problems_of(session.house()).empty());
  }
  ASSERT_EQ(session.step().kind, ProofStepKind::done);
}

TEST(ProvingUndo, an_answer_taken_back_or_a_pause_changes_no_step) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    ProvingWorld world = random_world(seed);
    if (seed % 2 == 0) (void)(Miswiring(world, session_of(world), seed).*kFaults[seed / 2 % std::size(kFaults)])();
    Prover prover(world, seed % 3 == 0 ? 0.05 : 0, seed);
    SCOPED_TRACE(seed);
    expect_the_same_after_undo_and_pause(world, prover);
  }
}

TEST(ProvingUndo, all_answers_can_be_taken_back_after_a_pause_but_for_cautions) {
  const ProvingWorld world = random_world(5);
  ProvingSession session = session_of(world);
  Prover prover(world);
  ASSERT_TRUE(prove_to_the_end(session, prover));
  ProvingSession resumed(session.house(), declared_feeds(world.house), world.source);
  int taken = 0;
  while (resumed.undo()) ++taken;
  EXPECT_EQ(taken, prover.looks + prover.moves);
  EXPECT_EQ(resumed.now(), (ProofState{.units = resumed.now().units}));
  EXPECT_TRUE(problems_of(resumed.house()).empty());
  ASSERT_TRUE(prove_to_the_end(resumed, prover));
  EXPECT_EQ(report_of(resumed, world).units[0].result, report_of(session, world).units[0].result);
}

/// A house of this many rooms in which unit 0 keeps somebody alive.
ProvingWorld world_with_oxygen(unsigned seed) {
  ProvingWorld world = random_world(seed);
  const ProvingSession session = session_of(world);
  Load load{.id = Id<Load>::fresh(), .point = world.house.points[session.wiring().lines[session.wiring().units[0].lines[0]].points[0]].id, .name = "oxygen"};
  load.hurt_by_power_loss = true, load.importance = Importance::life_safety;
  world.house.loads.push_back(load);
  return world;
}

TEST(ProvingCare, what_keeps_somebody_alive_is_warned_of_off_alone_and_put_back_in_time) {
  const ProvingWorld world = world_with_oxygen(3);
  ProvingSession session = session_of(world);
  Prover prover(world);
  bool warned = false, warned_of_main = false, off_once = false;
  for (int i = 0; i < 500 && session.step().kind != ProofStepKind::done; ++i) {
    const ProofStep step = session.step();
    if (step.kind == ProofStepKind::caution && step.reason == ProofReason::load_at_risk) (step.caution == "main" ? warned_of_main : warned) = true;
    EXPECT_TRUE(step.kind != ProofStepKind::to_source || warned_of_main);
    session.answer(prover.answer(session));
    if (step.kind != ProofStepKind::move || step.after.units[0] != kOff) continue;
    off_once = true;
    EXPECT_TRUE(warned);
    EXPECT_TRUE(step.briefly);
    EXPECT_EQ(std::ranges::count(step.after.units, kOff), 1);
    const std::string since = session.house().rounds.back().at;
    ProvingSession late(session.house(), declared_feeds(world.house), world.source);
    late.now_is(since);
    EXPECT_EQ(late.step().kind, ProofStepKind::look);
    late.now_is(since.substr(0, 11) + "23:59:59Z");
    EXPECT_EQ(late.step().kind, ProofStepKind::move);
    EXPECT_EQ(late.step().reason, ProofReason::time_over);
    EXPECT_EQ(late.step().after.units[0], kUtilitySide);
  }
  EXPECT_TRUE(off_once && warned_of_main);
}

TEST(ProvingCare, a_breaker_that_may_never_be_off_is_not_put_off_by_its_position) {
  ProvingWorld world = random_world(3);
  const Id<Breaker> carried = world.house.positions[0].breaker;
  row(world.house, carried).open_rule = OpenRule::never;
  ProvingSession session = session_of(world);
  Prover prover(world);
  ASSERT_TRUE(prove_to_the_end(session, prover));
  EXPECT_EQ(prover.unlawful, 0);
  const UnitProof unit = report_of(session, world).units[0];
  EXPECT_EQ(unit.result, ProofResult::not_yet);
  EXPECT_THAT(unit.missing, ::testing::Contains(ProofMissing::may_not_be_off));
}

TEST(ProvingSkips, what_cannot_be_moved_is_left_out_and_a_source_that_is_not_started_leaves_backup_open) {
  const ProvingWorld world = random_world(4);
  ProvingSession session = session_of(world);
  Prover prover(world);
  bool skipped = false;
  for (int i = 0; i < 1000 && session.step().kind != ProofStepKind::done; ++i) {
    ProofAnswer answer = prover.answer(session);
    const bool off = session.step().kind == ProofStepKind::move && fits(session.step(), ProofAnswerKind::skip);
    if ((off && !skipped) || session.step().kind == ProofStepKind::start_source) answer.kind = ProofAnswerKind::skip, skipped = skipped || off;
    session.answer(answer);
  }
  ASSERT_EQ(session.step().kind, ProofStepKind::done);
  const ProofReport report = report_of(session, world);
  int stuck = 0;
  for (const UnitProof& unit : report.units) {
    EXPECT_EQ(unit.result, ProofResult::not_yet);
    EXPECT_THAT(unit.missing, ::testing::Contains(ProofMissing::backup));
    stuck += std::ranges::count(unit.missing, ProofMissing::may_not_be_off) > 0;
  }
  EXPECT_EQ(stuck, 1);
  session.forget_skipped();
  ASSERT_TRUE(prove_to_the_end(session, prover));
  for (const UnitProof& unit : report_of(session, world).units) EXPECT_EQ(unit.result == ProofResult::proved, panel_can_be_seen(session));
}

TEST(ProvingSkips, not_sure_is_asked_again_and_nothing_is_asked_more_than_twice) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const ProvingWorld world = random_world(seed);
    ProvingSession session = session_of(world);
    Prover prover(world);
    std::map<Id<Point>, int> unsure;
    for (int i = 0; i < 1000 && session.step().kind != ProofStepKind::done; ++i) {
      ProofAnswer answer = prover.answer(session);
      if (session.step().kind == ProofStepKind::look && unsure.empty()) answer.kind = ProofAnswerKind::not_sure, ++unsure[session.step().point];
      session.answer(answer);
    }
    for (const UnitProof& unit : report_of(session, world).units) EXPECT_EQ(unit.result == ProofResult::proved, panel_can_be_seen(session)) << seed;
    ProvingSession never = session_of(world);
    std::map<Id<Point>, int> asked;
    for (int i = 0; i < 1000 && never.step().kind != ProofStepKind::done; ++i) {
      ProofAnswer answer = prover.answer(never);
      if (never.step().kind == ProofStepKind::look) answer.kind = ProofAnswerKind::not_sure, ++asked[never.step().point];
      never.answer(answer);
    }
    EXPECT_EQ(never.step().kind, ProofStepKind::done);
    for (const auto& [point, times] : asked) EXPECT_LE(times, 2);
    for (const UnitProof& unit : report_of(never, world).units) EXPECT_EQ(unit.result, ProofResult::not_yet);
  }
}

TEST(ProvingAsFound, a_wrong_wiring_that_is_kept_is_recorded_and_then_proved_by_the_same_looks) {
  int kept = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    ProvingWorld world = random_world(seed);
    ProvingSession session = session_of(world);
    const auto fault = seed % 2 == 0 ? Miswiring(world, session, seed).swap() : Miswiring(world, session, seed).other_circuit();
    if (!fault || !panel_can_be_seen(session)) continue;
    Prover prover(world);
    ASSERT_TRUE(prove_to_the_end(session, prover));
    const auto next = recorded_as_found(session.house(), report_of(session, world));
    ASSERT_TRUE(next) << seed;
    for (std::size_t p = 0; p < world.wires.size(); ++p)
      EXPECT_EQ(next->positions[p].breaker, world.house.breakers[static_cast<std::size_t>(world.wires[p].breaker)].id) << seed;
    const ProofReport after = proved(*next, declared_feeds(*next), world.source);
    for (const UnitProof& unit : after.units) EXPECT_NE(unit.result, ProofResult::wrong) << seed << ' ' << text_of(unit.fault);
    ++kept;
  }
  EXPECT_GT(kept, 20);
  const ProvingWorld right = random_world(1);
  EXPECT_FALSE(recorded_as_found(right.house, report_of(session_of(right), right)));
}

TEST(ProvingRefuses, a_device_without_circuits_and_one_that_moves_by_itself) {
  ProvingWorld world = random_world(1);
  world.house.transfer_devices[0].automatic = true;
  EXPECT_THROW((void)session_of(world), Error);
  world.house.transfer_devices[0].automatic = false;
  (void)session_of(world);
  for (Position& position : world.house.positions) position.breaker = {};
  EXPECT_THROW((void)session_of(world), Error);
  world.house.breakers[0].backfed_from = world.source;
  try {
    (void)session_of(world);
    FAIL();
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), ::testing::HasSubstr("backfed breaker"));
  }
}

TEST(ProvingRefuses, an_answer_that_does_not_fit_changes_nothing) {
  const ProvingWorld world = random_world(2);
  ProvingSession session = session_of(world);
  const House before = session.house();
  EXPECT_THROW(session.answer({ProofAnswerKind::live}), Error);
  EXPECT_THROW(session.answer({ProofAnswerKind::done, Method::look, std::string(300, 'x')}), Error);
  EXPECT_EQ(session.house(), before);
}

}  // namespace
}  // namespace ohmstead
