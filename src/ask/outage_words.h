#pragma once
// The outage board in sentences, read by flashlight by people who know nothing of wiring: short, most urgent first, one
// thing at a time.

#include "ask/answer_words.h"
#include "ask/local_time.h"
#include "backup/may_i.h"
#include "backup/outage_status.h"
#include "backup/outage_step.h"

namespace ohmstead {

/// "handle 3 on Transfer", "handles 5 and 6 on Transfer (tied together)", "breaker 12", "the main breaker of Main".
[[nodiscard]] std::string outage_handle_text(const House& house, const Names& names, const HandleRef& handle);

/// The next step: what to do first, why and what to know after it, cautions before the hand moves.
[[nodiscard]] Lines words_of_outage_step(const OutageView& view, const Names& names, const OutageStep& step);
/// It did not come on, or cannot be done: what to try.
[[nodiscard]] Lines words_of_trouble(const OutageView& view, const Names& names, const OutageStep& step);
/// One line for the history: "Handle 3 on Transfer to backup".
[[nodiscard]] std::string outage_history_text(const House& house, const Names& names, const OutageStep& step);

/// How the house stands: who is without power that needs it, what is on, how much more may be switched on where, what is due.
[[nodiscard]] Lines words_of_outage_status(const OutageView& view, const OutageStatus& status, const LocalTime& local = {});

/// `name`: what the thing is called.
[[nodiscard]] Lines words_of_may_i(const OutageView& view, const Names& names, const std::string& name, const MayI& answer);

/// One line for each line of the log, oldest first, by day and local time; "(taken back)" where it was. Without an outage: that there
/// is none. `from`: only lines from this place in house.outage_events on.
[[nodiscard]] Lines words_of_outage_log(const House& house, const Names& names, const LocalTime& local = {}, std::size_t from = 0);

}  // namespace ohmstead
