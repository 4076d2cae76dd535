#include <algorithm>
#include <ostream>

#include "ask/local_time.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_log.h"
#include "cli/print_set.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

std::string shown(const std::vector<std::string>& words) { return "`ohmstead " + command_text(words) + "`"; }

std::string when(const Printed& printed) { return printed.at.substr(0, 10) + ", rev " + std::to_string(printed.revision); }

/// It was printed from this file; is it still what would be printed?
int tell_of_printed(Session& session, const House& house, const Printed& printed) {
  const StillTrue now = is_still_true(session, printed);
  const std::string what = "The " + printed.name + " of " + when(printed);
  if (now.current) {
    session.out << "Yes. " << terminal::printable(what) << " says what the record says now.\n";
    return kDone;
  }
  const Printed* last = last_of(house, printed.item);
  session.out << "No. " << terminal::printable(what + (now.why.empty() ? " is no longer true." : " cannot be printed any more: " + now.why)) << '\n';
  if (!now.why.empty()) session.out << "Take it down.\n";
  else if (last != &printed && is_still_true(session, *last).current) session.out << "It was printed again (" << when(*last) << ", check " << printed_check_code(last->code) << "). Put that one up.\n";
  else session.out << "Print it again: " << terminal::printable(shown(words_kept(printed.words))) << '\n';
  return kDoneButNo;
}

}  // namespace

int run_is_it_current(Session& session, const Arguments& arguments) {
  const std::string typed = phrase(arguments.texts("CODE"));
  const auto code = read_check_code(typed);
  if (!code)
    throw Error(ErrorKind::invalid_input, "A check code has six letters and digits, such as 7Q2-K9D; '" + terminal::printable(typed.substr(0, 40)) + "' is none. It stands at the foot of a sheet or on a label.");
  const House house = open_house(session, Access::read).load();
  const auto known = std::ranges::find(house.printed.rbegin(), house.printed.rend(), *code, &Printed::code);
  if (known != house.printed.rend()) return tell_of_printed(session, house, *known);
  for (const std::vector<std::string>& words : all_prints(house, "")) {
    std::string why;
    for (const PrintedItem& item : items_now(session, words, why)) {
      if (item.code != *code) continue;
      session.out << "Yes. It is what the " << terminal::printable(item.name) << " would say now, though this file does not know that it was printed.\n";
      return kDone;
    }
  }
  session.out << "Not known. Nothing with the code " << printed_check_code(*code)
              << " was printed from this file: look at the code again; else it is from another copy of the file, or older. Do not rely on it.\n";
  return kDoneButNo;
}

}  // namespace ohmstead
