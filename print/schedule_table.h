#pragma once
// The schedule of a panel as a table in physical order: odd spaces left and even right (or as the panel is numbered), a
// breaker of several poles over all its spaces, the halves of a tandem apart, volt-amperes in the column of the leg.

#include "ask/panel_schedule.h"
#include "print/house_papers.h"

namespace ohmstead {

struct ScheduleTable {
  PaperBlock head;
  PaperBlocks rows;  ///< each holds whole breakers
};

[[nodiscard]] ScheduleTable schedule_table(const House& house, const PanelSchedule& schedule, double width_mm);

/// Title, facts, table and sums.
void add_schedule(Paper& paper, const House& house, const PanelSchedule& schedule);

}  // namespace ohmstead
