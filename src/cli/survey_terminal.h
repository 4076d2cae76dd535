#pragma once
// The interactive survey for a person at a terminal: one question, one line, and what was
// understood. The questions are those of survey/walk_through.h.

#include <functional>
#include <iosfwd>
#include <string>

#include "json/keep_fn.h"
#include "survey/walk_through.h"

namespace ohmstead {

enum class SurveyEnd {
  done,         ///< nothing is left to ask
  paused,       ///< the person stopped
  input_ended,  ///< standard input was closed
};

/// Asks until nothing is left, the person stops ('q') or the input ends. 'u' takes the last answer
/// back, 'done' leaves a part as it is, '?' explains. Whatever was answered is kept. Errors of
/// `keep` are not caught: the last answer is then not on disk.
SurveyEnd run_survey_terminal(WalkThrough& survey, std::istream& in, std::ostream& out, const KeepFn& keep);

}  // namespace ohmstead
