// From what was seen to the next step.

#include <algorithm>
#include <optional>

#include "house/voltage.h"
#include "trace/diagnosis_board.h"

namespace ohmstead::trace_detail {

namespace {

constexpr std::size_t kLikelyOnes = 12;  ///< singles that pairs are made of

/// Where everything stands if the cause is so: handles only, for the moves that bring it back.
State with_handles_of(const DiagnosisBoard& board, const Causes& causes, std::size_t at) {
  State state = board.base;
  const auto scenario = std::ranges::find(causes.scenarios, at, &Scenario::cause);
  for (const HandleStand& stand : scenario->handles)
    for (std::uint32_t h = 1; h < board.ground.graph.handles.size(); ++h) {
      const GraphHandle& handle = board.ground.graph.handles[h];
      if (handle.group != stand.group) continue;
      const Throw to = stand.stand == Stand::backup ? kBackupSide : stand.stand == Stand::on ? kOn : kOff;
      move_handle(board.ground.graph, state, h, to);
      break;
    }
  return state;
}

/// Places of the causes that a hand can undo: one, or both of two faults.
std::vector<std::size_t> open_handles(const Causes& causes, std::size_t at) {
  std::vector<std::size_t> open;
  const Cause& cause = causes.causes[at];
  for (const std::size_t part : cause.kind == CauseKind::two_faults ? std::vector<std::size_t>{cause.both[0], cause.both[1]} : std::vector<std::size_t>{at})
    if (causes.causes[part].kind == CauseKind::handle_open) open.push_back(part);
  return open;
}

DiagnosisStep ended(DiagnosisEnd end) { return {.kind = DiagnosisStepKind::done, .end = end}; }

/// What brings back the first complaint that the cause explains.
DiagnosisStep cure_step(const DiagnosisBoard& board, const Causes& causes, std::size_t at) {
  const std::vector<std::size_t> open = open_handles(causes, at);
  DiagnosisStep step{.kind = DiagnosisStepKind::cure, .what = LookAt::cure, .handle = causes.causes[open[0]].handle};
  const State now = with_handles_of(board, causes, at);
  std::size_t point = board.complaints[0];
  const auto scenario = std::ranges::find(causes.scenarios, at, &Scenario::cause);
  for (const std::size_t p : board.complaints)
    if (scenario->points[p] == WouldBe::dead || scenario->points[p] == WouldBe::part) {
      point = p;
      break;
    }
  const Restoration back = restore(board.ground.house, board.ground.graph, now, point, board.source);
  step.point = board.ground.house.points[point].id;
  step.cannot = back.cannot;
  for (const Move& move : back.moves) step.moves.push_back({board.ground.graph.handles[move.handle].ref, move.to});
  return step;
}

DiagnosisStep look_step(const DiagnosisBoard& board, const LookQuestion& question) {
  const DiagnosisGround& ground = board.ground;
  DiagnosisStep step{.kind = DiagnosisStepKind::look, .what = question.what, .meter = question.meter};
  if (question.what == LookAt::point || question.what == LookAt::other_lamp) step.point = ground.house.points[question.point].id;
  if (question.what == LookAt::handle) step.handle = ground.graph.handles[question.handle].ref;
  if (question.what == LookAt::source) step.source = ground.house.sources[static_cast<std::size_t>(question.source - 1)].id;
  return step;
}

/// What was answered last to a danger, or to the cure of this handle; nothing where it was not asked.
const DiagnosisLook* last_of(const DiagnosisBoard& board, LookAt what, const HandleRef& handle = {}) {
  const DiagnosisLook* last = nullptr;
  for (const DiagnosisLook& look : board.looks)
    if (look.what == what && (!handle || look.handle == handle)) last = &look;
  return last;
}

/// An end that an answer has already decided, or a danger that comes before every look.
DiagnosisStep decided(const DiagnosisBoard& board, bool& is_decided) {
  is_decided = true;
  if (const DiagnosisLook* cure = last_of(board, LookAt::cure)) {
    if (cure->saw == LookSaw::works) return ended(DiagnosisEnd::cured);
    if (cure->saw == LookSaw::trips_again) return {.kind = DiagnosisStepKind::done, .end = DiagnosisEnd::trips_again, .handle = cure->handle};
  }
  const DiagnosisLook* danger = nullptr;  // what was said of the last thing that was brighter
  bool bright = false;
  for (const DiagnosisLook& look : board.looks) {
    if (look.saw == LookSaw::bright) bright = true, danger = nullptr;
    if (look.what == LookAt::caution) danger = &look;
  }
  if (danger != nullptr && danger->saw == LookSaw::done) return ended(DiagnosisEnd::danger);
  if (bright && danger == nullptr) return {.kind = DiagnosisStepKind::danger, .what = LookAt::caution};
  is_decided = false;
  return {};
}

DiagnosisStep settled_step(const DiagnosisBoard& board, const Judged& judged) {
  const std::size_t first = judged.ranked[0];
  if (!judged.fits && judged.beliefs[first] < 0.5) return ended(DiagnosisEnd::not_found);
  if (open_handles(judged.causes, first).empty()) return ended(DiagnosisEnd::told);
  DiagnosisStep cure = cure_step(board, judged.causes, first);
  const DiagnosisLook* tried = last_of(board, LookAt::cure, cure.handle);
  if (tried != nullptr || cure.cannot != CannotRestore::none || cure.moves.empty()) cure.kind = DiagnosisStepKind::done, cure.end = DiagnosisEnd::told;
  return cure;
}

/// To put a handle back where it belongs tells more than looking at it again: a breaker that tripped may look as if it were on. Only
/// what was looked at first, and only once.
std::optional<DiagnosisStep> telling_cure(const DiagnosisBoard& board, const Judged& judged, const CauseBelief& belief, double best_rate) {
  const auto open = std::ranges::find(judged.ranked, CauseKind::handle_open, [&](std::size_t c) { return judged.causes.causes[c].kind; });
  if (open == judged.ranked.end()) return std::nullopt;
  const std::uint32_t handle = board.ground.graph.handle_of(judged.causes.causes[*open].handle);
  if (board.asked(board.at_handle(LookAt::handle, handle)) == 0 || board.asked(board.at_handle(LookAt::cure, handle)) > 0) return std::nullopt;
  const LookQuestion question = board.at_handle(LookAt::cure, handle);
  const double gain = belief.gain(question);
  if (gain < kLeastGain || gain / seconds_for(board, question) <= best_rate) return std::nullopt;
  const DiagnosisStep cure = cure_step(board, judged.causes, *open);
  if (cure.moves.empty()) return std::nullopt;
  return cure;
}

}  // namespace

Judged judge(const DiagnosisBoard& board) {
  std::vector<std::size_t> also_dead;
  for (const Clue& clue : board.clues) {
    const bool dead = clue.question.what == LookAt::point && clue.saw == LookSaw::dead;
    if (dead && std::ranges::find(also_dead, clue.question.point) == also_dead.end()) also_dead.push_back(clue.question.point);
  }
  Judged judged;
  const Graph& graph = board.ground.graph;
  if (!board.complaints.empty())
    judged.causes = single_causes({board.ground.house, board.ground.feeds, graph, board.base, board.diagnosis.before, board.complaints, also_dead});
  if (judged.causes.causes.empty()) {  // dead although nothing is wrong: it is not fed as it is supplied now
    judged.step = ended(DiagnosisEnd::not_found);
    return judged;
  }
  std::optional<CauseBelief> belief(std::in_place, judged.causes, graph, board.clues);
  judged.fits = belief->one_fits();
  if (!judged.fits) {
    std::vector<std::size_t> likely = belief->ranked();
    likely.resize(std::min(likely.size(), kLikelyOnes));
    add_pairs(judged.causes, likely);
    belief.emplace(judged.causes, graph, board.clues);
  }
  judged.beliefs = belief->of_cause(), judged.ranked = belief->ranked();
  bool is_decided = false;
  judged.step = decided(board, is_decided);
  if (is_decided) return judged;
  LookQuestion best;
  double best_rate = 0;
  for (const LookQuestion& question : questions_of(board, judged.causes)) {
    const double gain = belief->gain(question) * (board.asked(question) > 0 ? kSameAgain : 1), rate = gain / seconds_for(board, question);
    if (gain >= kLeastGain && rate > best_rate) best = question, best_rate = rate;
  }
  if (const auto cure = telling_cure(board, judged, *belief, best_rate)) {
    judged.step = *cure;
    return judged;
  }
  const bool settled = judged.beliefs[judged.ranked[0]] >= kSettledBelief || best_rate == 0;
  judged.step = settled ? settled_step(board, judged) : look_step(board, best);
  return judged;
}

}  // namespace ohmstead::trace_detail

namespace ohmstead {

std::vector<LookSaw> answers_of(const DiagnosisStep& step) {
  using enum LookSaw;
  switch (step.kind) {
    case DiagnosisStepKind::danger: return {done, skip};
    case DiagnosisStepKind::cure: return {works, still_dead, trips_again, skip};
    case DiagnosisStepKind::done: return {};
    case DiagnosisStepKind::look: break;
  }
  switch (step.what) {
    case LookAt::handle:
      if (step.handle.kind == HandleKind::position) return {on, off, backup, not_sure, skip};
      return {on, off, tripped, not_sure, skip};
    case LookAt::neighbors:
    case LookAt::source: return {yes, no, not_sure, skip};
    default: break;
  }
  return {live, dead, dim, bright, not_sure, skip};
}

LookSaw meaning_of_volts(int volts, int nominal) {
  if (volts < 20) return LookSaw::dead;
  return volts * 10 < nominal * 9 ? LookSaw::dim : volts * 10 > nominal * 11 ? LookSaw::bright : LookSaw::live;
}

}  // namespace ohmstead
