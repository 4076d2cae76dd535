// Texts that are refused, and the sentence that says why.

#include <gmock/gmock.h>

#include <random>

#include "house/error.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace ohmstead {
namespace {

std::string refusal_of(const std::string& text) {
  try {
    (void)enter_text(House{}, text);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind, ErrorKind::invalid_input);
    return error.what();
  }
  return "accepted";
}

struct Refused {
  const char* text;
  const char* sentence;  ///< part of the message
};

TEST(Refused, says_the_line_the_word_and_what_is_expected) {
  const Refused cases[] = {
      {"Hall: 1r\nKitchen: dishwaser", "line 2: 'dishwaser' is not a thing I know (dishwasher?)"},
      {"Kitchen: receptcles", "'receptcles' is not a thing I know (receptacle?)"},
      {"Kitchen: blorb", "'blorb' is not a thing I know; if it is one, give its watts"},
      {"Kitchen 4 receptacles", "line 1: 'Kitchen 4 receptacles' is not understood: a room needs ':'"},
      {"Kitchen: 0 lights", "the count '0' must be from 1 to 500"},
      {"Kitchen: 501 lights", "the count '501' must be from 1 to 500"},
      {"Kitchen: 4", "a thing is expected"},
      {"Kitchen: receptacle 25 A", "'25 A' is not a rating of a receptacle; expected is 15 A, 20 A, 30 A, 50 A or 60 A"},
      {"Kitchen: 2 lights 20 A", "only a receptacle is rated in amperes here, not 'light'"},
      {"Kitchen: receptacle with heater 10 A", "at '10 A' watts are expected"},
      {"Kitchen: 1r\nRated Kitchen receptacle 1", "line 2: write 'Rated ROOM RECEPTACLES: AMPERES'"},
      {"Kitchen: 1r\nRated Kitchen receptacle 1: much", "line 2: 'much' is not a rating of a receptacle"},
      {"Kitchen: 1l\nRated Kitchen light: 20 A", "line 2: 'light' is no receptacle"},
      {"Kitchen: freezer -100 W", "I do not understand '-100'"},
      {"Kitchen: freezer 0/400 W", "'0/400 W': a thing draws 1 W or more; leave the watts away where they are not known."},
      {"Kitchen: freezer 0 W", "a thing draws 1 W or more"},
      {"Kitchen: freezer 600/100 W", "fewer watts to start than to run"},
      {"Kitchen: freezer 3000 kW", "more than a house can have"},
      {"Kitchen: freezer 300 V", "'300 V' is not a voltage of a house"},
      {"Kitchen: freezer 120%", "must be from 0 to 100 %"},
      {"Kitchen: light gfci", "only a receptacle can be a GFCI, not 'light'"},
      {"Kitchen: 2 gfci + 3 downstream", "behind one GFCI receptacle only"},
      {"Kitchen: gfci + 3 downstream in Garage", "there is no room 'Garage'"},
      {"Kitchen: 1r behind Bath gfci", "no switch, GFCI or disconnect 'Bath gfci' yet"},
      {"Kitchen: gfci, gfci \"second\", 1r behind gfci 3", "'gfci 3' yet"},
      {"Kitchen: =bath, no oven", "nothing to take away for 'no oven'"},
      {"Den: =", "no template suits the name 'Den'"},
      {"Bed 1-900: 1r", "too many rooms at once"},
      {"Bed,,Den: 1r", "the name of the room is missing"},
      {"Kitchen: =batch", "there is no template or room '=batch'"},
      {"Kitchen: light \"lamp", "a quote is not closed"},
      {"Kitchen: light \"a\", light \"A\"", "there is a 'A' in 'Kitchen' already"},
      {"Kitchen: light on 3-way from here", "this switch has 2 handles, but 1 places"},
      {"Kitchen: range 3-phase", "needs 3 hot conductors, but this house has 2 legs"},
      {"Kitchen 4x3 m: light", "needs its place"},
      {"Kitchen 4x0 m at 0,0: light", "has no size"},
      {"Floor Loft\nKitchen: light", "the level of floor 'Loft' is missing"},
      {"Panel Main: 1 20", "needs its number of spaces"},
      {"Hall: 1r\nPanel in Hall 12 spaces: 1 20", "line 2: behind 'Panel' its name is expected"},
      {"Panel 12 spaces: 1 20", "behind 'Panel' its name is expected"},
      {"Panel Main 20: 2-6 30", "breaker 2-6 cannot be: the space below 2 is 4."},
      {"Panel Main 20: 19-21 30", "panel 'Main' has spaces 1 to 20 only"},
      {"Panel Main 20: 1 20; 1 15", "line 1: Two breakers are in space 1 of panel 'Main'."},
      {"Panel Main 20: 1 20; 1a 15", "Two breakers are in space 1"},
      {"Hall: 1r\nPanel Main 20: 1,5 tied 20", "line 2: A handle tie joins breakers that are not neighbours"},
      {"Panel Main 20: 1 tied 20", "a handle tie joins two breakers"},
      {"Panel Main 20: 1 20 mwbc", "a multiwire circuit needs two breakers"},
      {"Panel Main 20: kitchen 20", "'kitchen' is not the number of a breaker"},
      {"Panel Main 4: left 20 20 20", "more breakers than the 2 spaces of this column"},
      {"Panel Main 4: left 30x4", "a breaker has 1, 2 or 3 poles"},
      {"Panel Main 20: 1 20 wire big", "'big' is not the size of a conductor"},
      {"Panel Main 20: 2+4 30 backfed from G", "there is no source 'G'"},
      {"Panel Main 20: 1 20\nPanel Sub 8 from Main 3", "panel 'Main' has no breaker '3'"},
      {"Panel Main 20 from Sub 2: 1 20\nPanel Sub 8 from Main 1: 2 20", "feeds itself"},
      {"Panel Main 20: 1 20\nPanel Sub 8 from Main 1: 2+4 30", "line 2: Breaker 2-4 of panel 'Sub'"},
      {"Panel Main 999: 1 20", "a panel has 1 to 200 spaces, not 999"},
      {"Panel Main 20 spaces, blue: 1 20", "I do not understand 'blue' in the heading of panel 'Main'"},
      {"Transfer T 8 positions: 1 15", "needs its source"},
      {"Generator G 5 kW\nTransfer T 2 positions from G: 1 15 <- Main 2+4\nPanel Main 8: 2+4 30", "'Main 2+4' is 2 poles for 1 position"},
      {"Generator G 5 kW\nTransfer T 2 positions from G: 1 15 <- Main 1; 2 15 <- Main 1\nPanel Main 8: 1 30", "Two positions carry the same pole"},
      {"Generator G 6/5 kW", "fewer watts for starting than for running"},
      {"Generator G 0/0 W 120/240", "source 'G': it gives more than 0 W"},
      {"Generator G 3600/0 W", "more than 0 W"},
      {"Battery B 0 kW 5 kWh", "more than 0 W"},
      {"Generator G -5 W 120/240", "source 'G': '-5' is not understood; behind the name its running and starting watts are expected"},
      {"Generator G 3600/-4500 W", "'3600/-4500' is not understood"},
      {"Generator G 3600/4500 V", "'3600/4500' is not understood"},
      {"Generator W", "'W' is not understood"},
      {"Generator G 5 kW 0 A inlet", "more than 0 A"},
      {"Generator G 5 kW cord 0 A", "more than 0 A"},
      {"Kitchen: range <- 9 by J.\nPanel Main 20: 9 20", "it needs 2 hot conductors, but breaker '9' has 1"},
      {"Kitchen: 1r <- 9\nPanel Main 20: 9 20", "who says that '9' feeds it?"},
      {"Kitchen: 1r <- 2-4 by J.\nPanel Main 20: 2-4 20", "has 2 poles; say which one"},
      {"Kitchen: 1r\nKitchen oven <- 9 by J.\nPanel Main 20: 9 20", "'oven' yet"},
      {"Kitchen: 1r\nWalk Kitchen - Kitchen 9 s", "A walking time needs two different rooms"},
      {"Kitchen: 1r\nWalk Kitchen - Attic 9 s", "there is no room 'Attic"},
      {"Kitchen: 1r\nNote Kitchen:", "the words of the note are missing"},
      {"Kitchen: 1r \x01", "control character"},
      {"Kitchen: 1r \xff", "not UTF-8"},
      {"Kitchen: 1r with zorp", "'zorp' is not a thing I know"},
      {"House X 120/240 purple", "'purple' is not expected behind the voltage"},
  };
  for (const Refused& c : cases) {
    SCOPED_TRACE(c.text);
    const std::string said = refusal_of(c.text);
    EXPECT_THAT(said, testing::HasSubstr(c.sentence));
    EXPECT_THAT(said, testing::StartsWith("line "));
    EXPECT_LT(said.size(), 400U);
  }
}

TEST(Refused, nothing_is_taken_of_a_text_with_one_bad_line) {
  const House before = enter_text(House{}, "Kitchen: 1r").house;
  const House copy = before;
  EXPECT_THROW((void)enter_text(before, "Hall: 1r\nBath: blorb"), Error);
  EXPECT_EQ(before, copy);
}

TEST(Refused, limits_hold) {
  EXPECT_THAT(refusal_of(std::string(kLongestEntry + 1, ' ')), testing::HasSubstr("longer than 1000000 bytes"));
  EXPECT_THAT(refusal_of("K: " + std::string(kLongestEntryLine, 'x')), testing::HasSubstr("longer than 10000 bytes"));
  EXPECT_THAT(refusal_of("K: 1r\n " + std::string(9000, 'x') + "\n " + std::string(9000, 'x')), testing::HasSubstr("longer than"));
  EXPECT_THAT(refusal_of(std::string(300, 'k') + ": 1r"), testing::HasSubstr("at most 200"));
  std::string many;
  for (int i = 0; i < 11; ++i) many += "Room" + std::to_string(i) + ": 500r\n";
  EXPECT_THAT(refusal_of(many), testing::HasSubstr("more than 5000 points"));
}

/// Random lines from pieces of the language: either a sound house, or one sentence.
TEST(Random, never_crashes_and_is_sound_or_refused) {
  const std::vector<std::string> pieces = {
      "Kitchen", ":", "4", "r", "4r", "2l", " ", " ", " ", ",", ";", "\n", "\n ", "=bath", "+", "gfci", "downstream", "in", "Hall", "Panel",
      "Main", "20", "30x2", "left", "right", "-", "15/20", "2+4", "9,11", "tied", "mwbc", "<-", "by J.", "on", "switch", "3-way", "from", "here",
      "and", "Generator", "G", "5 kW", "Transfer", "T", "8", "positions", "\"", "\"x\"", "split", "half-hot", "behind", "with", "freezer", "!!",
      "180/600 W", "240 V", "30%", "wire", "#12", "Note", "Floor", "Building", "Walk", "House", "Through", "Interlock", "main", "backfed", "no",
      "Template", "a", "box", "at", "#", "\xff", "\t", "Kitchen: 2r\n", "Panel Main 20: 1 20; 2+4 30\n", "Hall: gfci + 1\n", "Private note"};
  std::mt19937 random(20261125);
  int accepted = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string text;
    for (auto n = random() % 14 + 1; n > 0; --n) text += pieces[random() % pieces.size()] + (random() % 2 != 0U ? " " : "");
    try {
      const EntryResult result = enter_text(House{}, text);
      ASSERT_TRUE(problems_of(result.house).empty()) << text;
      ++accepted;
    } catch (const Error& error) {
      ASSERT_EQ(error.kind, ErrorKind::invalid_input) << text;
      ASSERT_FALSE(std::string(error.what()).empty());
    }
  }
  EXPECT_GT(accepted, 200);
}

}  // namespace
}  // namespace ohmstead
