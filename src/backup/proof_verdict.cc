#include "backup/proof_verdict.h"

#include <algorithm>

namespace ohmstead {

namespace {

/// Place of a hypothesis in Cutter::wrong.
std::size_t place_of(int hypothesis, std::size_t size) {
  if (hypothesis >= 0) return static_cast<std::size_t>(hypothesis);
  return hypothesis == kNothingCuts ? size - 2 : size - 1;
}
int hypothesis_at(std::size_t place, std::size_t size) {
  if (place + 2 < size) return static_cast<int>(place);
  return place + 2 == size ? kNothingCuts : kNeverFed;
}

}  // namespace

int Cutter::against(int hypothesis) const { return wrong[place_of(hypothesis, wrong.size())]; }

bool dead_when_off(int cutter, const std::vector<Throw>& units) {
  if (cutter == kNothingCuts) return false;
  return cutter == kNeverFed || units[static_cast<std::size_t>(cutter)] == kOff;
}

bool is_on_utility(const ProofState& state) { return state.utility && !state.running && !state.on_backup() && state.off.empty(); }
bool is_back_check(const ProofState& state) { return !state.utility && state.running && !state.on_backup(); }
bool is_backup_check(const ProofState& state) { return !state.utility && state.running && state.on_backup(); }

Verdict::Verdict(const ProofBoard& board) : board_(board) {
  const std::size_t lines = board.wiring.lines.size(), units = board.wiring.units.size();
  cutters_.resize(lines);
  back_.resize(lines), backup_.resize(lines);
  for (std::size_t l = 0; l < lines; ++l) {
    cutters_[l].wrong.assign(units + 2, 0);
    cutters_[l].planned = board.wiring.lines[l].unit < 0 ? kNothingCuts : board.wiring.lines[l].unit;
  }
  for (const ProofReading& reading : board.readings) {
    const ProofState& state = board.states[reading.state];
    if (is_on_utility(state)) {
      std::vector<int>& wrong = cutters_[reading.line].wrong;
      for (std::size_t h = 0; h < wrong.size(); ++h)
        if (dead_when_off(hypothesis_at(h, wrong.size()), state.units) != reading.dead) ++wrong[h];
    }
  }
  for (std::size_t l = 0; l < lines; ++l) weigh(l);
  for (const ProofReading& reading : board.readings) {
    const ProofState& state = board.states[reading.state];
    const int unit = unit_on_backup(reading.line);
    const bool counts = is_backup_check(state) && (unit < 0 || state.units[static_cast<std::size_t>(unit)] == kBackupSide);
    Votes* votes = is_back_check(state) ? &back_[reading.line] : counts ? &backup_[reading.line] : nullptr;
    if (votes != nullptr) ++(reading.dead ? votes->dead : votes->live);
  }
}

int Verdict::unit_on_backup(std::size_t line) const {
  const int cutter = cutters_[line].is;
  return cutter >= 0 ? cutter : board_.wiring.lines[line].unit;
}

/// What fits the readings best, and what is not ruled out: another by one reading, the plan only by three.
void Verdict::weigh(std::size_t line) {
  Cutter& cutter = cutters_[line];
  cutter.is = cutter.planned;
  for (std::size_t h = 0; h < cutter.wrong.size(); ++h)
    if (cutter.wrong[h] < cutter.against(cutter.is)) cutter.is = hypothesis_at(h, cutter.wrong.size());
  for (std::size_t h = 0; h < cutter.wrong.size(); ++h) {
    const int hypothesis = hypothesis_at(h, cutter.wrong.size());
    const int behind = cutter.wrong[h] - cutter.against(cutter.is);
    if (hypothesis == cutter.is || behind < (hypothesis == cutter.planned ? kSureOfFault : 1)) cutter.open.push_back(hypothesis);
  }
  cutter.sure = cutter.open.size() == 1;
}

bool Verdict::empty_handed(std::size_t unit) const {
  const auto& lines = board_.wiring.units[unit].lines;
  return !lines.empty() && std::ranges::all_of(lines, [&](std::size_t l) { return board_.wiring.lines[l].only_in_doubt || cutters_[l].fault(); });
}

std::vector<std::size_t> Verdict::others_of(std::size_t unit) const {
  std::vector<std::size_t> found;
  for (std::size_t l = 0; l < cutters_.size(); ++l)
    if (cutters_[l].fault() && cutters_[l].is == static_cast<int>(unit)) found.push_back(l);
  return found;
}

}  // namespace ohmstead
