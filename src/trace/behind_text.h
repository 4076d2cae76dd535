#pragma once
// The sentences of a session that looks for the points behind one handle (trace/behind.h), in plain
// words. Cautions are the trade's usual ones (common practice, no source).

#include <string>

#include "trace/behind.h"
#include "trace/step.h"

namespace ohmstead {

/// "Press TEST on GFCI in Upper bath.", "Switch off hall light switch.", "Set position 3 to OFF."
[[nodiscard]] std::string words_to_open(const House& house, const HandleRef& handle);
/// "Press RESET on GFCI in Upper bath.", "Set position 3 back to UTILITY (LINE)."
[[nodiscard]] std::string words_to_close(const House& house, const HandleRef& handle);

/// Does a session about this step's handle say it in words of its own? A plain breaker is turned off
/// and on as everywhere.
[[nodiscard]] bool has_own_words(const House& house, const Step& step);
/// What to do now, for an open, close or caution step of which has_own_words is true.
[[nodiscard]] std::string behind_step_text(const House& house, const Step& step);

/// Why this look, or this handle, while `handle` is asked about.
[[nodiscard]] std::string behind_why_text(const House& house, const Conclusions& conclusions, const HandleRef& handle, const Step& step);

/// What a session ends with: what is behind the handle, what is not, and what is still open.
[[nodiscard]] std::string behind_summary_text(const House& house, const Conclusions& conclusions, const HandleRef& handle);

}  // namespace ohmstead
