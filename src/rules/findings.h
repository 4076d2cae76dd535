#pragma once
// What stands against a rule of the trade in a record: what was looked at, what was found, why it matters, how sure the record is, and
// the rule it rests on. Nothing here opens a wall: a finding is where somebody who may should look. The electrician's packet, the
// command `findings` and its JSON render these values. Each rule's id is one word with underscores and is never reused.

#include <cstdint>
#include <string>
#include <vector>

#include "feed/feeds.h"
#include "house/house.h"

namespace ohmstead {

/// Most urgent first.
enum class Severity {
  danger,  ///< it can hurt somebody, or start a fire
  fix,     ///< against a rule, or it cannot work as it is
  tidy,    ///< wording and order
  note,    ///< to know and to ask about; what the rule asks depends on the year of the work
};
OHMSTEAD_WORDS(Severity, "danger", "fix", "tidy", "note")

struct Finding {
  std::string rule;              ///< "breaker_over_wire"
  Severity severity = Severity::note;
  std::vector<ThingRef> things;  ///< what it looked at, the first one first; never empty
  std::string found;             ///< one or two full sentences
  std::string why;               ///< one sentence: why it matters
  std::string sure;              ///< how sure the record is: "as recorded"; "the feed of X is likely, not proved"
  std::string citation;          ///< "NFPA 70 210.4(B) (2008 and later), secondary"; "common practice, no source"; empty: of the record itself
};

/// What hangs on a breaker, in amperes of its most loaded pole (ask/house_findings.h fills it from loads and their figures).
struct BreakerLoad {
  Id<Breaker> breaker;
  double amps = 0;             ///< everything recorded on it, at once
  double continuous_amps = 0;  ///< of that what runs three hours or more
  double wanted_amps = 0;      ///< what is wanted together in an outage
};

struct FindingsInput {
  const House& house;
  const Feeds& feeds;
  std::vector<BreakerLoad> loads;  ///< of any breakers, each once
  std::int64_t revision = 0;       ///< of the record; 0: not known, and then nothing is said of what was printed before
};

struct Findings {
  std::vector<Finding> found;            ///< most urgent first, within that in the order of the rules
  std::vector<std::string> not_checked;  ///< full sentences: what this record cannot decide; never empty
};

[[nodiscard]] Findings rule_findings(const FindingsInput& input);

}  // namespace ohmstead
