#pragma once
// A proving session and its results in sentences.

#include <string>

#include "ask/answer_words.h"
#include "backup/proof_report.h"
#include "backup/proving.h"

namespace ohmstead {

/// What to do now: one short imperative sentence in the first line; several moves each on a line that begins with "- ".
[[nodiscard]] std::string proof_step_text(const ProvingSession& session);
/// Why this step comes now, in one or two sentences.
[[nodiscard]] std::string proof_why_text(const ProvingSession& session);
/// Where everything stands: "The main is off, Generator runs, positions 3 and 5 are off."
[[nodiscard]] std::string proof_stands_text(const ProvingSession& session);
/// A proving session that was left with a handle otherwise than on an ordinary day, or with the source running: how it stands, and what to do
/// first. Empty if none was.
[[nodiscard]] std::string proving_left_text(const House& house, Id<Source> source);
/// "12 looks made; about 14 looks and 9 moves left."
[[nodiscard]] std::string proof_progress_text(const ProofProgress& progress);
/// What an answer to a step was, for the history.
[[nodiscard]] std::string proof_history_text(const ProvingSession& session, const ProofAnswer& answer);
/// How this step is looked at if nobody says otherwise: lights and fans by eye, the rest with a tester.
[[nodiscard]] Method proof_method(const ProvingSession& session);

/// "3", "5+6"; "3 on T" where there are several devices.
[[nodiscard]] std::string position_numbers(const House& house, const std::vector<std::size_t>& positions);
/// What is wrong with one unit, in one sentence; empty if nothing is.
[[nodiscard]] std::string fault_words(const House& house, const ProofReport& report, std::size_t unit);
/// Proved, not yet or wrong and why, each position; dangers first.
[[nodiscard]] Lines words_of_proof(const House& house, const ProofReport& report);

}  // namespace ohmstead
