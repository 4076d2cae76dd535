#pragma once
// A plan as it goes on paper: the parts of its answer apart, and what rides where as the rows of a table.

#include <string>
#include <vector>

#include "ask/plan_answer.h"

namespace ohmstead {

/// One load in the table.
struct PlanSheetLoad {
  std::string words;     ///< "freezer (Storage)", "when wanted: microwave (Kitchen)"
  std::string running;   ///< "100 W"; "?" where nothing is known
  std::string starting;  ///< "400 W"; empty where it starts with what it runs with
};

/// A circuit that is carried.
struct PlanSheetRow {
  std::string place;    ///< "5 and 6 (20 A)"; empty where the breaker itself stays on
  std::string legs;     ///< "1", "1 and 2"
  std::string breaker;  ///< "20-22 in Main"
  std::vector<PlanSheetLoad> loads;  ///< what runs together first; empty: nothing wished for
};

struct PlanSheet {
  std::string what;      ///< "Generator: 3,600 W running, 4,500 W for a start; Transfer with 8 positions."
  Lines doubts;          ///< before everything else
  std::vector<PlanSheetRow> rows;  ///< by position, or by breaker
  bool positions = true; ///< false: the rows are breakers that stay on, all others are switched off
  Lines sums, flags, not_served;
  bool wired = false;    ///< every position carries now what the plan says
};

[[nodiscard]] PlanSheet plan_sheet(const Record& record, const Names& names, const PlanAnswer& answer);

/// The same as plain text for a code, one sentence a line.
[[nodiscard]] std::vector<std::string> text_of(const PlanSheet& sheet);

}  // namespace ohmstead
