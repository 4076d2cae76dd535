#pragma once
// Every sheet and label that a house needs, and which of those that were printed are no longer true. Linked into
// `ohmstead-print` only.

#include <map>

#include "cli/print_log.h"

namespace ohmstead {

/// The commands that together print everything for this house, on this paper ("" for the usual).
[[nodiscard]] std::vector<std::vector<std::string>> all_prints(const House& house, const std::string& sheet);

/// How a print stands to what the same words would print now.
struct PrintState {
  bool current = false;  ///< the same text
  std::string gone;      ///< why it cannot be printed any more; empty if it can
};
[[nodiscard]] PrintState state_of(const Printed& printed, const ItemsNow& now);

/// The same, with what the words would print now: each words are asked once.
class StatesNow {
 public:
  explicit StatesNow(const Session& session) : session_(session) {}
  [[nodiscard]] PrintState of(const Printed& printed);

 private:
  const Session& session_;
  std::map<std::string, ItemsNow> now_;  ///< by the words kept
};

/// What was printed last of this item; null if nothing.
[[nodiscard]] const Printed* last_of(const House& house, const std::string& item);

/// Of each item what was printed last, in the order of printing.
[[nodiscard]] std::vector<const Printed*> last_printed(const House& house);

/// Words as one types them: those with spaces or signs of the shell in quotes.
[[nodiscard]] std::string command_text(const std::vector<std::string>& words);

/// A name for what each of these prints, fit for a file: "paper-wall". Small letters, digits and hyphens; two that would be the same get
/// a number.
[[nodiscard]] std::vector<std::string> print_names(const std::vector<std::vector<std::string>>& prints);

}  // namespace ohmstead
