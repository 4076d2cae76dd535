#pragma once
// A diagnosis in sentences: what to look at, what it can be, what to do about it. Danger first; nobody is sent into a panel.

#include <string>

#include "ask/answer_words.h"
#include "trace/diagnosis.h"

namespace ohmstead {

/// What to do at once when something is brighter than usual.
inline constexpr const char* kTooBright =
    "Turn the MAIN off NOW.\nThings that are brighter than usual get too many volts: the neutral may be open. Whatever is on can burn up and start a fire.\n"
    "Then call the utility at any hour and say 'open neutral'. If it is only one circuit, an electrician.";

/// What to do now: one short imperative sentence in the first line, more below it. When it is done: what it is, in one sentence.
[[nodiscard]] std::string diagnosis_step_text(const DiagnosisSession& session);
/// Which causes are left, most believed first, and why this look comes now.
[[nodiscard]] std::string diagnosis_why_text(const DiagnosisSession& session);
/// The result: what it is, what it cannot be told apart from, and what to do. Before the end: what is likeliest so far.
[[nodiscard]] Lines words_of_diagnosis(const DiagnosisSession& session);
/// "breaker 12 in Main panel has tripped, or is off"
[[nodiscard]] std::string cause_words(const DiagnosisSession& session, const Cause& cause);
/// What an answer to the step was, for the history.
[[nodiscard]] std::string diagnosis_history_text(const DiagnosisSession& session, const DiagnosisAnswer& answer);
/// What to do about a handle that trips again at once, whatever the cause is taken to be.
[[nodiscard]] Lines advice_on_tripping(const House& house, const HandleRef& handle);
/// What is said of a cause in a diagnosis: dangers and what to do.
[[nodiscard]] Lines advice_on(const DiagnosisSession& session, const Cause& cause);

}  // namespace ohmstead
