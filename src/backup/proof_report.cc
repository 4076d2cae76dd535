#include "backup/proof_report.h"

#include <algorithm>
#include <bit>

#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

class Reporter {
 public:
  explicit Reporter(const ProofBoard& board) : board_(board), wiring_(board.wiring), verdict_(board) {}

  ProofReport report() {
    ProofReport report;
    for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
      if (verdict_.back(l).against(false)) report.backfed.push_back(seen_point(l, true));
    for (const std::size_t l : wiring_.panel_lines)
      if (!verdict_.cutter(l).fault() && verdict_.backup(l).against(false)) report.panel_live.push_back(seen_point(l, false));
    back_done_ = covers_all_legs([&](std::size_t l) { return verdict_.back(l).as_expected(false); });
    panel_done_ = covers_all_legs([&](std::size_t l) {
      const bool tells = std::ranges::find(wiring_.panel_lines, l) != wiring_.panel_lines.end() && !verdict_.cutter(l).fault();
      return tells && verdict_.backup(l).as_expected(false);
    });
    for (std::size_t u = 0; u < wiring_.units.size(); ++u) report.units.push_back(unit_proof(u));
    if (!report.panel_live.empty()) name_who_feeds_the_panel(report);
    report.nothing_fed_from_two = back_done_ && panel_done_ && report.backfed.empty() && report.panel_live.empty();
    if (!report.backfed.empty() || !report.panel_live.empty())
      for (UnitProof& unit : report.units)
        if (unit.result == ProofResult::proved) unit.result = ProofResult::not_yet, unit.missing.push_back(report.backfed.empty() ? ProofMissing::panel : ProofMissing::nothing_live);
    return report;
  }

 private:
  /// Dead on backup while the panel is live: the one that is so, if it is one.
  static void name_who_feeds_the_panel(ProofReport& report) {
    const auto dead = [](const UnitProof& unit) { return unit.fault == ProofFault::utility_side_only; };
    if (std::ranges::count_if(report.units, dead) == 1) std::ranges::find_if(report.units, dead)->fault = ProofFault::turned_round;
  }

  [[nodiscard]] std::size_t seen_point(std::size_t line, bool back) const {
    for (const ProofReading& reading : board_.readings) {
      const ProofState& state = board_.states[reading.state];
      if (reading.line == line && !reading.dead && (back ? is_back_check(state) : is_backup_check(state))) return reading.point;
    }
    return wiring_.lines[line].points[0];
  }

  template <class Holds>
  [[nodiscard]] bool covers_all_legs(Holds holds) const {
    unsigned wanted = 0, covered = 0;
    for (std::size_t l = 0; l < wiring_.lines.size(); ++l) {
      if (wiring_.lines[l].unit >= 0) wanted |= wiring_.lines[l].legs;
      if (holds(l)) covered |= wiring_.lines[l].legs;
    }
    return wanted != 0 && (wanted & ~covered) == 0;
  }

  [[nodiscard]] std::vector<std::size_t> own_lines(std::size_t unit) const {
    std::vector<std::size_t> lines;
    for (const std::size_t l : wiring_.units[unit].lines)
      if (!wiring_.lines[l].only_in_doubt) lines.push_back(l);
    return lines;
  }

  [[nodiscard]] UnitProof unit_proof(std::size_t u) const {
    UnitProof proof{wiring_.units[u].positions};
    const auto own = own_lines(u);
    for (const ProofReading& reading : board_.readings)
      if (std::ranges::find(own, reading.line) != own.end())
        proof.last_seen = std::max(proof.last_seen, board_.house.rounds[board_.rounds[reading.state]].at);
    find_fault(u, own, proof);
    if (proof.fault != ProofFault::none) {
      proof.result = ProofResult::wrong;
      return proof;
    }
    find_missing(u, own, proof);
    if (proof.missing.empty()) proof.result = ProofResult::proved;
    return proof;
  }

  void find_fault(std::size_t u, const std::vector<std::size_t>& own, UnitProof& proof) const {
    for (const std::size_t l : verdict_.others_of(u))
      if (const Id<Breaker> breaker = wiring_.lines[l].breaker; std::ranges::find(proof.breakers, breaker) == proof.breakers.end())
        proof.breakers.push_back(breaker);
    const bool own_elsewhere = std::ranges::any_of(own, [&](std::size_t l) { return verdict_.cutter(l).fault(); });
    if (!proof.breakers.empty()) {
      proof.fault = own_elsewhere || own.empty() ? ProofFault::other_circuit : ProofFault::also_other_circuit;
      find_exchange(u, own, proof);
      return;
    }
    for (const std::size_t l : own) {
      const Cutter& cutter = verdict_.cutter(l);
      if (cutter.fault() && cutter.is >= 0 && still_searched(u)) continue;
      if (cutter.fault()) proof.fault = fault_of(l, cutter);
      else if (cutter.doubtful() && given_up(l)) proof.fault = ProofFault::unclear;
      else if (cutter.right() && verdict_.backup(l).against(true)) proof.fault = fault_on_backup(u);
      if (proof.fault != ProofFault::none) return;
    }
  }

  /// Is there a circuit that could be on this unit, and was not looked at with it off?
  [[nodiscard]] bool still_searched(std::size_t u) const {
    for (std::size_t l = 0; l < wiring_.lines.size(); ++l)
      if (!wiring_.lines[l].only_in_doubt && wiring_.lines[l].unit != static_cast<int>(u) && !verdict_.cutter(l).right() &&
          verdict_.cutter(l).against(static_cast<int>(u)) == 0 && board_.point_of(l) >= 0 && board_.may_be_off(u))
        return true;
    return false;
  }

  [[nodiscard]] bool given_up(std::size_t line) const {
    for (const ProofState& state : board_.states)
      if (std::ranges::count_if(board_.readings, [&](const ProofReading& r) { return r.line == line && board_.states[r.state] == state; }) >= kMostLooksInOneState)
        return true;
    return false;
  }

  void find_exchange(std::size_t u, const std::vector<std::size_t>& own, UnitProof& proof) const {
    for (const std::size_t l : own) {
      const int there = verdict_.cutter(l).is;
      if (!verdict_.cutter(l).fault() || there < 0) continue;
      for (const std::size_t theirs : own_lines(static_cast<std::size_t>(there)))
        if (verdict_.cutter(theirs).fault() && verdict_.cutter(theirs).is == static_cast<int>(u)) proof.fault = ProofFault::exchanged, proof.other = there;
    }
  }

  [[nodiscard]] ProofFault fault_of(std::size_t line, const Cutter& cutter) const {
    const Votes& votes = verdict_.backup(line);
    if (cutter.is == kNothingCuts)
      return votes.live > votes.dead ? ProofFault::fed_another_way : votes.dead > votes.live ? ProofFault::carries_nothing : ProofFault::not_cut;
    if (cutter.is == kNeverFed)
      return votes.live > votes.dead ? ProofFault::backup_side_only : votes.dead > votes.live ? ProofFault::dead_both_ways : ProofFault::dead_on_utility;
    return ProofFault::carries_nothing;  // its circuit is on another position, and nothing was found on this one
  }

  [[nodiscard]] ProofFault fault_on_backup(std::size_t u) const {
    int halves = 0, live = 0, dead = 0;
    for (const std::size_t l : wiring_.units[u].lines) {
      if (!wiring_.lines[l].only_in_doubt) continue;
      ++halves;
      if (verdict_.backup(l).live > verdict_.backup(l).dead) ++live;
      if (verdict_.backup(l).dead > verdict_.backup(l).live) ++dead;
    }
    if (halves >= 2 && live == halves) return ProofFault::one_leg;
    if (live > 0 && dead > 0) return ProofFault::half_dead;
    return ProofFault::utility_side_only;
  }

  /// A point that tells of each leg; which position cuts it; live from the source; and that the source goes nowhere else.
  void find_missing(std::size_t u, const std::vector<std::size_t>& own, UnitProof& proof) const {
    const auto miss = [&](ProofMissing what) { proof.missing.push_back(what); };
    const bool never_backup = wiring_.units[u].never_backup;
    if (never_backup) miss(ProofMissing::never_backup);
    unsigned seen = 0;
    for (const std::size_t l : own)
      if (board_.point_of(l) >= 0 || verdict_.cutter(l).sure) seen |= wiring_.lines[l].legs;
    if (static_cast<std::size_t>(std::popcount(seen)) < wiring_.units[u].positions.size()) miss(ProofMissing::no_point);
    if (seen == 0) return;
    const bool right = std::ranges::all_of(own, [&](std::size_t l) { return verdict_.cutter(l).right(); });
    if (!right) miss(board_.may_be_off(u) ? ProofMissing::utility : ProofMissing::may_not_be_off);
    if (!never_backup && !std::ranges::all_of(own, [&](std::size_t l) { return verdict_.backup(l).as_expected(true); })) miss(ProofMissing::backup);
    if (!back_done_) miss(ProofMissing::nothing_live);
    if (!panel_done_) miss(ProofMissing::panel);
  }

  const ProofBoard& board_;
  const ProofWiring& wiring_;
  Verdict verdict_;
  bool back_done_ = false, panel_done_ = false;
};

}  // namespace

ProofReport proof_report(const ProofBoard& board) {
  if (!board.wiring.panel) return Reporter(board).report();
  ProofReport report{.units = {}, .panel = panel_proof(board), .backfed = {}, .panel_live = {}};
  const bool all_seen = std::ranges::all_of(report.panel->circuits, [](const CircuitProof& one) { return !one.kept || one.result == ProofResult::proved; });
  report.nothing_fed_from_two = report.panel->all_blocked() && !report.panel->danger() && all_seen;
  return report;
}

ProofReport proved(const House& house, const Feeds& feeds, Id<Source> source) {
  const ProofWiring wiring = read_proof_wiring(house, feeds, source);
  return proof_report(read_proof_board(house, wiring));
}

std::optional<House> recorded_as_found(const House& house, const ProofReport& report) {
  House next = house;
  for (const UnitProof& unit : report.units) {
    const bool moved = unit.fault == ProofFault::exchanged || unit.fault == ProofFault::other_circuit;
    const bool empty = unit.fault == ProofFault::carries_nothing;
    if (!moved && !empty) continue;
    const std::size_t poles = unit.positions.size();
    for (std::size_t i = 0; i < poles; ++i) {
      Position& position = next.positions[unit.positions[i]];
      position.breaker = {}, position.pole = 1;
      if (empty || unit.breakers.empty()) continue;
      const Breaker& breaker = row(next, unit.breakers[std::min(i, unit.breakers.size() - 1)]);
      position.breaker = breaker.id;
      if (unit.breakers.size() == 1) position.pole = std::min(static_cast<int>(i) + 1, breaker.poles);
    }
  }
  if (next == house || !problems_of(next).empty()) return std::nullopt;
  return next;
}

}  // namespace ohmstead
