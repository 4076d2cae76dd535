#pragma once
// Internal to the words of proving: where the source comes onto a panel as a whole.

#include <string>

#include "ask/proving_words.h"

namespace ohmstead::proving_words {

/// Name of the source; "the source" where it has none.
[[nodiscard]] std::string source_name(const ProvingSession& session);
[[nodiscard]] bool is_battery(const ProvingSession& session);

// Parts of proof_step_text, for a session with a panel.
[[nodiscard]] std::string panel_start_text(const ProvingSession& session);
[[nodiscard]] std::string panel_step_text(const ProvingSession& session);
/// "the main of Main is off", "breaker 2+4 in Main is on", "all breakers but 3 and 5 are off"; empty list: as on an ordinary day.
[[nodiscard]] std::vector<std::string> panel_stands(const ProvingSession& session);

/// Dangers first, then what is wrong, proved and missing.
void say_panel(const House& house, const PanelProof& proof, Lines& lines);

}  // namespace ohmstead::proving_words
