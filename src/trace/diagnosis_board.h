#pragma once
// Internal to diagnosis: what is known of one session, and what follows from it. Made anew from the rows at every step.

#include <vector>

#include "feed/feeds.h"
#include "trace/cause_belief.h"
#include "trace/diagnosis_step.h"

namespace ohmstead::trace_detail {

/// What does not change in a session.
struct DiagnosisGround {
  House house;  ///< as found
  Feeds feeds;
  Graph graph;
  std::vector<std::vector<int>> walk;  ///< seconds between rooms
};
[[nodiscard]] DiagnosisGround read_ground(const House& house);

struct DiagnosisBoard {
  const DiagnosisGround& ground;
  Diagnosis diagnosis;
  State base;                          ///< where everything stands if nothing is wrong
  int source = 0;                      ///< of the graph: what carries the house
  std::vector<std::size_t> complaints;
  std::vector<DiagnosisLook> looks;    ///< that stand, oldest first
  std::vector<Clue> clues;             ///< of these, what tells something
  std::size_t here = 0;                ///< place in house.rooms where the person is

  /// How often this was asked; answers that were not sure count twice.
  [[nodiscard]] int asked(const LookQuestion& question) const;
  [[nodiscard]] LookQuestion at_handle(LookAt what, std::uint32_t handle) const;
  [[nodiscard]] LookQuestion question_of(const DiagnosisLook& look) const;
};
/// Throws Error{not_found} where there is no such session.
[[nodiscard]] DiagnosisBoard read_diagnosis_board(const DiagnosisGround& ground, const House& house, Id<Diagnosis> diagnosis);

/// A look costs so many seconds for asking and answering, whatever it is (common practice, no source).
inline constexpr double kAskSeconds = 60;
/// From this belief on it is settled which cause it is.
inline constexpr double kSettledBelief = 0.93;
/// The same look again tells so much of what another would tell: what deceived once may deceive again.
inline constexpr double kSameAgain = 0.6;
/// A look that tells fewer bits is not worth making.
inline constexpr double kLeastGain = 0.02;

/// The look that tells most for its time; nothing where none is worth making.
[[nodiscard]] std::vector<LookQuestion> questions_of(const DiagnosisBoard& board, const Causes& causes);
[[nodiscard]] double seconds_for(const DiagnosisBoard& board, const LookQuestion& question);

/// Causes, how likely each is, and what follows.
struct Judged {
  Causes causes;
  std::vector<double> beliefs;
  std::vector<std::size_t> ranked;
  bool fits = false;        ///< some cause is contradicted by no look
  DiagnosisStep step;
};
[[nodiscard]] Judged judge(const DiagnosisBoard& board);

}  // namespace ohmstead::trace_detail
