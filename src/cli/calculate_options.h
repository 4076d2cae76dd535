#pragma once
// What is calculated, read from the options of `ohmstead calculate`.

#include "cli/command.h"
#include "ask/answer_words.h"
#include "rules/ampacity.h"
#include "rules/load_calculation.h"
#include "rules/neutral_current.h"
#include "rules/voltage_drop.h"

namespace ohmstead {

/// All throw Error{invalid_input} that names the option that is missing or makes no sense.
[[nodiscard]] int edition_of(const Arguments& arguments);
/// Over what `given` has. `all`: nothing is in it yet, so wire, length and current must be given.
void take_drop_options(const Arguments& arguments, DropCase& given, bool all);
[[nodiscard]] AmpacityCase ampacity_case(const Arguments& arguments);
[[nodiscard]] NeutralCase neutral_case(const Arguments& arguments);
/// Area, circuits, method and items over what `given` has.
void take_load_options(const Arguments& arguments, DwellingCase& given);

/// What `--output` puts on paper.
struct Shown {
  const Calculation& calculation;
  const Lines& lines;
  std::string house;  ///< name of the house whose record was used; empty: none was
};
/// In `ohmstead` it starts `ohmstead-print` with the same words; there it writes the PDF.
void print_calculation_paper(Session& session, const Arguments& arguments, const Shown& shown);

}  // namespace ohmstead
