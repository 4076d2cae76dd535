#pragma once
// How the people work while tracing, as given on the command line of `trace`.

#include "ask/names.h"
#include "cli/command.h"
#include "trace/manner.h"

namespace ohmstead {

/// What the usual words for looking are called on the command line: tester, sound, lamp, non-contact, eye.
[[nodiscard]] std::string look_words();

/// `kept` with what is given changed. Throws Error{invalid_input} naming the option that makes no
/// sense, Error{not_found} or Error{ambiguous} for a room.
[[nodiscard]] Manner manner_given(const Arguments& arguments, const House& house, const Names& names, Manner kept);

/// The points that `--again` names: one, or all of a room or floor. Throws as above.
[[nodiscard]] std::vector<Id<Point>> again_given(const Arguments& arguments, const House& house, const Names& names);

}  // namespace ohmstead
