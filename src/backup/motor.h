#pragma once
// Motors by what their nameplate says: full-load current by horsepower, and what the code letter says about
// the moment of starting. Sources and status: docs/standards.md.

#include <optional>

#include "backup/figures.h"

namespace ohmstead {

/// Locked-rotor kilovoltamperes for each horsepower, of a NEMA code letter.
struct CodeLetter {
  char letter = 'A';
  double low = 0, high = 0;  ///< kVA/hp as printed
  bool open = false;         ///< letter V: `low` and up, no upper end is printed
};

/// Nothing for a letter that is not used (I, O, Q, or no capital letter). NEMA MG 1-10.37.2, NFPA 70 Table 430.7(B).
[[nodiscard]] std::optional<CodeLetter> code_letter(char letter);

/// Voltamperes with the rotor at rest: horsepower times kVA/hp. No horsepower: nothing. The same at every voltage.
[[nodiscard]] std::optional<WattRange> locked_rotor_va(int horsepower_hundredths, char letter);

/// Full-load tenths of an ampere at 115 V of a single-phase motor of this size, or the next larger in the table
/// (NFPA 70 Table 430.248); at 230 V it is half. Nothing below 1/6 hp or above 10 hp.
[[nodiscard]] std::optional<int> full_load_deciamps_115(int horsepower_hundredths);

/// The letter that single-phase motors of this size usually have (EASA handbook): 1/2 hp L ... 5 hp G. Nothing for other sizes.
[[nodiscard]] std::optional<char> usual_code_letter(int horsepower_hundredths);

}  // namespace ohmstead
