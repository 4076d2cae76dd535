#include "backup/plan.h"

namespace ohmstead {

bool better(const PlanScore& a, const PlanScore& b) {
  if (a.life_safety != b.life_safety) return a.life_safety > b.life_safety;
  if (a.importance != b.importance) return a.importance > b.importance;
  if (a.imbalance != b.imbalance) return a.imbalance < b.imbalance;
  return a.moves < b.moves;
}

}  // namespace ohmstead
