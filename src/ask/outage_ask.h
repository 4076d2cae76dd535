#pragma once
// "May I switch on the microwave?": from a person's words to a thing and a place.

#include <string>
#include <string_view>

#include "ask/names.h"
#include "backup/may_i.h"

namespace ohmstead {

struct AskedInWords {
  AskedThing thing;
  std::string name;  ///< what it is called in the answer
};

/// `words`: a load of the record ("freezer"), a kind of thing ("hair dryer"; the most that is published counts), either
/// with watts of its own ("kettle 1500 W", "pump 800/2400 W"). `at`: a receptacle, or a room whose receptacles are all alike; may be
/// empty for a load of the record. Throws Error{not_found}, {ambiguous} or {invalid_input} with a sentence that says what to add.
[[nodiscard]] AskedInWords asked_in_words(const OutageView& view, const Names& names, std::string_view words, std::string_view at);

/// Can it be found without saying where it is?
[[nodiscard]] bool is_in_record(const OutageView& view, const Names& names, std::string_view words);

/// The line of the log that says that it was switched on or off. Throws as above; for `off` a guest's thing is found by its name.
[[nodiscard]] OutageEvent switched_in_words(const OutageView& view, const Names& names, bool on, std::string_view words, std::string_view at);

/// The handle and throw of "handle 3 to backup", "handles 5 and 6 on T backup", "breaker 12 on"; one, or all that are tied. Throws as above.
[[nodiscard]] OutageEvent moved_in_words(const OutageView& view, const Names& names, std::string_view words);

/// What somebody tells of an outage, one of kOutageTold: on, off (`words` a thing, `at` a place), moved, gone, back, gave-up, stopped, gives (watts), refuel,
/// refuelled, note. Time and person are the caller's to fill in. Throws as above.
[[nodiscard]] OutageEvent told_in_words(const OutageView& view, const Names& names, std::string_view what, const std::string& words, const std::string& at);
inline constexpr std::string_view kOutageTold[] = {"on", "off", "moved", "gone", "back", "gave-up", "stopped", "gives", "refuel", "refuelled", "note"};

/// Whole watts of "2000", "2,000 W"; throws Error{invalid_input}.
[[nodiscard]] int watts_in_words(std::string_view words);

}  // namespace ohmstead
