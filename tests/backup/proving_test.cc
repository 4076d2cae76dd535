// Proving sessions in houses that are wired right, and in houses that are not.

#include "backup/proving.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cstdio>
#include <functional>
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
      expect_named(report_of(session, world), *fault, session.wiring());
      EXPECT_TRUE(session.now().utility && !session.now().running && session.now().all_on_utility() && session.now().off.empty());
      ++made, looks += prover.looks, name = fault->name;
    }
    EXPECT_GT(made, 10) << f;
    std::printf("%s: %d houses, %.1f looks a house\n", name.c_str(), made, made == 0 ? 0.0 : 1.0 * looks / made);
  }
}

}  // namespace
}  // namespace ohmstead
