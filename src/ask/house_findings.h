#pragma once
// Findings of a house as recorded: the rules of the trade (rules/findings.h), with loads by their figures and what was seen against
// what is believed; and their words.

#include "ask/answer_words.h"
#include "rules/findings.h"

namespace ohmstead {

/// `contradictions` of the record (trace/contradictions.h). Names are those of `record.house`.
/// `revision` of the record, where what was printed before it is to be found too (rules/findings.h).
[[nodiscard]] Findings house_findings(const Record& record, const std::vector<Contradiction>& contradictions, std::int64_t revision = 0);

/// How many of each, then each finding with why it matters, how sure it is and its rule; what was not checked; who decides. A house
/// without findings says so.
[[nodiscard]] Lines words_of_findings(const Findings& findings);
/// "Found. Why. (as recorded)": a finding as one text.
[[nodiscard]] std::string finding_text(const Finding& finding);

}  // namespace ohmstead
