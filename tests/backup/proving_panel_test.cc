// Proving sessions where the source comes onto the panel as a whole: a backfed breaker with an interlock, or a whole-house switch.

#include <gmock/gmock.h>

#include <algorithm>
#include <bit>
#include <cstdio>
#include <functional>
#include <optional>

#include "backup/proof_report.h"
#include "backup/proof_start.h"
#include "house/index.h"
#include "house/invariants.h"
#include "proving_panel_world.h"
#include "survey/entry.h"
#include "tests/support/proving_played.h"

namespace ohmstead {
namespace {

using test::PanelProver;
using test::PanelWorld;
using test::prove_to_the_end;
using test::random_panel_world;

constexpr unsigned kHouses = 300;

ProvingSession session_of(const PanelWorld& world) { return {world.house, declared_feeds(world.house), world.source}; }
PanelProof proof_of(const ProvingSession& session, const PanelWorld& world) { return *proved(session.house(), declared_feeds(world.house), world.source).panel; }

bool is_ordinary(const ProvingSession& session) { return session.now() == ProofState{.units = {}, .off = {}}; }

TEST(ProvingPanel, a_panel_that_is_wired_right_is_proved_with_the_planned_looks_and_no_more) {
  int looks = 0, moves = 0, kept = 0, whole = 0;
  for (unsigned seed = 1; seed <= kHouses; ++seed) {
    const PanelWorld world = random_panel_world(seed);
    ASSERT_TRUE(problems_of(world.house).empty()) << seed << problems_of(world.house)[0].message;
    ProvingSession session = session_of(world);
    PanelProver prover(world);
    const ProofProgress before = session.progress();
    ASSERT_TRUE(prove_to_the_end(session, prover)) << seed;
    EXPECT_EQ(prover.looks, before.looks_left) << seed;
    EXPECT_EQ(prover.moves, before.moves_left) << seed;
    EXPECT_EQ(prover.unlawful, 0) << seed;
    EXPECT_TRUE(is_ordinary(session)) << seed;
    const PanelProof proof = proof_of(session, world);
    EXPECT_EQ(proof.result, ProofResult::proved) << seed;
    EXPECT_TRUE(proved(session.house(), declared_feeds(world.house), world.source).nothing_fed_from_two);
    for (const CircuitProof& one : proof.circuits) EXPECT_EQ(one.result, ProofResult::proved) << seed;
    EXPECT_TRUE(problems_of(session.house()).empty());
    looks += prover.looks, moves += prover.moves, whole += world.whole_house;
    kept += static_cast<int>(std::ranges::count(proof.circuits, true, &CircuitProof::kept));
  }
  std::printf("%u panels wired right (%d with a whole-house switch): %.1f circuits kept, %.1f looks and %.1f moves a house\n", kHouses, whole, 1.0 * kept / kHouses, 1.0 * looks / kHouses,
              1.0 * moves / kHouses);
}

/// One fault in a house that is right otherwise, and what must be said of it.
struct Fault {
  std::string name;
  std::function<bool(const PanelProof&)> is_named;
  std::optional<Id<Breaker>> circuit = {};  ///< the one circuit that may be called wrong; none: any may be, as a consequence
  bool others_right = false;                ///< no circuit may be called wrong but this one
};

CircuitFault fault_at(const PanelProof& proof, Id<Breaker> breaker) {
  const auto found = std::ranges::find(proof.circuits, breaker, &CircuitProof::breaker);
  return found == proof.circuits.end() ? CircuitFault::none : found->fault;
}

class Planter {
 public:
  Planter(PanelWorld& world, const ProofWiring& wiring, unsigned seed) : world_(world), wiring_(wiring), random_(seed) {}

  std::optional<Fault> way_goes_on() {
    if (world_.whole_house) return std::nullopt;
    world_.way_blocked = false;
    return Fault{"backfed breaker goes on beside the main", [](const PanelProof& proof) { return is_not_blocked(proof, true) && proof.danger(); }, {}, true};
  }
  std::optional<Fault> main_goes_on() {
    if (world_.whole_house) return std::nullopt;
    world_.main_blocked = false;
    return Fault{"main goes on beside the backfed breaker", [](const PanelProof& proof) { return is_not_blocked(proof, false) && proof.danger(); }, {}, true};
  }
  std::optional<Fault> one_leg() {
    const int leg = static_cast<int>(random_() % 2);
    if (!tells_of(leg)) return std::nullopt;
    world_.source_leg[leg] = 0;
    return Fault{"one leg dead", [](const PanelProof& proof) { return proof.fault == PanelFault::one_leg_dead && !proof.which.empty(); }};
  }
  std::optional<Fault> nothing() {
    if (!tells_of(0) || !tells_of(1)) return std::nullopt;
    world_.source_leg[0] = world_.source_leg[1] = 0;
    return Fault{"source gives nothing", [](const PanelProof& proof) { return proof.fault == PanelFault::nothing_live; }};
  }
  std::optional<Fault> same_legs() {
    int both = 0;
    for (const ProofLine& line : wiring_.lines) both += line.kept && std::popcount(line.legs) == 2;
    if (both < 2 || kept_single(0) == 0 || kept_single(1) == 0) return std::nullopt;
    world_.source_leg[1] = 1;
    return Fault{"both legs are one", [](const PanelProof& proof) { return proof.fault == PanelFault::legs_same; }};
  }
  std::optional<Fault> parallel_to_the_street() {
    const int b = any(true, 1);
    if (b < 0) return std::nullopt;
    world_.from_street = {b};
    return circuit_fault("kept circuit joined to the street", b, CircuitFault::from_street);
  }
  std::optional<Fault> rest_parallel_to_the_street() {
    const int b = any(false, 1);
    if (b < 0 || kept_single(world_.leg_of(b, 1)) == 0) return std::nullopt;
    world_.from_street = {b};
    return circuit_fault("other circuit joined to the street", b, CircuitFault::from_street);
  }
  std::optional<Fault> kept_on_the_street() {
    const int b = any(true, 1);
    if (b < 0) return std::nullopt;
    world_.from_street = {b}, world_.really_on[static_cast<std::size_t>(b)] = -1;
    return circuit_fault("kept circuit not on the panel", b, CircuitFault::from_street);
  }
  std::optional<Fault> rest_on_the_street() {
    const int b = any(false, 1);
    if (b < 0) return std::nullopt;
    world_.from_street = {b}, world_.really_on[static_cast<std::size_t>(b)] = -1;
    return circuit_fault("other circuit not on the panel", b, CircuitFault::from_street);
  }
  std::optional<Fault> leak() {
    const int leg = static_cast<int>(random_() % 2);
    if (kept_single(leg) == 0) return std::nullopt;
    world_.leaks[leg] = true;
    return Fault{"panel stays on the street", [](const PanelProof& proof) { return proof.fault == PanelFault::street_stays && proof.danger() && !proof.which.empty(); }, {}, true};
  }
  std::optional<Fault> kept_on_another() {
    const int b = any(true, 1), other = any(false, 1);
    if (b < 0 || other < 0 || (kept_single(world_.leg_of(b, 1)) < 2 && rest_single(world_.leg_of(b, 1), other) == 0)) return std::nullopt;
    world_.really_on[static_cast<std::size_t>(b)] = other;
    return circuit_fault("kept circuit on a breaker that is off", b, CircuitFault::dead_on_source);
  }
  std::optional<Fault> rest_on_kept() {
    const int b = any(false, 1), other = any(true, 1);
    if (b < 0 || other < 0) return std::nullopt;
    world_.really_on[static_cast<std::size_t>(b)] = other;
    return circuit_fault("other circuit on a breaker that is on", b, CircuitFault::live_though_off);
  }

 private:
  static bool is_not_blocked(const PanelProof& proof, bool way) {
    for (std::size_t t = 0; t < proof.tries.size(); ++t)
      if (proof.tries[t].way == way && proof.tried[t] == TryResult::not_blocked) return true;
    return false;
  }
  Fault circuit_fault(const std::string& name, int breaker, CircuitFault what) {
    const Id<Breaker> id = world_.house.breakers[static_cast<std::size_t>(breaker)].id;
    return {name, [id, what](const PanelProof& proof) { return fault_at(proof, id) == what; }, id, true};
  }
  int any(bool kept, int poles) {
    std::vector<int> found;
    for (std::size_t b = 0; b < world_.house.breakers.size(); ++b)
      if (!world_.house.breakers[b].backfed_from && world_.house.breakers[b].poles == poles && world_.is_kept(static_cast<int>(b)) == kept) found.push_back(static_cast<int>(b));
    return found.empty() ? -1 : found[random_() % found.size()];
  }
  int singles(int leg, bool kept, int but) const {
    int count = 0;
    for (const ProofLine& line : wiring_.lines)
      count += line.kept == kept && line.legs == 1U << leg && !line.only_in_doubt && (but < 0 || line.breaker != world_.house.breakers[static_cast<std::size_t>(but)].id);
    return count;
  }
  int kept_single(int leg) const { return singles(leg, true, -1); }
  int rest_single(int leg, int but) const { return singles(leg, false, but); }
  /// Are there circuits enough that the leg can be told from one circuit?
  bool tells_of(int leg) const { return kept_single(leg) > 0 && kept_single(leg) + rest_single(leg, -1) >= 2; }

  PanelWorld& world_;
  const ProofWiring& wiring_;
  std::mt19937 random_;
};

using MakeFault = std::optional<Fault> (Planter::*)();
constexpr MakeFault kFaults[] = {&Planter::way_goes_on, &Planter::main_goes_on, &Planter::one_leg, &Planter::nothing, &Planter::same_legs, &Planter::parallel_to_the_street,
                                 &Planter::rest_parallel_to_the_street, &Planter::kept_on_the_street, &Planter::rest_on_the_street, &Planter::leak, &Planter::kept_on_another,
                                 &Planter::rest_on_kept};

void expect_named(const PanelProof& proof, const Fault& fault) {
  EXPECT_EQ(proof.result, ProofResult::wrong);
  EXPECT_TRUE(fault.is_named(proof)) << text_of(proof.fault) << (fault.circuit ? text_of(fault_at(proof, *fault.circuit)) : "");
  for (const CircuitProof& one : proof.circuits) {
    if (fault.others_right && one.breaker != fault.circuit.value_or(Id<Breaker>{})) {
      EXPECT_EQ(text_of(one.fault), "none");
    }
    if (!fault.others_right && !one.kept) {
      EXPECT_NE(one.result, ProofResult::wrong);
    }
  }
}

TEST(ProvingPanelFaults, every_fault_is_found_and_named_and_the_source_never_meets_the_street) {
  for (const MakeFault make : kFaults) {
    int made = 0, looks = 0;
    std::string name;
    for (unsigned seed = 1; seed <= kHouses; ++seed) {
      PanelWorld world = random_panel_world(seed);
      ProvingSession session = session_of(world);
      const auto fault = (Planter(world, session.wiring(), seed).*make)();
      if (!fault) continue;
      PanelProver prover(world);
      SCOPED_TRACE(fault->name + " in house " + std::to_string(seed));
      ASSERT_TRUE(prove_to_the_end(session, prover));
      EXPECT_EQ(prover.unlawful, 0);
      expect_named(proof_of(session, world), *fault);
      EXPECT_TRUE(is_ordinary(session));
      ++made, looks += prover.looks, name = fault->name;
      if (testing::Test::HasFailure()) return;
    }
    EXPECT_GT(made, 10) << name;
    std::printf("%s: %d houses, %.1f looks a house\n", name.c_str(), made, made == 0 ? 0.0 : 1.0 * looks / made);
  }
}

TEST(ProvingPanelErrors, one_wrong_reading_in_a_hundred_gives_no_false_alarm_and_faults_are_still_found) {
  int sessions = 0, alarms = 0, proofs = 0, made = 0, found = 0;
  for (unsigned seed = 1; seed <= kHouses; ++seed) {
    const PanelWorld right = random_panel_world(seed);
    ProvingSession session = session_of(right);
    PanelProver prover(right, 0.01, seed);
    ASSERT_TRUE(prove_to_the_end(session, prover)) << seed;
    const ProofResult result = proof_of(session, right).result;
    ++sessions, alarms += result == ProofResult::wrong, proofs += result == ProofResult::proved;
    PanelWorld world = random_panel_world(seed);
    ProvingSession with_fault = session_of(world);
    if (!(Planter(world, with_fault.wiring(), seed).*kFaults[seed % std::size(kFaults)])()) continue;
    PanelProver other(world, 0.01, 1000 + seed);
    ASSERT_TRUE(prove_to_the_end(with_fault, other)) << seed;
    ++made, found += proof_of(with_fault, world).result == ProofResult::wrong;
  }
  std::printf("%d sessions with 1 %% wrong readings: %d proved, %d false alarms; %d of %d faults found\n", sessions, proofs, alarms, found, made);
  EXPECT_EQ(alarms, 0);
  EXPECT_EQ(proofs, sessions);
  EXPECT_GE(found, made * 97 / 100);
}

TEST(ProvingPanel, a_burnt_bulb_or_a_tripped_GFCI_is_no_fault_of_the_source) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    PanelWorld world = random_panel_world(seed);
    ProvingSession session = session_of(world);
    const auto& lines = session.wiring().lines;
    const auto line = std::ranges::find_if(lines, [](const ProofLine& l) { return l.kept && !l.only_in_doubt; });
    world.broken = {line->points[0]};
    PanelProver prover(world);
    ASSERT_TRUE(prove_to_the_end(session, prover)) << seed;
    const PanelProof proof = proof_of(session, world);
    EXPECT_EQ(proof.fault, PanelFault::none) << seed;
    EXPECT_FALSE(proof.danger()) << seed;
    const CircuitFault fault = fault_at(proof, line->breaker);
    EXPECT_EQ(text_of(fault), line->points.size() > 1 ? "none" : "dead_anyway") << seed << ": it is so on an ordinary day";
    EXPECT_TRUE(is_ordinary(session));
  }
}

TEST(ProvingPanel, an_answer_taken_back_or_a_pause_changes_no_step) {
  for (unsigned seed = 1; seed <= 24; ++seed) {
    PanelWorld world = random_panel_world(seed);
    if (seed % 2 == 0) (void)(Planter(world, session_of(world).wiring(), seed).*kFaults[seed / 2 % std::size(kFaults)])();
    PanelProver prover(world, seed % 3 == 0 ? 0.05 : 0, seed);
    ProvingSession session = session_of(world);
    for (int i = 0; i < 2000 && session.step().kind != ProofStepKind::done; ++i) {
      const ProofStep before = session.step();
      const ProofState stood = session.now();
      const ProofAnswer answer = prover.answer(session);
      session.answer(answer);
      ASSERT_TRUE(session.undo());
      ASSERT_EQ(session.step(), before) << seed << text_of(before.kind) << " taken back";
      ASSERT_EQ(session.now(), stood);
      session.answer(answer);
      const ProvingSession resumed(session.house(), declared_feeds(world.house), world.source);
      ASSERT_EQ(resumed.step(), session.step()) << seed << text_of(before.kind);
      ASSERT_EQ(resumed.now(), session.now());
      ASSERT_TRUE(problems_of(session.house()).empty());
    }
    ASSERT_EQ(session.step().kind, ProofStepKind::done);
  }
}

/// Skips the first step of this kind that can be skipped, and answers all others.
PanelProof after_skip(const PanelWorld& world, ProofStepKind kind, int& started) {
  ProvingSession session = session_of(world);
  PanelProver prover(world);
  for (int i = 0; i < 2000 && session.step().kind != ProofStepKind::done; ++i) {
    ProofAnswer answer = prover.answer(session);
    started += session.step().kind == ProofStepKind::start_source;
    if (session.step().kind == kind && fits(session.step(), ProofAnswerKind::skip)) answer.kind = ProofAnswerKind::skip;
    session.answer(answer);
  }
  EXPECT_EQ(session.step().kind, ProofStepKind::done);
  EXPECT_TRUE(is_ordinary(session));
  return proof_of(session, world);
}

TEST(ProvingPanel, what_is_skipped_is_never_proved_and_everything_is_put_back) {
  for (unsigned seed = 1; seed <= 30; ++seed) {
    const PanelWorld world = random_panel_world(seed);
    for (const ProofStepKind kind : {ProofStepKind::try_interlock, ProofStepKind::move, ProofStepKind::start_source, ProofStepKind::to_source}) {
      if (kind == ProofStepKind::try_interlock && world.whole_house) continue;
      int started = 0;
      EXPECT_EQ(after_skip(world, kind, started).result, ProofResult::not_yet) << seed << text_of(kind);
      EXPECT_TRUE(started == 0 || kind == ProofStepKind::start_source || kind == ProofStepKind::to_source) << seed << text_of(kind);
    }
  }
}

std::string refusal(const PanelWorld& world) {
  try {
    (void)session_of(world);
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

TEST(ProvingPanel, without_an_interlock_a_plan_or_a_wish_or_where_the_switch_moves_by_itself_there_is_no_session) {
  PanelWorld backfed = random_panel_world(1), whole = random_panel_world(1);
  for (unsigned seed = 2; backfed.whole_house || !whole.whole_house; ++seed) (backfed.whole_house ? backfed : whole) = random_panel_world(seed);
  EXPECT_EQ(refusal(backfed), "");
  PanelWorld no_plan = backfed;
  no_plan.house.planned.clear();
  EXPECT_THAT(refusal(no_plan), testing::HasSubstr("ohmstead wish"));
  backfed.house.interlocks.clear();
  EXPECT_THAT(refusal(backfed), testing::HasSubstr("No interlock is written down"));
  whole.house.transfer_devices[0].automatic = true;
  EXPECT_THAT(refusal(whole), testing::HasSubstr("moves by itself"));
}

TEST(ProvingPanel, begun_anew_the_interlock_is_tried_again) {
  PanelWorld world = random_panel_world(1);
  for (unsigned seed = 2; world.whole_house; ++seed) world = random_panel_world(seed);
  ProvingSession session = session_of(world);
  PanelProver prover(world);
  ASSERT_TRUE(prove_to_the_end(session, prover));
  House house = session.house();
  prove_anew(house);
  const PanelProof proof = *proved(house, declared_feeds(house), world.source).panel;
  EXPECT_EQ(proof.result, ProofResult::not_yet);
  EXPECT_THAT(proof.tried, testing::Each(TryResult::not_yet));
}

House entered(const std::string& lines) {
  House house;
  house.dwelling.id = Id<Dwelling>::fresh();
  return enter_text(house, lines).house;
}

constexpr const char* kSubpanel =
    "Cellar: freezer 100/400 W !, 1l\nKitchen: refrigerator 150/600 W !, 1r\nHall: 1l, 1r\nBattery B 5000/9000 W 120/240\n"
    "Panel Main in Cellar 20 spaces 100 A main: 1 15; 3 15; 2+4 50; 6 15\nTransfer T in Cellar 2 positions from B: 1+2 50 <- Main 2+4\n"
    "Panel Sub in Cellar 8 spaces from T 1+2: 1 15; 2 15; 3 15; 4 15\n"
    "By J.\nCellar freezer <- Sub 1\nCellar light <- Main 1\nKitchen refrigerator <- Sub 3\nKitchen receptacle 1 <- Sub 4\nHall light <- Main 3\nHall receptacle 1 <- Main 6\n";
constexpr const char* kOneCircuit =
    "Cellar: furnace 500/1200 W !, 1l\nHall: 1l\nGenerator G 1800/2200 W one leg\n"
    "Panel Main in Cellar 20 spaces 100 A main: 1 15; 3 15; 5 15\nTransfer T in Cellar 1 position from G: 1 15 L1 <- Main 1\n"
    "By J.\nCellar furnace <- Main 1\nCellar light <- Main 3\nHall light <- Main 5\n";

TEST(ProvingOther, a_critical_loads_subpanel_and_a_double_throw_switch_for_one_circuit_are_proved_by_their_positions) {
  for (const char* lines : {kSubpanel, kOneCircuit}) {
    const House house = entered(lines);
    for (const bool past : {false, true}) {
      ProvingSession session(house, declared_feeds(house), house.sources[0].id);
      ASSERT_EQ(session.wiring().units.size(), 1U);
      play_proving(session, past);
      ASSERT_EQ(session.step().kind, ProofStepKind::done);
      const ProofReport report = proved(session.house(), declared_feeds(house), house.sources[0].id);
      EXPECT_EQ(report.units[0].result, past ? ProofResult::wrong : ProofResult::proved) << lines << text_of(report.units[0].fault);
      EXPECT_EQ(report.nothing_fed_from_two, !past);
    }
  }
}

}  // namespace
}  // namespace ohmstead
