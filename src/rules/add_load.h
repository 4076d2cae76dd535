#pragma once
// May a load be added to an existing dwelling: 'a 40 A car charger'? Computed two ways: as the code has it for existing dwellings
// (220.83), and carefully, with the new load counted whole on top; only if both fit is the answer yes.

#include "rules/load_calculation.h"

namespace ohmstead {

struct AddCase {
  DwellingCase house;       ///< as it is; its method is taken as `existing`
  DwellingItem added;
  bool continuous = false;  ///< runs three hours or more, as car chargers and electric heat do: 125 % of it
  int service_amps = 0;     ///< rating of the main; 0: not known
};

enum class MayAdd {
  fits,           ///< both ways
  close,          ///< by 220.83 alone
  does_not_fit,   ///< not even by 220.83
  not_known,      ///< the rating of the service is not known
};

struct AddAnswer {
  MayAdd verdict = MayAdd::not_known;
  double amps_now = 0;      ///< by 220.83, without it
  double amps_by_rule = 0;  ///< with it
  double amps_careful = 0;  ///< as now, and the new load whole
  double added_amps = 0;
  int circuit_amps = 0;     ///< smallest standard breaker for its circuit, 125 % where it is continuous; 0: above 400
  Calculation calculation;
};

/// Throws as dwelling_load() does.
[[nodiscard]] AddAnswer may_add(const AddCase& given);

}  // namespace ohmstead
