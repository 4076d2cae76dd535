// `ohmstead calculate`: results, JSON, and what is refused in one sentence.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;

TEST(Calculate, works_without_a_house_file_and_shows_every_step) {
  Folder folder;
  const Ran drop = folder.run({"calculate", "drop", "--wire", "12", "--feet", "100", "--amps", "16"});
  EXPECT_EQ(drop.code, 1);  // more than 3 %
  EXPECT_THAT(drop.out, HasSubstr("6.18 V, 5.15 %"));
  EXPECT_THAT(drop.out, HasSubstr("Local code and a licensed electrician decide."));
  EXPECT_EQ(folder.run({"calculate", "drop", "--wire", "12", "--feet", "50", "--amps", "10"}).code, 0);
  EXPECT_THAT(folder.run({"calculate", "ampacity", "--wire", "6"}).out, HasSubstr("It may carry 55.0 A, behind a breaker of at most 60 A"));
  const Ran load = folder.run({"calculate", "load", "--area", "1500", "--item", "range 12 kW", "--item", "dryer 5.5 kW", "--json"});
  EXPECT_EQ(load.code, 0);
  const auto json = nlohmann::json::parse(load.out);
  EXPECT_EQ(json["va"], 18'600);
  EXPECT_EQ(json["neutral_va"], 14'550);
  EXPECT_EQ(json["service_amps"], 100);
  EXPECT_EQ(json["steps"][0]["value"], 4500);
}

TEST(Calculate, voltage_drop_of_a_circuit_as_recorded) {
  Folder folder;
  ASSERT_EQ(folder.start_house("Hall: 2r\nPanel Main in Hall 12 spaces: 1 20 wire 12; 2+4 60 wire 6 35 m shop\n").code, 0);
  const Ran feeder = folder.run({"calculate", "drop", "--circuit", "2"});
  EXPECT_EQ(feeder.code, 0) << feeder.err;
  EXPECT_THAT(feeder.out, HasSubstr("From the record:"));
  EXPECT_THAT(feeder.out, HasSubstr("48 A at 240 V"));
  EXPECT_THAT(folder.run({"calculate", "drop", "--circuit", "1"}).err, HasSubstr("Give the length one way"));
  EXPECT_EQ(folder.run({"calculate", "drop", "--circuit", "1", "--feet", "40", "--amps", "10"}).code, 0);
}

TEST(Calculate, may_a_car_charger_be_added) {
  Folder folder;
  ASSERT_EQ(folder.start_house("Kitchen: 4r, range\nPanel Main in Kitchen 20 spaces, 100 A main: 1 20; 2+4 50\n").code, 0);
  EXPECT_THAT(folder.run({"calculate", "add", "car", "charger", "40", "A"}).err, HasSubstr("Give the floor area"));
  const Ran asked = folder.run({"calculate", "add", "car charger 40 A", "--area", "1500"});
  EXPECT_EQ(asked.code, 1);
  EXPECT_THAT(asked.out, HasSubstr("It is close"));
  EXPECT_EQ(nlohmann::json::parse(folder.run({"calculate", "add", "car charger 16 A", "--area", "1500", "--json"}).out)["verdict"], "fits");
}

TEST(Calculate, a_neutral_and_a_worksheet_on_paper) {
  Folder folder;
  EXPECT_THAT(folder.run({"calculate", "neutral", "--load", "1:15", "--load", "2:10"}).out, HasSubstr("The neutral carries 5.00 A."));
  EXPECT_EQ(nlohmann::json::parse(folder.run({"calculate", "neutral", "--system", "120/208-3", "--load", "1:10", "--load", "2:10", "--load", "3:10", "--json"}).out)["neutral_amps"].get<double>() < 1e-9, true);
  const Ran printed = folder.run({"calculate", "load", "--area", "1500", "--item", "range 12 kW", "-o", "load.pdf"});
  EXPECT_EQ(printed.code, 0) << printed.err;
  EXPECT_THAT(printed.out, HasSubstr("load.pdf"));
  EXPECT_THAT(folder.read("load.pdf"), ::testing::StartsWith("%PDF"));
}

TEST(Calculate, what_does_not_exist_is_refused_in_one_sentence) {
  Folder folder;
  const std::vector<std::pair<std::vector<std::string>, std::string>> cases{
      {{"load", "--area", "1500", "--edition", "2012"}, "no edition of NFPA 70"},
      {{"load", "--area", "1500", "--edition", "2026"}, "not confirmed"},
      {{"load"}, "--area"},
      {{"load", "--area", "1500", "--item", "range"}, "is no load"},
      {{"drop", "--wire", "13", "--feet", "1", "--amps", "1"}, "no wire of the size '13'"},
      {{"drop", "--wire", "12", "--feet", "1", "--meters", "1", "--amps", "1"}, "as --feet or as --meters, not both"},
      {{"drop", "--wire", "12", "--feet", "1", "--amps", "1", "--metal", "gold"}, "--metal is"},
      {{"drop", "--wire", "12", "--feet", "1", "--amps", "1", "--pf", "0.8"}, "--conduit"},
      {{"ampacity", "--wire", "14", "--metal", "aluminum"}, "aluminum begins at 12 AWG"},
      {{"ampacity", "--wire", "12", "--feet", "3"}, "--feet does not belong"},
      {{"ampacity", "--wire", "12", "--ambient-c", "nan"}, "--ambient-c"},
      {{"neutral"}, "at least one load"},
      {{"neutral", "--load", "3:10"}, "Leg 3 does not exist"},
      {{"neutral", "--load", "1-10"}, "--load is"},
      {{"load", "--area", "1500", "-o", "x.pdf", "--date", "tomorrow"}, "date"},
      {{"tea"}, "cannot be calculated"},
  };
  for (const auto& [words, says] : cases) {
    std::vector<std::string> all{"calculate"};
    all.insert(all.end(), words.begin(), words.end());
    const Ran ran = folder.run(all);
    EXPECT_EQ(ran.code, 4) << says;
    EXPECT_THAT(ran.err, HasSubstr(says));
    EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
  }
}

}  // namespace
}  // namespace ohmstead::whole
