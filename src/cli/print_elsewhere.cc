// In the programs without drawing libraries, printing is done by starting `ohmstead-print` with the same words: those libraries cost
// every start of a program more than a whole answer does.

#include "cli/calculate_options.h"
#include "cli/other_program.h"
#include "cli/run.h"

namespace ohmstead {

int run_directory(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_paper(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_labels(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_from_paper(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_print(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_photo_add(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
int run_is_it_current(Session& session, const Arguments&) { start_other_program(session, "ohmstead-print"); }
void print_calculation_paper(Session& session, const Arguments&, const Shown&) { start_other_program(session, "ohmstead-print"); }

}  // namespace ohmstead
