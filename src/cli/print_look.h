#pragma once
// What there is to print, told before it is printed; one of it drawn to be looked at; and one that was looked at, and then printed by
// other means, written down as printed. The page does all three. Linked into
// `ohmstead-print` only.

#include "cli/command.h"

namespace ohmstead {

/// `ohmstead print --list`: each of all_prints with its name and whether its last print is still true; and what was printed, cannot be
/// printed any more, and is to be taken down. With --json as in docs/json-answers.md.
int list_prints(Session& session, const Arguments& arguments);

/// `ohmstead print --look NAME --to FOLDER`: draws that one into the folder as sheet.pdf and page.png, page-2.png, ... Nothing is
/// written down as printed. Throws Error{not_found} for a name that is not in the list.
int print_for_looking(Session& session, const Arguments& arguments);

/// `ohmstead print --printed NAME --revision N`: writes down that this one was printed, as drawn when the record was at revision N, exactly as
/// the command that prints it would have then. Without --revision: as the record is now. Throws Error{not_found} for a name that was not in
/// the list then, or a revision that is not kept any more; {invalid_input} for what could not be printed then.
int keep_as_printed(Session& session, const Arguments& arguments);

}  // namespace ohmstead
