#pragma once
// The functions behind the commands, one in each cmd_*.cc.

#include "cli/command.h"

namespace ohmstead {

int run_new(Session&, const Arguments&);
int run_enter(Session&, const Arguments&);
int run_survey(Session&, const Arguments&);
int run_trace(Session&, const Arguments&);
int run_saw(Session&, const Arguments&);
int run_off(Session&, const Arguments&);
int run_where(Session&, const Arguments&);
int run_carries(Session&, const Arguments&);
int run_isolate(Session&, const Arguments&);
int run_restore(Session&, const Arguments&);
int run_diagnose(Session&, const Arguments&);
int run_plan(Session&, const Arguments&);
int run_wish(Session&, const Arguments&);
int run_ask(Session&, const Arguments&);
int run_find(Session&, const Arguments&);
int run_note(Session&, const Arguments&);
int run_status(Session&, const Arguments&);
int run_worksheet(Session&, const Arguments&);
int run_prove(Session&, const Arguments&);
int run_outage(Session&, const Arguments&);
/// In `ohmstead` it starts `ohmstead-print`, which links the drawing libraries; there it prints.
/// Why two programs: docs/decisions/0003-printing-is-a-second-program.md.
int run_directory(Session&, const Arguments&);
int run_paper(Session&, const Arguments&);  ///< the same
int run_labels(Session&, const Arguments&);  ///< the same
int run_paper_copy(Session&, const Arguments&);  ///< `paper copy`, called by run_paper
int run_from_paper(Session&, const Arguments&);  ///< the same as run_directory
int run_print(Session&, const Arguments&);  ///< the same
int run_photo(Session&, const Arguments&);
int run_photo_add(Session&, const Arguments&);  ///< `photo add`, called by run_photo; the same as run_directory
int run_is_it_current(Session&, const Arguments&);  ///< the same
/// In `ohmstead` it starts `ohmstead-page`, which has the page and its server; there it serves.
int run_serve(Session&, const Arguments&);
int run_hand_over(Session&, const Arguments&);  ///< the same: there it writes the page as one file
int run_export(Session&, const Arguments&);
int run_import(Session&, const Arguments&);
int run_calculate(Session&, const Arguments&);
int run_findings(Session&, const Arguments&);
int run_history(Session&, const Arguments&);
int run_undo(Session&, const Arguments&);
int run_redo(Session&, const Arguments&);
int run_merge(Session&, const Arguments&);
int run_check(Session&, const Arguments&);
int run_copy(Session&, const Arguments&);
int run_keystrokes(Session&, const Arguments&);

}  // namespace ohmstead
