#pragma once
// What there is to print, told before it is printed, and one of it drawn to be looked at: the page shows both. Linked into
// `ohmstead-print` only.

#include "cli/command.h"

namespace ohmstead {

/// `ohmstead print --list`: each of all_prints with its name and whether its last print is still true; and what was printed, cannot be
/// printed any more, and is to be taken down. With --json as in docs/json-answers.md.
int list_prints(Session& session, const Arguments& arguments);

/// `ohmstead print --look NAME --to FOLDER`: draws that one into the folder as sheet.pdf and page.png, page-2.png, ... Nothing is
/// written down as printed. Throws Error{not_found} for a name that is not in the list.
int print_for_looking(Session& session, const Arguments& arguments);

}  // namespace ohmstead
