#pragma once
// The schedule of a panel as the trade draws it: for each space number, description, breaker, poles and what is
// connected on each leg. A list of what is recorded; it applies no demand factors and is no load calculation.

#include <array>
#include <string>
#include <vector>

#include "ask/record.h"
#include "house/numbering.h"
#include "rules/record_names.h"
#include "rules/wording.h"

namespace ohmstead {

/// Voltamperes on each leg; places behind the last leg of the system stay 0.
using LegVa = std::array<long long, kMostPoles>;

/// One pole of a breaker: where it is, on which leg, and what is connected to it.
struct SchedulePole {
  PolePlace place;
  int leg = 1;       ///< 1-based
  long long va = 0;
};

struct ScheduleEntry {
  CircuitWords words;              ///< description as on the directory (rules/wording.h), and mark of the transfer position
  std::string number;              ///< "12", "9-11", "16a"
  std::string amps;                ///< "20"; "?" where it was not read
  int pole_count = 1;
  std::string kind;                ///< "AFCI", "GFCI", "AFCI/GFCI", "backfed", "feeder", "tied"; joined by ", "; may be empty
  std::vector<SchedulePole> poles; ///< top to bottom
};

/// A load that is counted, or that cannot be.
struct ScheduleLoad {
  std::size_t load = 0;     ///< place in house.loads
  std::string name;         ///< "freezer (Storage)", without persons
  std::string circuit;      ///< "Main 16b"; empty: on no circuit of which anything is known
  long long va = 0;
  std::string basis;        ///< "nameplate", "measured", "a guess", "typical: US DOE"; "not known: counts as nothing"
  std::string why_not;      ///< empty: it is counted; else why it is on no schedule
};

struct PanelSchedule {
  Id<Panel> panel;
  std::string name;                 ///< "Main"
  std::vector<std::string> facts;   ///< where it is, volts, main, what feeds it
  int legs = 2;                     ///< of its bus
  std::vector<ScheduleEntry> entries;  ///< in the order of house.breakers
  LegVa total{};
  std::vector<std::string> sums;    ///< "Leg 1: 5,310 VA, 44.3 A"; each leg, then the whole
};

struct PanelSchedules {
  std::vector<PanelSchedule> panels;   ///< in the order of house.panels
  std::vector<ScheduleLoad> loads;     ///< in the order of house.loads
  static constexpr const char* kHowCounted =
      "Connected load as recorded: of each range the upper end, in voltamperes where the power factor is known, else in watts; a load between "
      "two legs counts half on each; a feeder carries what its panel carries; which of two tied breakers feeds a load cannot be seen, and the first counts it. No demand factor is applied: this is no load calculation (NFPA 70 article 220).";
};

[[nodiscard]] PanelSchedules panel_schedules(const Record& record);

/// "120/240 V, 1 phase", as the trade writes the system.
[[nodiscard]] std::string system_words(VoltageSystem system);

}  // namespace ohmstead
