// In the programs without the page and its server, `ohmstead-page` is started with the same words.

#include <cstdlib>

#include "cli/other_program.h"
#include "cli/run.h"
#include "web/heap.h"

namespace ohmstead {

int run_serve(Session& session, const Arguments&) {
  setenv("GLIBC_TUNABLES", web::kHeapAtStart, 0);
  start_other_program(session, "ohmstead-page");
}
int run_hand_over(Session& session, const Arguments&) { start_other_program(session, "ohmstead-page"); }

}  // namespace ohmstead
