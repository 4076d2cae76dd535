// Phrases people say, on the sample house.

#include <gtest/gtest.h>

#include <algorithm>

#include "ask/names.h"
#include "house/error.h"
#include "tests/support/sample_house.h"

namespace ohmstead {
namespace {

const House& house() {
  static const House kHouse = sample_house();
  return kHouse;
}

const Names& names() {
  static const Names kNames(house());
  return kNames;
}

std::string found(std::string_view words, const Kinds& wanted = kAnything) {
  std::string text;
  for (const Match& match : names().find(words, wanted).best) text += (text.empty() ? "" : "; ") + match.name;
  return text;
}

struct Phrase {
  const char* said;
  const char* means;  ///< names in full; several are shown and asked about; "" for nothing
};

std::ostream& operator<<(std::ostream& out, const Phrase& phrase) { return out << "'" << phrase.said << "'"; }

class Things : public testing::TestWithParam<Phrase> {};

TEST_P(Things, are_found_as_said) { EXPECT_EQ(found(GetParam().said), GetParam().means); }

INSTANTIATE_TEST_SUITE_P(CapitalsPluralsSynonymsParts, Things, testing::ValuesIn(std::vector<Phrase>{
    {"dishwasher", "Kitchen dishwasher"},
    {"DISHWASHER", "Kitchen dishwasher"},
    {"the dishwashers", "Kitchen dishwasher"},
    {"dish washer", "Kitchen dishwasher"},
    {"kitchen dishwasher", "Kitchen dishwasher"},
    {"dishwasher in the kitchen", "Kitchen dishwasher"},
    {"refrigerator", "Kitchen refrigerator"},
    {"fridge", "Kitchen refrigerator"},
    {"my Fridge", "Kitchen refrigerator"},
    {"freezer", "Storage freezer"},
    {"storage freezer", "Storage freezer"},
    {"range", "Kitchen range"},
    {"stove", "Kitchen range"},
    {"range hood", "Kitchen range hood"},
    {"hood", "Kitchen range hood"},
    {"washer", "Laundry washer"},
    {"washing machine", "Laundry washer"},
    {"clothes dryer", "Laundry dryer"},
    {"drier", "Laundry dryer"},
    {"furnace", "Utility room furnace"},
    {"water heater", "Utility room water heater"},
    {"hot water tank", "Utility room water heater"},
    {"waterheater", "Utility room water heater"},
    {"garbage disposal", "Kitchen disposal"},
    {"disposer", "Kitchen disposal"},
    {"doorbell", "Entry doorbell"},
    {"door bell", "Entry doorbell"},
    {"table saw", "Workshop table saw"},
    {"saw", "Workshop table saw"},
    {"dust", "Workshop dust collector"},
    {"garage door opener", "garage opener"},
    {"well pump", "Yard well pump"},
    {"pump", "Yard well pump"},
    {"porch light", "Entry porch light"},
    {"porch lamp", "Entry porch light"},
    {"oxygen concentrator", "NE bedroom receptacle 4"},
    {"oxygen", "NE bedroom receptacle 4"},
    {"O2 concentrator", "NE bedroom receptacle 4"},
    {"tv", "Living room receptacle 6"},
    {"Wifi", "Living room receptacle 6"},
    {"NE bedroom light", "NE bedroom light"},
    {"northeast bedroom lamp", "NE bedroom light"},
    {"ne bed light", "NE bedroom light"},
    {"kitchen ceiling light 2", "Kitchen ceiling light 2"},
    {"SW room outlet 3", "SW room receptacle 3"},
    {"plug by the door in storage", "Storage receptacle 1"},
    {"living room receptacle 2 upper", "Living room receptacle 2 upper"},
    {"Crawlspace light", "Crawl space light"},
    {"upper bath exhaust fan", "Upper bath bath fan"},
    {"smoke detector in the sw room", "SW room smoke alarm"},
}));

INSTANTIATE_TEST_SUITE_P(PlacesPanelsAndSources, Things, testing::ValuesIn(std::vector<Phrase>{
    {"kitchen", "Kitchen"},
    {"the laundry room", "Laundry"},
    {"NE bedroom", "NE bedroom"},
    {"living", "Living room"},
    {"loft", "Loft"},
    {"upstairs", "Upper floor"},
    {"basement", "Lower floor"},
    {"cellar", "Lower floor"},
    {"middle floor", "Middle floor"},
    {"main panel", "Main panel"},
    {"Main load center", "Main panel"},
    {"subpanel", "Workshop panel"},
    {"sub panel", "Workshop panel"},
    {"workshop panel", "Workshop panel"},
    {"panel", "Main panel; Workshop panel"},
    {"generator", "Generator"},
    {"genset", "Generator"},
    {"transfer switch", "Transfer"},
    {"house", "Hillside"},
    {"hillside", "Hillside"},
}));

INSTANTIATE_TEST_SUITE_P(Numbers, Things, testing::ValuesIn(std::vector<Phrase>{
    {"24", "Main panel breaker 24"},
    {"breaker 24", "Main panel breaker 24"},
    {"#24", "Main panel breaker 24"},
    {"Fuse no. 24", "Main panel breaker 24"},
    {"breaker24", "Main panel breaker 24"},
    {"024", "Main panel breaker 24"},
    {"Main 3", "Main panel breaker 3"},
    {"main breaker 3", "Main panel breaker 3"},
    {"breaker 3 in the main panel", "Main panel breaker 3"},
    {"workshop 3", "Workshop panel breaker 3"},
    {"shop breaker 3", "Workshop panel breaker 3"},
    {"subpanel 3", "Workshop panel breaker 3"},
    {"worksop 3", "Workshop panel breaker 3"},
    {"3", "Main panel breaker 3; Workshop panel breaker 3"},
    {"breaker 3", "Main panel breaker 3; Workshop panel breaker 3"},
    {"10", "Main panel breaker 10-12; Workshop panel breaker 10"},
    {"12", "Main panel breaker 10-12"},
    {"10-12", "Main panel breaker 10-12"},
    {"10 + 12", "Main panel breaker 10-12"},
    {"10/12", "Main panel breaker 10-12"},
    {"main 10", "Main panel breaker 10-12"},
    {"16a", "Main panel breaker 16a"},
    {"main 16 B", "Main panel breaker 16b"},
    {"16", "Main panel breaker 16a; Main panel breaker 16b"},
    {"9-11", "Main panel breaker 9; Main panel breaker 11"},
    {"workshop 5-7", "Workshop panel breaker 5-7"},
    {"5-7", "Workshop panel breaker 5-7"},
    {"t3", "Transfer position 3"},
    {"T 3", "Transfer position 3"},
    {"position 3", "Transfer position 3"},
    {"Transfer position 3", "Transfer position 3"},
    {"transfer 3", "Transfer position 3"},
    {"pos 5-6", "Transfer position 5; Transfer position 6"},
}));

INSTANTIATE_TEST_SUITE_P(SlipsOfTheHand, Things, testing::ValuesIn(std::vector<Phrase>{
    {"dishwaser", "Kitchen dishwasher"},
    {"dihswasher", "Kitchen dishwasher"},
    {"refridgerator", "Kitchen refrigerator"},
    {"fridg", "Kitchen refrigerator"},
    {"freezr", "Storage freezer"},
    {"furnice", "Utility room furnace"},
    {"kichen", "Kitchen"},
    {"oxigen concentrater", "NE bedroom receptacle 4"},
    {"genrator", "Generator"},
    {"laundry wahser", "Laundry washer"},
    {"kitchén dishwashér", "Kitchen dishwasher"},
}));

INSTANTIATE_TEST_SUITE_P(SeveralFitAndAreShown, Things, testing::ValuesIn(std::vector<Phrase>{
    {"bedroom light", "NW bedroom light; NE bedroom light; SE bedroom light"},
    {"bedrooms", "NW bedroom; NE bedroom; SE bedroom"},
    {"bath", "Lower bath; Middle bath; Upper bath"},
    {"kitchen light", "Kitchen ceiling light 1; Kitchen ceiling light 2; Kitchen ceiling light 3"},
    {"bath fan", "Lower bath bath fan; Middle bath fan; Upper bath bath fan"},
    {"yard receptacle", "Yard receptacle 1"},
    {"garage light", "Garage light 1; Garage light 2"},
    {"hall light", "Lower hall light; Upper hall light 1; Upper hall light 2"},
}));

INSTANTIATE_TEST_SUITE_P(NothingFits, Things, testing::ValuesIn(std::vector<Phrase>{
    {"", ""},
    {"   ", ""},
    {"?!", ""},
    {"the", ""},
    {"xyzzy", ""},
    {"swimming pool", ""},
    {"living room light", ""},
    {"kitchen freezer", ""},
    {"kitchen receptacle 9", ""},
    {"ceiling light 4", ""},
    {"breaker 29", ""},
    {"99", ""},
    {"29", ""},
    {"13b", ""},
    {"main 12345678901234567890", ""},
    {"10-14", ""},
    {"t9", ""},
    {"position 0", ""},
    {"dishwasher 2", ""},
    {"bedroom 2 light", ""},
    {"ligth house keeper", ""},
    {"fin", ""},
    {"\x1B[2J", ""},
    {"\xFF\xFE\xFD", ""},
}));

struct HandlePhrase {
  const char* said;
  const char* moves;  ///< the handle's name, or the error's message
};

std::ostream& operator<<(std::ostream& out, const HandlePhrase& phrase) { return out << "'" << phrase.said << "'"; }

class Handles : public testing::TestWithParam<HandlePhrase> {};

std::string handle(std::string_view said) {
  try {
    return names().name_of(names().one_handle(said));
  } catch (const Error& error) {
    return std::string(error.kind == ErrorKind::ambiguous ? "ambiguous: " : "refused: ") + error.what();
  }
}

TEST_P(Handles, are_found_as_said) { EXPECT_EQ(handle(GetParam().said), GetParam().moves); }

INSTANTIATE_TEST_SUITE_P(Sample, Handles, testing::ValuesIn(std::vector<HandlePhrase>{
    {"main", "Main panel main breaker"},
    {"Main breaker", "Main panel main breaker"},
    {"the main switch", "Main panel main breaker"},
    {"main panel main", "Main panel main breaker"},
    {"workshop main", "Workshop panel main breaker"},
    {"workshop panel main breaker", "Workshop panel main breaker"},
    {"main 12", "Main panel breaker 10-12"},
    {"24", "Main panel breaker 24"},
    {"9-11", "Main panel breaker 9"},  // tied: one hand moves both
    {"T3", "Transfer position 3"},
    {"T3 breaker", "Transfer position 3 breaker"},
    {"breaker of position 3", "Transfer position 3 breaker"},
    {"t5-6", "Transfer position 5"},
    {"disposal switch", "Kitchen disposal switch"},
    {"garage gfci", "Garage GFCI"},
    {"gfi in the garage", "Garage GFCI"},
    {"pump disconnect", "Yard well pump disconnect"},
    {"NE bedroom switch", "NE bedroom light switch"},
    {"ne bedroom light switch", "NE bedroom light switch"},
    {"porch light switch", "Entry light switch 4"},
    {"dining switch", "Dining room light switch 1"},
    {"3", "ambiguous: '3' fits 2 things: Main panel breaker 3; Workshop panel breaker 3. Say which one, in more of its words."},
    {"kitchen gfci", "Kitchen GFCI"},  // its full name; the other is "Kitchen GFCI 2"
    {"gfci in kitchen", "ambiguous: 'gfci in kitchen' fits 2 things: Kitchen GFCI; Kitchen GFCI 2. Say which one, in more of its words."},
    {"entry light switch 2", "ambiguous: 'entry light switch 2' fits 2 things: Entry light switch 2 (for Lower hall light); "
                             "Entry light switch 2 (for Upper hall light 1). Say which one, in more of its words."},
    {"entry switch for the lower hall light", "Entry light switch 2 (for Lower hall light)"},
}));

TEST(OneHandle, says_what_it_could_have_been) {
  EXPECT_EQ(handle("breaker 29"), "refused: There is no breaker '29' in Main panel or Workshop panel; look at the number beside "
                                  "the handle.");
  EXPECT_EQ(handle("Workshop 11-12"), "refused: There is no breaker '11-12' in Workshop panel; look at the number beside the handle.");
  EXPECT_EQ(handle("T9"), "refused: There is no position '9' in Transfer; look at the number beside the handle.");
  EXPECT_EQ(handle("xyzzy"), "refused: Nothing in the record fits 'xyzzy'; name a room and what is in it, such as "
                             "'kitchen light', or a breaker, such as 'Main 12'.");
  EXPECT_NE(handle("kitchen gas valve").find("The nearest: Kitchen "), std::string::npos) << handle("kitchen gas valve");
}

TEST(One, refuses_by_kind_of_failure) {
  const auto kind_of = [](std::string_view words, const Kinds& wanted) {
    try {
      (void)names().one(words, wanted);
    } catch (const Error& error) {
      return std::optional(error.kind);
    }
    return std::optional<ErrorKind>();
  };
  EXPECT_EQ(kind_of("dishwasher", {ThingKind::point}), std::nullopt);
  EXPECT_EQ(kind_of("dishwasher", {ThingKind::room}), ErrorKind::not_found);
  EXPECT_EQ(kind_of("bedroom light", {ThingKind::point}), ErrorKind::ambiguous);
  EXPECT_EQ(kind_of(std::string(10'000, 'k'), {ThingKind::point}), ErrorKind::invalid_input);
}

TEST(One, the_wanted_kind_decides_between_things_of_one_name) {
  EXPECT_EQ(found("workshop", {ThingKind::room}), "Workshop");
  EXPECT_EQ(found("workshop", {ThingKind::panel}), "Workshop panel");
  EXPECT_EQ(found("workshop"), "Workshop");  // to the letter the room, though there are a panel and a floor
  EXPECT_EQ(found("workshop", {ThingKind::panel, ThingKind::floor}), "Workshop floor; Workshop panel");
  EXPECT_EQ(found("oxygen concentrator", {ThingKind::load}), "NE bedroom oxygen concentrator");
  EXPECT_EQ(found("circuit 9", {ThingKind::circuit}), "Main panel circuit 9");
}

TEST(OneBox, is_found_by_what_is_in_it) {
  const Id<Point> dishwasher = names().one_point("dishwasher");
  const auto point = std::ranges::find(house().points, dishwasher, &Point::id);
  EXPECT_EQ(names().one_box("dishwasher"), point->box);
}

TEST(Group, takes_everything_that_fits) {
  const auto count = [](std::string_view words, const Kinds& wanted = {ThingKind::point}) {
    return names().group(words, wanted).size();
  };
  const auto counted = [](auto fits) {
    return static_cast<std::size_t>(std::ranges::count_if(house().points, fits));
  };
  const auto in_room = [](std::string_view name) {
    return [name](const Point& p) { return names().name_of(ThingRef{ThingKind::room, p.room.value}) == name; };
  };
  EXPECT_EQ(count("kitchen lights"), 3u);
  EXPECT_EQ(count("kitchen lamps"), 3u);
  EXPECT_EQ(count("kichen lights"), 3u);
  EXPECT_EQ(count("bedroom lights"), 3u);
  EXPECT_EQ(count("kitchen"), counted(in_room("Kitchen")));
  EXPECT_EQ(count("all lights"), counted([](const Point& p) { return p.kind == PointKind::light; }));
  EXPECT_EQ(count("smoke alarms"), counted([](const Point& p) { return p.kind == PointKind::alarm; }));
  EXPECT_EQ(count("workshop breakers", {ThingKind::breaker}), 8u);
  EXPECT_EQ(count("9-11", {ThingKind::breaker}), 2u);
  EXPECT_EQ(count("pool lights"), 0u);
}

TEST(NameOf, finds_its_own_thing_again_and_no_two_of_a_kind_share_one) {
  const auto check = [](const auto& table) {
    for (const auto& row : table) {
      const ThingRef thing = thing_of(row);
      const MatchResult result = names().find(names().name_of(thing), {thing.kind});
      ASSERT_EQ(result.best.size(), 1u) << names().name_of(thing);
      EXPECT_EQ(result.best[0].thing, thing) << names().name_of(thing);
    }
  };
  const House& h = house();
  check(h.points), check(h.rooms), check(h.floors), check(h.panels), check(h.breakers), check(h.positions);
  check(h.devices), check(h.handles), check(h.sources), check(h.transfer_devices), check(h.boxes), check(h.loads);
}

TEST(Find, an_exact_word_is_never_outranked_by_a_slip) {
  const auto rank = [](std::string_view words) { return names().find(words).best.at(0).rank; };
  EXPECT_EQ(rank("Kitchen dishwasher"), 0);
  EXPECT_LT(rank("dishwasher"), 20);
  EXPECT_LT(rank("fridge"), 20);
  EXPECT_GE(rank("dishw"), 20);   // part of a word
  EXPECT_LT(rank("dishw"), 40);
  EXPECT_GE(rank("dishwaser"), 40);
}

}  // namespace
}  // namespace ohmstead
