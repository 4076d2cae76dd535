#include <gmock/gmock.h>

#include "backup/plan.h"

namespace ohmstead {
namespace {

TEST(PlanScore, life_safety_comes_before_importance_balance_and_moves) {
  const PlanScore life{.life_safety = 1}, important{.importance = 900}, balanced{.importance = 5, .imbalance = 10, .moves = 9},
      fewer_moves{.importance = 5, .imbalance = 11, .moves = 0};
  EXPECT_TRUE(better(life, important));
  EXPECT_FALSE(better(important, life));
  EXPECT_TRUE(better(balanced, fewer_moves));
  EXPECT_FALSE(better(life, life));
}

}  // namespace
}  // namespace ohmstead
