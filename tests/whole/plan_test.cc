// Wishes and plans, told to the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

class Plan : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
    const Ran ran = folder.run({"enter", "-"},
                               "Cellar: freezer 100/400 W, well pump 240 V 750/2200 W, furnace 500/1200 W\nHall: 1r, 1l\n"
                               "Panel Main in Cellar 20 spaces, 100 A main: 1 20; 3 15; 5 15; 2+4 20; 6 20; 8 15\n"
                               "Generator G 3600/4500 W 120/240, gasoline, 11 L tank, uses 0.8/1.2/1.7/2.2 L/h\n"
                               "Transfer T in Cellar 6 positions from G: 1 15; 2 20; 3+4 20; 5 15; 6 15\n"
                               "By J.\nCellar freezer <- Main 3\nCellar well pump <- Main 2+4\nCellar furnace <- Main 5\nHall receptacle 1 <- Main 1\nHall light <- Main 8\n");
    ASSERT_EQ(ran.code, 0) << ran.err;
  }
  Json plan() { return Json::parse(folder.run({"plan", "--json"}).out); }
  /// Name of the position that carries the load, or "".
  std::string place_of(const Json& json, const std::string& load) {
    for (const Json& circuit : json["circuits"])
      for (const Json& one : circuit["loads"])
        if (one["name"] == load) return circuit["poles"][0]["position"].is_null() ? "" : circuit["poles"][0]["position"]["name"].get<std::string>();
    return "";
  }
  /// What the program says, lines joined as they were before they were wrapped.
  std::string said(const std::vector<std::string>& words) {
    std::string text;
    for (const char c : folder.run(words).out)
      if ((c != ' ' && c != '\n') || (!text.empty() && text.back() != ' ')) text += c == '\n' ? ' ' : c;
    return text;
  }
  Folder folder;
};

TEST_F(Plan, from_the_wish_to_the_kept_plan) {
  EXPECT_THAT(said({"plan"}), HasSubstr("furnace (Cellar) 500 W (1,200 W to start)"));  // of high importance by its kind
  EXPECT_EQ(folder.run({"wish", "hall", "light;", "freezer", "nameplate,", "off", "at", "most", "8", "h"}).code, 0);
  EXPECT_THAT(said({"wish"}), HasSubstr("Freezer (Cellar): 100 W (nameplate), 400 W to start; important; off at most 8 h"));
  const std::string shown = said({"plan"});
  EXPECT_THAT(shown, HasSubstr("The best plan for G; no other serves more of what matters."));
  EXPECT_THAT(shown, HasSubstr("Positions 3 and 4 (20 A): breaker 2-4, well pump (Cellar) 750 W (2,200 W to start)"));
  EXPECT_THAT(shown, HasSubstr("Fuel for three days like this: about"));
  EXPECT_THAT(folder.run({"plan", "--kept"}).err, HasSubstr("No plan is kept yet"));
  EXPECT_THAT(folder.run({"plan", "--keep"}).out, HasSubstr("Kept as the plan, revision"));
  EXPECT_THAT(folder.run({"plan", "--kept"}).out, HasSubstr("The plan that is kept for G."));
  EXPECT_EQ(folder.run({"check"}).code, 0);
}

TEST_F(Plan, pins_hold_until_they_are_taken_away) {
  EXPECT_EQ(folder.run({"plan", "--pin", "freezer on 6", "--never", "furnace"}).code, 0);
  Json json = plan();
  EXPECT_EQ(place_of(json, "freezer"), "T position 6");
  EXPECT_EQ(place_of(json, "furnace"), "");
  EXPECT_EQ(folder.run({"plan", "--unpin", "all"}).code, 0);
  EXPECT_NE(place_of(plan(), "furnace"), "");
}

TEST_F(Plan, tied_positions_are_pinned_as_the_screens_write_them) {
  for (const char* place : {"3+4", "position 3+4", "T position 3+4"}) {
    EXPECT_EQ(folder.run({"plan", "--pin", std::string("well pump on ") + place}).code, 0) << place;
    EXPECT_EQ(place_of(plan(), "well pump"), "T position 3") << place;
  }
  const Ran ran = folder.run({"plan", "--pin", "well pump on 3+5"});
  EXPECT_EQ(ran.code, 4);
  EXPECT_THAT(ran.err, HasSubstr("No tied positions are called '3+5'; there are 3+4."));
}

TEST_F(Plan, a_circuit_of_15_amperes_never_rides_on_20) {
  const Ran ran = folder.run({"plan", "--pin", "freezer on 2"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("There is no plan for G that does what is pinned"));
}

TEST_F(Plan, refusals_are_one_sentence_and_change_nothing) {
  const std::string before = folder.run({"export"}).out;
  const std::pair<std::vector<std::string>, const char*> cases[] = {
      {{"wish", "sauna", "6", "kW"}, "sauna"},
      {{"wish", "freezer", "100", "W", "sideways"}, "'sideways'"},
      {{"plan", "--pin", "freezer"}, "takes a thing and a position"},
      {{"plan", "--pin", "freezer on 77"}, "77"},
      {{"plan", "--source", "nowhere"}, "nowhere"},
      {{"plan", "--pin", "freezer on 5", "--pin", "freezer on 6"}, "Two pins of this command are for Main panel breaker 3"},
      {{"plan", "--must", "freezer", "--never", "freezer"}, "Two pins of this command are for Main panel breaker 3"},
      {{"plan", "--pin", "freezer on 1", "--pin", "furnace on 1"}, "Two things of this command are pinned to position 1"},
      {{"plan", "--sizes", ","}, "names no size"},
  };
  for (const auto& [words, said] : cases) {
    const Ran ran = folder.run(words);
    EXPECT_EQ(ran.code, 4) << ran.out << ran.err;
    EXPECT_THAT(ran.err, HasSubstr(said));
    EXPECT_THAT(ran.out, Not(HasSubstr("Saved")));
  }
  EXPECT_EQ(folder.run({"export"}).out, before);
}

TEST_F(Plan, more_circuits_of_two_poles_than_tied_positions_are_said_to_be_so) {
  EXPECT_THAT(said({"plan"}), Not(HasSubstr("tied positions")));
  EXPECT_EQ(folder.run({"enter", "-"}, "Cellar: heater 240 V 900 W !\nPanel Main: 10+12 20\nBy J.\nCellar heater <- Main 10+12\n").code, 0);
  EXPECT_EQ(folder.run({"wish", "heater"}).code, 0);
  EXPECT_THAT(said({"plan"}), HasSubstr("2 circuits of two poles are wished for, and the transfer device has 1 pair of tied positions for them."));
}

TEST_F(Plan, who_depends_on_what_is_not_traced_is_said_at_the_top) {
  EXPECT_EQ(folder.run({"enter", "--line", "Loft: oxygen concentrator 350 W !!"}).code, 0);
  EXPECT_THAT(said({"plan"}), HasSubstr("! Somebody depends on oxygen concentrator (Loft): until it is in a plan and the wiring is proved, it needs a battery or cylinders of its own."));
}

TEST_F(Plan, what_is_not_traced_is_said_at_the_top) {
  EXPECT_EQ(folder.run({"enter", "--line", "Loft: router 15 W"}).code, 0);
  EXPECT_THAT(said({"plan"}), StartsWith("! Not in this plan, because it is not known which breaker feeds it: router (Loft)."));
}

}  // namespace
}  // namespace ohmstead::whole
