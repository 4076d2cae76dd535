#include "db/keeper.h"

#include <gmock/gmock.h>

#include "temp_folder.h"

namespace ohmstead {
namespace {

/// A file that two programs have open.
struct Two {
  TempFolder folder;
  HouseFile mine = HouseFile::create(folder / "a.house", Dwelling{Id<Dwelling>::fresh(), "Flat"});
  HouseFile theirs = HouseFile::open(folder / "a.house", Access::change);
  Keeper keeper{mine};

  [[nodiscard]] House with_floor(const std::string& name) const {
    House next = keeper.house();
    next.floors.push_back({.id = Id<Floor>::fresh(), .name = name});
    return next;
  }
  void they_print() {
    theirs.change("print", [](House& house) {
      house.printed.push_back({.id = Id<Printed>::fresh(), .item = "directory", .name = "Directory", .words = "[\"directory\"]", .at = "2026-11-27T12:00:00Z", .revision = 1, .code = "7Q2K9D"});
    });
  }
};

TEST(Keeper, what_others_changed_is_noticed_once_and_never_overwritten) {
  Two two;
  EXPECT_FALSE(two.keeper.changed_by_others());
  two.theirs.change("a floor", [](House& house) { house.floors.push_back({.id = Id<Floor>::fresh(), .name = "Theirs"}); });
  EXPECT_EQ(message_of(ErrorKind::conflict, [&] { two.keeper("mine", two.with_floor("Mine")); }).substr(0, 15), "Another program");
  EXPECT_EQ(two.theirs.load().floors.size(), 1U);
  EXPECT_TRUE(two.keeper.changed_by_others());
  EXPECT_FALSE(two.keeper.changed_by_others());
  two.keeper("mine", two.with_floor("Mine"));
  EXPECT_EQ(two.theirs.load().floors.size(), 2U);
  EXPECT_EQ(two.keeper.revision(), two.theirs.revision());
  EXPECT_FALSE(two.keeper.changed_by_others());
}

TEST(Keeper, what_others_printed_is_no_change_and_is_not_lost) {
  Two two;
  two.they_print();
  two.keeper("mine", two.with_floor("Mine"));
  EXPECT_EQ(two.theirs.load().printed.size(), 1U);
  EXPECT_EQ(two.theirs.load().floors.size(), 1U);
  two.they_print();
  EXPECT_FALSE(two.keeper.changed_by_others());
  two.keeper("mine", two.with_floor("Mine again"));
  EXPECT_EQ(two.theirs.load().printed.size(), 2U);
  EXPECT_EQ(two.keeper.house(), two.theirs.load());
}

TEST(Keeper, a_request_that_was_taken_before_changes_nothing_here_either) {
  Two two;
  two.keeper("mine", two.with_floor("Mine"), "onlyonce");
  two.keeper("mine", two.with_floor("Mine twice"), "onlyonce");
  EXPECT_EQ(two.keeper.house(), two.theirs.load());
  EXPECT_EQ(two.keeper.house().floors.size(), 1U);
}

TEST(Keeper, the_house_that_was_shared_stays_as_it_was_and_is_not_a_copy) {
  Two two;
  const auto before = two.keeper.shared();
  EXPECT_EQ(before.get(), &two.keeper.house());
  two.they_print();
  two.keeper("mine", two.with_floor("Mine"));
  EXPECT_TRUE(before->floors.empty() && before->printed.empty());
  EXPECT_EQ(two.keeper.shared()->floors.size(), 1U);
}

}  // namespace
}  // namespace ohmstead
