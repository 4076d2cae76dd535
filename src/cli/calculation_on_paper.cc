// `ohmstead calculate ... --output`: the worksheet as a PDF. In `ohmstead-print` only.

#include <ostream>

#include "ask/printable.h"
#include "cli/calculate_options.h"
#include "cli/print_files.h"
#include "db/output_file.h"
#include "print/calculation_paper.h"

namespace ohmstead {

void print_calculation_paper(Session& session, const Arguments& arguments, const Shown& shown) {
  const std::string path = arguments.text("--output");
  const PrintedPaper printed = print_calculation({shown.calculation, shown.lines, shown.house, arguments.text("--date", session.now().substr(0, 10)), sheet_named(arguments)});
  write_output_file(path, printed.pdf);
  show_warnings(session, printed.warnings);
  session.out << "Printed the calculation to " << terminal::printable(path) << ", " << printed.pages << (printed.pages == 1 ? " page" : " pages") << ".\n";
}

}  // namespace ohmstead
