#pragma once
// The sentences of a tracing session, in plain words. Control characters in names never come
// through. Cautions are the trade's usual ones (common practice, no source).

#include <string>
#include <string_view>

#include "trace/plan.h"

namespace ohmstead {

/// What to do now: one short imperative sentence a line, at most a few lines; several handles each
/// on a line that begins with "- ".
[[nodiscard]] std::string step_text(const House& house, const Step& step);

/// Why this step comes now, in one or two sentences.
[[nodiscard]] std::string why_text(const House& house, const Conclusions& conclusions, const Step& step);

/// "14 of 52 points settled, about 35 minutes left."
[[nodiscard]] std::string progress_text(const Progress& progress);

/// "[######----------]" of `width` characters between the brackets.
[[nodiscard]] std::string progress_bar(const Progress& progress, std::size_t width);

/// "Kitchen, receptacle 3: dead, with breaker 12 in Main panel off".
[[nodiscard]] std::string seen_text(const House& house, const Observation& seen);
/// Looks that still stand, the last one first, at most so many.
[[nodiscard]] std::vector<Id<Observation>> last_looks(const House& house, std::size_t most);

/// What an answer to a step was, for the history: "Opened breaker 5 in Main panel".
[[nodiscard]] std::string history_text(const House& house, const Step& step, const Answer& answer);
/// How this step is looked at if nobody says otherwise: lights by eye, the rest as the manner says.
[[nodiscard]] Method usual_method(const House& house, const Step& step);

/// What a session ends with: what is settled, and each thing that is not, with what to do about it.
[[nodiscard]] std::string summary_text(const House& house, const Conclusions& conclusions);

/// "breaker 9-11 in Main panel"; "main breaker of Main panel"; and so on.
[[nodiscard]] std::string handle_name(const House& house, const HandleRef& handle);
/// "Kitchen, receptacle 3 (left of the sink)".
[[nodiscard]] std::string point_name(const House& house, Id<Point> point);
/// The text without control characters.
[[nodiscard]] std::string without_controls(std::string_view text);

}  // namespace ohmstead
