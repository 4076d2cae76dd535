#include "ask/wish.h"

#include <gmock/gmock.h>

#include "ask/wish_marks.h"
#include "backup/figures.h"
#include "house/index.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using wish_detail::read_wish;

const Load& load_named(const House& house, const std::string& name) {
  for (const Load& load : house.loads)
    if (load.name == name) return load;
  throw std::runtime_error("no load " + name);
}

TEST(WishMarks, read_what_is_said_in_any_order_and_spacing) {
  const auto freezer = read_wish("chest freezer 100/400 W nameplate, duty 33 %, off at most 8 h, high");
  EXPECT_EQ(freezer.thing, "chest freezer");
  EXPECT_EQ(freezer.running, 100);
  EXPECT_EQ(freezer.starting, 400);
  EXPECT_EQ(freezer.duty, 33);
  EXPECT_EQ(freezer.longest_off_min, 480);
  EXPECT_EQ(freezer.basis, FigureBasis::nameplate);
  EXPECT_EQ(freezer.importance, Importance::high);
  EXPECT_EQ(freezer.use, LoadUse::together);
  const auto microwave = read_wish("microwave, on demand, 1.1kW");
  EXPECT_EQ(microwave.running, 1100);
  EXPECT_EQ(microwave.use, LoadUse::on_demand);
  const auto pump = read_wish("well pump 1/2 hp code l 4.9 A pf 0.8 starts itself continuous at most 90 min off");
  EXPECT_EQ(pump.horsepower_hundredths, 50);
  EXPECT_EQ(pump.code_letter, "L");
  EXPECT_EQ(pump.full_load_deciamps, 49);
  EXPECT_EQ(pump.power_factor, 80);
  EXPECT_TRUE(pump.starts_itself && pump.continuous);
  EXPECT_EQ(pump.longest_off_min, 90);
  EXPECT_EQ(read_wish("not the range").use, LoadUse::not_wanted);
  EXPECT_EQ(read_wish("not the range").thing, "the range");
}

TEST(WishMarks, name_the_word_that_is_not_understood) {
  const std::pair<const char*, const char*> cases[] = {
      {"freezer 100 W sideways", "'sideways'"}, {"freezer duty 133 %", "'duty'"}, {"pump code O", "'O'"}, {"pump pf 1.2", "'1.2'"},
      {"freezer 0 W", "'0'"}, {"freezer 100 W 200 W", "'200'"}, {"oxygen life safety low", "'low'"}, {"freezer off at most 0 h", "'0'"},
      {"pump 0/1 hp", "'0/1'"}, {"100/400 W", "what is wished for is missing"}, {"freezer 100 W off at most 9999999 h", "'9999999'"}};
  for (const auto& [wish, word] : cases) {
    try {
      (void)read_wish(wish);
      ADD_FAILURE() << wish << " was understood";
    } catch (const Error& error) {
      EXPECT_EQ(error.kind, ErrorKind::invalid_input);
      EXPECT_THAT(error.what(), HasSubstr(word)) << wish;
    }
  }
}

TEST(Wishes, change_the_load_that_is_there_and_say_what_was_understood) {
  const House house = sample_house();
  const Names names(house);
  const Wished wished = with_wishes(house, names, "freezer nameplate, off at most 8 h; refrigerator not wanted");
  EXPECT_EQ(wished.house.loads.size(), house.loads.size());
  const Load& freezer = load_named(wished.house, "freezer");
  EXPECT_EQ(freezer.running_watts, 100);  // as it was
  EXPECT_EQ(freezer.basis, FigureBasis::nameplate);
  EXPECT_EQ(freezer.use, LoadUse::together);
  EXPECT_EQ(wanted_use(load_named(wished.house, "refrigerator")), LoadUse::not_wanted);
  EXPECT_EQ(wished.loads.size(), 2U);
}

TEST(Wishes, a_light_or_a_thing_that_is_plugged_in_becomes_a_load) {
  const House house = sample_house();
  const Names names(house);
  const Wished wished = with_wishes(house, names, "kitchen lights; hair dryer at upper hall receptacle 1500 W, on demand");
  ASSERT_EQ(wished.house.loads.size(), house.loads.size() + 4);  // three ceiling lights and the dryer
  EXPECT_EQ(wished.house.loads.back().name, "hair dryer");
  EXPECT_EQ(wished.house.loads.back().use, LoadUse::on_demand);
  EXPECT_EQ(row(wished.house, wished.house.loads.back().point).name, "receptacle 1");
}

TEST(Wishes, what_is_in_no_record_is_refused_and_nothing_changes) {
  const House house = sample_house();
  const Names names(house);
  for (const char* wish : {"sauna 6 kW", "hair dryer at the moon", "freezer 100/50 W", "", " ; ;"}) {
    EXPECT_THROW((void)with_wishes(house, names, wish), Error) << wish;
  }
  EXPECT_THROW((void)with_wishes(house, names, std::string(3000, 'x')), Error);
}

TEST(Wishes, the_nearest_things_are_named_once_each_though_a_thing_and_its_place_are_called_alike) {
  const House house = sample_house();
  try {
    (void)with_wishes(house, Names(house), "freezer -100 W");
    FAIL();
  } catch (const Error& error) {
    const std::string said = error.what();
    EXPECT_NE(said.find("Storage freezer"), std::string::npos) << said;
    EXPECT_EQ(said.find("Storage freezer"), said.rfind("Storage freezer")) << said;
  }
}

TEST(Wishes, what_the_record_could_not_hold_is_refused) {
  const House house = sample_house();
  const Names names(house);
  for (const char* wish : {"ha\xff\xffir dryer at upper hall receptacle", "hair\x01 dryer at upper hall receptacle", "caf\xc3 at upper hall receptacle"}) {
    EXPECT_THROW((void)with_wishes(house, names, wish), Error) << wish;
  }
  EXPECT_NO_THROW((void)with_wishes(house, names, "caf\xc3\xa9 maker at upper hall receptacle"));
}

}  // namespace
}  // namespace ohmstead
