#pragma once
// Proving sessions answered as a house would answer.

#include <algorithm>
#include <functional>

#include "backup/proving.h"

namespace ohmstead {

/// The answer to the step now in a house that is wired right. With `past` everything is live always: it is fed past the positions.
[[nodiscard]] inline ProofAnswer played_answer(const ProvingSession& session, bool past = false) {
  const ProofStep& step = session.step();
  ProofAnswer answer{ProofAnswerKind::done, Method::look, "2026-03-01T08:00:00Z"};
  if (step.kind != ProofStepKind::look) return answer;
  const auto& points = session.house().points;
  const auto point = static_cast<std::size_t>(std::ranges::find(points, step.point, &Point::id) - points.begin());
  const auto& lines = session.wiring().lines;
  const auto line = std::ranges::find_if(lines, [&](const ProofLine& l) { return std::ranges::find(l.points, point) != l.points.end(); });
  const ProofState now = session.now();
  const Throw stands = line->unit < 0 ? kUtilitySide : now.units[static_cast<std::size_t>(line->unit)];
  const bool fed = (stands == kUtilitySide && now.utility) || (stands == kBackupSide && now.running);
  answer.kind = past || fed ? ProofAnswerKind::live : ProofAnswerKind::dead;
  return answer;
}

/// Plays the session to its end, at most 200 steps; `see` is called before each.
inline void play_proving(ProvingSession& session, bool past, const std::function<void(const ProvingSession&)>& see = [](const ProvingSession&) {}) {
  for (int i = 0; i < 200 && session.step().kind != ProofStepKind::done; ++i) {
    see(session);
    session.answer(played_answer(session, past));
  }
}

}  // namespace ohmstead
