#pragma once
// The plan as a picture: one column a leg, blocks for the loads, against what the source gives. Terminal, paper and page draw this
// value and compute nothing of their own.

#include <string>
#include <vector>

#include "backup/plan_problem.h"

namespace ohmstead {

struct PictureBlock {
  std::size_t load = 0;     ///< place in house.loads
  int circuit = 0;          ///< place in BackupCase::circuits
  int watts = 0;            ///< its share on this leg, running
  bool half = false;        ///< the rest of it is on another leg
  bool operator==(const PictureBlock&) const = default;
};

struct PictureColumn {
  int leg = 1;
  int limit = 0, starting_limit = 0;  ///< watts on this leg
  int running = 0;                    ///< sum of the blocks
  int start_extra = 0;                ///< room that the largest start among them needs on top, for a moment
  std::vector<PictureBlock> together; ///< bottom first: largest at the bottom
  std::vector<PictureBlock> on_demand;  ///< served, one at a time, on top of all the others
  bool operator==(const PictureColumn&) const = default;
};

struct PlanPicture {
  std::vector<PictureColumn> columns;  ///< one a leg; a single one where the source has one output
  int limit = 0, running = 0, starting_limit = 0, start_extra = 0;  ///< in all
};

[[nodiscard]] PlanPicture plan_picture(const BackupCase& backup, const Plan& plan);

}  // namespace ohmstead
