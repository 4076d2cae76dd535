#include "backup/proof_panel_verdict.h"

#include <algorithm>
#include <bit>

#include "house/index.h"

namespace ohmstead {

namespace {
constexpr int kEnoughDead = 2;  ///< circuits of one leg that are dead together: it is the leg
}  // namespace

bool PanelProof::all_blocked() const {
  return std::ranges::all_of(tried, [](TryResult one) { return one == TryResult::blocked; });
}
bool PanelProof::danger() const {
  return fault == PanelFault::street_stays || std::ranges::find(tried, TryResult::not_blocked) != tried.end() ||
         std::ranges::find(circuits, CircuitFault::from_street, &CircuitProof::fault) != circuits.end();
}

PanelVerdict::PanelVerdict(const ProofBoard& board) : board_(board) {
  const std::size_t lines = board.wiring.lines.size();
  ordinary_.resize(lines), street_.resize(lines), past_.resize(lines), on_.resize(lines), off_.resize(lines);
  count();
  judge_legs();
}

void PanelVerdict::count() {
  for (const ProofReading& reading : board_.readings) {
    const ProofState& state = board_.states[reading.state];
    const bool is_off = std::ranges::find(state.off, board_.wiring.lines[reading.line].breaker) != state.off.end();
    std::vector<Votes>* votes = state == board_.ordinary() ? &ordinary_ : state.utility ? nullptr : state.running ? (is_off ? &off_ : &on_) : is_off ? &past_ : &street_;
    if (votes != nullptr) ++(reading.dead ? (*votes)[reading.line].dead : (*votes)[reading.line].live);
  }
  for (std::size_t l = 0; l < street_.size(); ++l)
    if (street_[l].against(false)) street_legs_ |= board_.wiring.lines[l].legs;
}

/// Is each leg of this breaker live by itself?
bool PanelVerdict::halves_live(std::size_t whole) const {
  unsigned live = 0;
  for (std::size_t l = 0; l < board_.wiring.lines.size(); ++l)
    if (board_.wiring.lines[l].breaker == board_.wiring.lines[whole].breaker && on_[l].live > on_[l].dead) live |= board_.wiring.lines[l].legs;
  return live == board_.wiring.lines[whole].legs;
}

/// A leg is live if anything on it was seen live from the source. It is dead if two circuits on it are, or one that is seen live on an ordinary
/// day and what needs both legs, or a circuit that was switched on to tell.
void PanelVerdict::judge_legs() {
  unsigned wanted = 0;
  int both = 0, both_dead = 0;
  bool halves = false;
  std::vector<int> dead(kMostPoles, 0);
  for (std::size_t l = 0; l < board_.wiring.lines.size(); ++l) {
    const ProofLine& line = board_.wiring.lines[l];
    const bool is_live = on_[l].as_expected(true) && on_[l].count() > 0, is_dead = on_[l].against(true);
    if (is_live) live_ |= line.legs;
    if (line.kept) wanted |= line.legs;
    if (std::popcount(line.legs) > 1) {
      if (ordinary_[l].against(true)) continue;
      both += is_live || is_dead, both_dead += is_dead;
      halves = halves || (is_dead && halves_live(l));
    } else if (is_dead && !ordinary_[l].against(true)) dead[static_cast<std::size_t>(std::countr_zero(line.legs))] += line.kept ? 1 : kEnoughDead;
  }
  for (std::size_t l = 0; l < dead.size(); ++l) {
    const unsigned leg = 1U << l;
    if ((wanted & leg) == 0 || (live_ & leg) != 0) continue;
    const int count = dead[l] + (dead[l] > 0 && both_dead > 0 ? 1 : 0);
    if (count >= kEnoughDead) dead_ |= leg;
    else if (count > 0 || both_dead > 0) doubtful_ |= leg;
  }
  same_ = dead_ == 0 && doubtful_ == 0 && both_dead == both && (both >= kEnoughDead || halves) && (wanted & ~live_) == 0;
}

TryResult PanelVerdict::tried(const ProofTry& one) const {
  const auto setting = std::ranges::find(board_.house.settings, kProveTry + proof_try_name(one), &Setting::name);
  if (setting == board_.house.settings.end()) return TryResult::not_yet;
  return setting->value == text_of(TryResult::blocked) ? TryResult::blocked : TryResult::not_blocked;
}

bool PanelVerdict::danger() const {
  return street_legs_ != 0 || past_found() || std::ranges::any_of(board_.wiring.panel->tries, [&](const ProofTry& one) { return tried(one) == TryResult::not_blocked; });
}

bool PanelVerdict::past_found() const {
  return std::ranges::any_of(past_, [](const Votes& votes) { return votes.against(false); });
}

CircuitFault PanelVerdict::fault_of(std::size_t l) const {
  const ProofLine& line = board_.wiring.lines[l];
  if (past_[l].against(false)) return CircuitFault::from_street;
  if (ordinary_[l].against(true)) return CircuitFault::dead_anyway;
  if (!line.kept) return off_[l].against(false) && past_[l].as_expected(false) ? CircuitFault::live_though_off : CircuitFault::none;
  if (!on_[l].against(true)) return CircuitFault::none;
  if ((line.legs & dead_) != 0) return CircuitFault::leg_dead;
  if ((line.legs & doubtful_) != 0) return CircuitFault::leg_or_circuit;
  if (std::popcount(line.legs) > 1) return CircuitFault::needs_both;
  return ordinary_[l].as_expected(true) ? CircuitFault::dead_on_source : CircuitFault::none;
}

bool PanelVerdict::is_proved(std::size_t l) const {
  if (!board_.wiring.lines[l].kept) return off_[l].as_expected(false) && off_[l].count() > 0;
  return street_[l].as_expected(false) && on_[l].as_expected(true);
}

namespace {

CircuitProof circuit_proof(const ProofBoard& board, const PanelVerdict& verdict, Id<Breaker> breaker, bool kept) {
  CircuitProof proof{.breaker = breaker, .kept = kept, .last_seen = ""};
  bool any = false, all = true;
  for (std::size_t l = 0; l < board.wiring.lines.size(); ++l) {
    const ProofLine& line = board.wiring.lines[l];
    if (line.breaker != breaker) continue;
    for (const ProofReading& reading : board.readings)
      if (reading.line == l) proof.last_seen = std::max(proof.last_seen, board.house.rounds[board.rounds[reading.state]].at);
    if (line.only_in_doubt) continue;
    if (proof.fault == CircuitFault::none) proof.fault = verdict.fault_of(l);
    any = any || board.point_of(l) >= 0 || verdict.is_proved(l);
    all = all && verdict.is_proved(l);
  }
  proof.no_point = !any;
  proof.result = proof.fault != CircuitFault::none ? ProofResult::wrong : any && all ? ProofResult::proved : ProofResult::not_yet;
  return proof;
}

void find_panel_fault(const ProofBoard& board, const PanelVerdict& verdict, PanelProof& proof) {
  if (verdict.legs_same()) proof.fault = PanelFault::legs_same;
  unsigned legs = 0;
  for (const ProofLine& line : board.wiring.lines) legs |= line.legs;
  if (verdict.dead_legs() != 0) proof.fault = verdict.dead_legs() == legs ? PanelFault::nothing_live : PanelFault::one_leg_dead;
  if (verdict.street_legs() != 0 && !verdict.past_found()) proof.fault = PanelFault::street_stays;
  for (std::size_t l = 0; l < board.wiring.lines.size(); ++l) {
    const ProofLine& line = board.wiring.lines[l];
    const bool is_dead = verdict.on(l).against(true) && (line.legs & ~verdict.dead_legs()) == 0;
    const bool is_meant = proof.fault == PanelFault::street_stays ? verdict.street(l).against(false) : proof.fault == PanelFault::one_leg_dead && is_dead;
    if (is_meant && std::ranges::find(proof.which, line.breaker) == proof.which.end()) proof.which.push_back(line.breaker);
  }
}

/// Was each leg that a kept circuit hangs on seen live with everything as on an ordinary day?
bool ordinary_seen(const ProofBoard& board, const PanelVerdict& verdict) {
  unsigned wanted = 0, seen = 0;
  for (std::size_t l = 0; l < board.wiring.lines.size(); ++l) {
    if (board.wiring.lines[l].kept) wanted |= board.wiring.lines[l].legs;
    if (verdict.ordinary(l).as_expected(true)) seen |= board.wiring.lines[l].legs;
  }
  return (wanted & ~seen) == 0;
}

}  // namespace

PanelProof panel_proof(const ProofBoard& board) {
  const ProofPanel& panel = *board.wiring.panel;
  const PanelVerdict verdict(board);
  PanelProof proof{.tries = panel.tries, .tried = {}, .circuits = {}, .which = {}, .by_plan = panel.by_plan};
  for (const ProofTry& one : panel.tries) proof.tried.push_back(verdict.tried(one));
  for (const bool kept : {true, false})
    for (const Id<Breaker> breaker : kept ? panel.kept : panel.rest) {
      const bool has_line = std::ranges::find(board.wiring.lines, breaker, &ProofLine::breaker) != board.wiring.lines.end();
      const Breaker& of = row(board.house, breaker);
      if (has_line || (kept && (!of.tie || of.tie == of.id))) proof.circuits.push_back(circuit_proof(board, verdict, breaker, kept));
    }
  find_panel_fault(board, verdict, proof);
  proof.ordinary_seen = ordinary_seen(board, verdict);
  const auto has = [&](ProofResult result) { return std::ranges::find(proof.circuits, result, &CircuitProof::result) != proof.circuits.end(); };
  if (proof.danger() || proof.fault != PanelFault::none || has(ProofResult::wrong)) proof.result = ProofResult::wrong;
  else if (proof.all_blocked() && proof.ordinary_seen && !has(ProofResult::not_yet)) proof.result = ProofResult::proved;
  return proof;
}

}  // namespace ohmstead
