#pragma once
// What a diagnosis asks for, and what can be answered. Plain values; the sentences are in ask/diagnosis_words.h.

#include <string>
#include <vector>

#include "feed/restore.h"
#include "trace/causes.h"

namespace ohmstead {

enum class DiagnosisStepKind {
  danger,  ///< things are brighter than usual: the main off now; `done`, or `skip`: it was not so
  look,    ///< look at one thing; what can be answered depends on what it is (answers_of)
  cure,    ///< put the handles back where they belong; `works`, `still_dead`, `trips_again`, `skip`
  done,    ///< it is said what it is and what to do; takes no answer
};
OHMSTEAD_WORDS(DiagnosisStepKind, "danger", "look", "cure", "done")

/// How it ended.
enum class DiagnosisEnd {
  not_yet,
  cured,        ///< it works again
  trips_again,  ///< leave it off
  danger,       ///< main off, utility or electrician
  told,         ///< the cause is as plain as looks can make it, and no hand in the house can or should mend it
  not_found,    ///< nothing fits what was seen
};
OHMSTEAD_WORDS(DiagnosisEnd, "not_yet", "cured", "trips_again", "danger", "told", "not_found")

struct RankedCause {
  Cause cause;
  double belief = 0;
};

struct DiagnosisMove {
  HandleRef handle;
  Throw to = kOn;
  bool operator==(const DiagnosisMove&) const = default;
};

struct DiagnosisStep {
  DiagnosisStepKind kind = DiagnosisStepKind::done;
  DiagnosisEnd end = DiagnosisEnd::not_yet;
  LookAt what = LookAt::point;   ///< look, cure
  Id<Point> point;               ///< look: at which; cure: what should work then
  HandleRef handle;              ///< look, cure: the first of its group; done with `trips_again`: what tripped again
  Id<Source> source;             ///< look
  bool meter = false;            ///< look at a point: a meter may be used
  std::vector<DiagnosisMove> moves;  ///< cure: in this order
  CannotRestore cannot = CannotRestore::none;  ///< cure: why no moves are known
  bool operator==(const DiagnosisStep&) const = default;
};

struct DiagnosisAnswer {
  LookSaw saw = LookSaw::not_sure;
  int volts = 0;      ///< with a meter at a point; 0: without. What it means then follows from it
  std::string at;     ///< UTC now
  std::string who;    ///< may be empty
};

/// What can be answered to a step.
[[nodiscard]] std::vector<LookSaw> answers_of(const DiagnosisStep& step);
/// What a reading between the two slots of a 120 V (or 230 V) receptacle means: below 20 V dead, within 10 % live (common practice,
/// no source; a meter that draws no current shows some volts on a dead wire).
[[nodiscard]] LookSaw meaning_of_volts(int volts, int nominal);

}  // namespace ohmstead
