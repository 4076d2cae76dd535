#include "ask/names.h"

#include <gtest/gtest.h>

#include "house/index.h"

namespace ohmstead {
namespace {

TEST(Names, an_empty_house_has_no_names_but_its_own) {
  House house;
  house.dwelling = {Id<Dwelling>::fresh(), "Hillside", {}};
  const Names names(house);
  EXPECT_TRUE(names.find("kitchen").best.empty());
  EXPECT_EQ(names.find("hillside").best.size(), 1u);
}

}  // namespace
}  // namespace ohmstead
