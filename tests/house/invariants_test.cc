#include "house/invariants.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "example.h"
#include "house/error.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

TEST(Invariants, the_example_is_sound) {
  for (const Problem& p : problems_of(example_house())) ADD_FAILURE() << p.path << ": " << p.message;
  EXPECT_NO_THROW(require_sound(example_house()));
}

/// So many photos of so many bytes each.
void photos_of(House& house, std::size_t count, int bytes) {
  const Photo one = house.photos.at(0);
  house.photos.clear();
  while (house.photos.size() < count) {
    house.photos.push_back(one);
    house.photos.back().id = Id<Photo>::fresh(), house.photos.back().bytes = bytes;
  }
}

/// One change that makes the example untrue, and what is said about it.
struct Untrue {
  const char* path;
  const char* message;  ///< a part of the sentence
  std::function<void(House&)> change;
};

void expect_refused(std::span<const Untrue> cases) {
  for (const Untrue& c : cases) {
    House house = example_house();
    c.change(house);
    const auto problems = problems_of(house);
    EXPECT_THAT(problems, testing::Contains(testing::AllOf(testing::Field(&Problem::path, c.path),
                                                           testing::Field(&Problem::message, HasSubstr(c.message)))))
        << c.path << ": " << c.message;
    for (const Problem& p : problems) EXPECT_THAT(p.message, testing::EndsWith(".")) << p.path;
    EXPECT_THROW(require_sound(house), Error) << c.message;
  }
}

TEST(Invariants, refuse_contradictory_panels) {
  const Untrue cases[] = {
      {"breaker[1].space", "Two breakers are in space 1 of panel 'Main'.", [](House& h) { h.breakers[kNeighbour].space = 1; }},
      {"breaker[3].space", "Two breakers are in space 4 of panel 'Main'.", [](House& h) { h.breakers[kInlet].space = 4; }},
      {"breaker[5].space", "Two breakers are in space 10", [](House& h) { h.breakers[kTandemB].half = Half::a; }},
      {"breaker[5].space", "Two breakers are in space 10", [](House& h) { h.breakers[kTandemB].half = Half::whole; }},
      {"breaker[5].space", "Two breakers are in space 10", [](House& h) { h.breakers[kTandemA].half = Half::whole; }},
      {"breaker[0].tie", "not neighbours", [](House& h) { h.breakers[kNeighbour].space = 5; }},
      {"breaker[0].tie", "not neighbours", [](House& h) { h.breakers[kNeighbour].space = 12; }},
      {"breaker[0].tie", "not neighbours", [](House& h) {
         h.breakers[kNeighbour].panel = h.panels[kSub].id, h.breakers[kNeighbour].space = 2;
       }},
      {"breaker[0].tie", "at least two breakers", [](House& h) { h.breakers[kNeighbour].tie = {}; }},
      {"breaker[0].tie", "one of its own breakers", [](House& h) {
         h.breakers[kOnePole].tie = h.breakers[kNeighbour].tie = h.breakers[kFeeder].id;
       }},
      {"breaker[6].poles", "poles on one leg", [](House& h) { h.panels[kSub].feeder = h.breakers[kTandemA].id; }},
      {"breaker[2].space", "runs out of the panel", [](House& h) { h.breakers[kFeeder].space = 12; }},
      {"breaker[0].space", "spaces 1 to 12 only", [](House& h) { h.breakers[kOnePole].space = 13; }},
      {"breaker[0].space", "spaces 1 to 12 only", [](House& h) { h.breakers[kOnePole].space = 0; }},
      {"breaker[0].panel", "in no panel", [](House& h) { h.breakers[kOnePole].panel = {}; }},
      {"breaker[0].poles", "from 1 to 3", [](House& h) { h.breakers[kOnePole].poles = 4; }},
      {"breaker[0].amps", "amps is -20", [](House& h) { h.breakers[kOnePole].amps = -20; }},
      {"panel[1].supply", "Panel 'Shop' feeds itself", [](House& h) { h.panels[kSub].feeder = h.breakers[kSubOne].id; }},
      {"panel[0].supply", "Panel 'Main' feeds itself", [](House& h) {
         h.panels[kMain].supply = Supply::breaker, h.panels[kMain].feeder = h.breakers[kSubOne].id;
       }},
      {"panel[1].supply", "feeds itself", [](House& h) {  // through the transfer position that carries its own breaker
         h.panels[kSub].supply = Supply::position, h.panels[kSub].position = h.positions[0].id;
       }},
      {"panel[1].feeder", "by which one is missing", [](House& h) { h.panels[kSub].feeder = {}; }},
      {"panel[1].position", "by which one is missing", [](House& h) { h.panels[kSub].supply = Supply::position; }},
      {"panel[1].name", "same name", [](House& h) { h.panels[kSub].name = "Main"; }},
      {"panel[0].spaces", "from 1 to 200", [](House& h) { h.panels[kMain].spaces = 0; }},
      {"circuit[1].breaker", "same breaker", [](House& h) { h.circuits[1].breaker = h.circuits[0].breaker; }},
      {"circuit[1].multiwire", "carries the id of the first of its circuits", [](House& h) { h.circuits[0].multiwire = {}; }},
      {"circuit[0].length_m", "length_m is -1", [](House& h) { h.circuits[0].length_m = -1; }},
  };
  expect_refused(cases);
}

TEST(Invariants, refuse_impossible_figures) {
  const Untrue cases[] = {
      {"load[0].running_watts", "running_watts is -1", [](House& h) { h.loads[0].running_watts = -1; }},
      {"load[0].starting_watts", "starting_watts is -5", [](House& h) { h.loads[0].starting_watts = -5; }},
      {"load[0].starting_watts", "fewer watts to start than to run", [](House& h) { h.loads[0].starting_watts = 749; }},
      {"load[0].duty_percent", "from 0 to 100", [](House& h) { h.loads[0].duty_percent = 101; }},
      {"load[0].point", "at no point", [](House& h) { h.loads[0].point = {}; }},
      {"source[0].running_watts", "running_watts is -3500", [](House& h) { h.sources[0].running_watts = -3500; }},
      {"source[0].starting_watts", "fewer watts", [](House& h) { h.sources[0].starting_watts = 3000; }},
      {"walk[0].seconds", "seconds is -1", [](House& h) { h.walks[0].seconds = -1; }},
      {"diagnosis_look[0].saw", "at 'complaint' saw 'live', which cannot be", [](House& h) { h.diagnosis_looks[0].saw = LookSaw::live; }},
      {"diagnosis_look[0].saw", "at 'point' saw 'off', which cannot be", [](House& h) { h.diagnosis_looks[0].what = LookAt::point, h.diagnosis_looks[0].saw = LookSaw::off; }},
      {"diagnosis_look[1].saw", "at 'handle' saw 'works', which cannot be", [](House& h) { h.diagnosis_looks[1].saw = LookSaw::works; }},
      {"walk[0]", "two different rooms", [](House& h) { h.walks[0].to = h.walks[0].from; }},
      {"room[0].width_cm", "width_cm is -1", [](House& h) { h.rooms[0].width_cm = -1; }},
      {"floor[0].level", "from -20 to 200", [](House& h) { h.floors[0].level = 201; }},
      {"point[0].hots", "hots is 0", [](House& h) { h.points[0].hots = 0; }},
      {"position[0].leg", "from 1 to 2", [](House& h) { h.positions[0].leg = 3; }},
      {"position[2].pole", "from 1 to 1", [](House& h) { h.positions[2].pole = 2; }},
      {"passing[0].pole", "from 1 to 2", [](House& h) { h.passings[0].pole = 3; }},
  };
  expect_refused(cases);
}

TEST(Invariants, refuse_plans_and_figures_for_outages_that_cannot_be) {
  using enum OutageEventKind;
  const Untrue cases[] = {
      {"source[0].leg_watts", "more watts on one leg than in all", [](House& h) { h.sources[0].leg_watts = h.sources[0].running_watts + 1; }},
      {"source[0].tank_ml", "tank_ml is -1", [](House& h) { h.sources[0].tank_ml = -1; }},
      {"source[0].use_100_ml_h", "less fuel at a larger load", [](House& h) { h.sources[0].use_50_ml_h = 900, h.sources[0].use_100_ml_h = 899; }},
      {"load[0].power_factor_percent", "from 1 to 100", [](House& h) { h.loads[0].power_factor_percent = 0; }},
      {"load[0].code_letter", "one of A to H", [](House& h) { h.loads[0].code_letter = "O"; }},
      {"planned[0].breaker", "has no breaker", [](House& h) { h.planned[0].breaker = {}; }},
      {"planned[0].pole", "from 1 to 1", [](House& h) { h.planned[0].pole = 2; }},
      {"planned[1].breaker", "one breaker on two positions", [](House& h) { h.planned[1].breaker = h.planned[0].breaker; }},
      {"planned[1].position", "two circuits on one position", [](House& h) { h.planned[1].position = h.planned[0].position; }},
      {"pin[0].breaker", "names no breaker", [](House& h) { h.pins[0].breaker = {}; }},
      {"pin[0].position", "never be carried", [](House& h) { h.pins[0].never = true; }},
      {"pin[1].breaker", "Two pins", [](House& h) { h.pins.push_back(h.pins[0]), h.pins[1].id = {166}; }},
      {"tick[0].step", "names no step", [](House& h) { h.ticks[0].step = ""; }},
      {"opened[0].stands", "from 0 to 2", [](House& h) { h.opened[0].stands = 3; }},
      {"outage_event[1].handle", "not which", [](House& h) { h.outage_events[1].handle = {}; }},
      {"outage_event[1].stands", "from 0 to 2", [](House& h) { h.outage_events[1].stands = -1; }},
      {"outage_event[0].source", "but not which", [](House& h) { h.outage_events[0].kind = source_started; }},
      {"printed[0].item", "names no sheet", [](House& h) { h.printed[0].item.clear(); }},
      {"printed[0].code", "no check code", [](House& h) { h.printed[0].code.clear(); }},
      {"trip[0].handle", "not of which breaker", [](House& h) { h.trips[0].handle = {}; }},
      {"trip[0].round", "that is not in the house", [](House& h) { h.trips[0].round = Id<Round>{999}; }},
      {"diagnosis_look[0].diagnosis", "belongs to no diagnosis", [](House& h) { h.diagnosis_looks[0].diagnosis = {}; }},
      {"diagnosis_look[0].point", "at a point, but not at which", [](House& h) { h.diagnosis_looks[0].point = {}; }},
      {"diagnosis_look[1].handle", "at a handle, but not at which", [](House& h) { h.diagnosis_looks[1].handle = {}; }},
      {"diagnosis_look[1].source", "at a source, but not at which", [](House& h) { h.diagnosis_looks[1].what = LookAt::source; }},
      {"diagnosis_look[0].volts", "from 0 to 1000", [](House& h) { h.diagnosis_looks[0].volts = 1001; }},
      {"outage_event[0].load", "but not what", [](House& h) { h.outage_events[0].kind = load_on; }},
  };
  expect_refused(cases);
}

TEST(Invariants, refuse_references_that_lead_nowhere) {
  const Untrue cases[] = {
      {"room[0].floor", "a floor that is not in the house", [](House& h) { h.rooms[0].floor = {999}; }},
      {"room[0].floor", "on no floor", [](House& h) { h.rooms[0].floor = {}; }},
      {"room[0].floor", "a floor that is not in the house", [](House& h) { h.rooms[0].floor.value = h.rooms[1].id.value; }},
      {"point[0].behind", "a device that is not in the house", [](House& h) { h.points[0].behind = {999}; }},
      {"opened[0].handle", "a handle that is not in the house", [](House& h) { h.opened[0].handle.id = 999; }},
      {"opened[0].handle", "a handle that is not in the house", [](House& h) { h.opened[0].handle = {}; }},
      {"photo[0].about", "a thing that is not in the house", [](House& h) { h.photos[0].about.kind = ThingKind::room; }},
      {"photo[0].picture", "64 hexadecimal digits", [](House& h) { h.photos[0].picture.back() = 'g'; }},
      {"photo[0].picture", "64 hexadecimal digits", [](House& h) { h.photos[0].picture.pop_back(); }},
      {"photo[0].small", "64 hexadecimal digits", [](House& h) { h.photos[0].small[0] = 'A'; }},
      {"photo[0].width", "from 1 to 1600", [](House& h) { h.photos[0].width = 1601; }},
      {"photo[0].height", "from 1 to 1600", [](House& h) { h.photos[0].height = 0; }},
      {"photo[0].bytes", "from 1 to 300000", [](House& h) { h.photos[0].bytes = 300'001; }},
      {"photo[200]", "at most 200 photos", [](House& h) { photos_of(h, 201, 1000); }},
      {"photo[133].bytes", "at most 40 MB together", [](House& h) { photos_of(h, 134, 300'000); }},
      {"note[0].about", "a thing that is not in the house", [](House& h) { h.notes[0].about.kind = ThingKind::panel; }},
      {"room[0].id", "has no id", [](House& h) { h.rooms[0].id = {}; }},
      {"dwelling.id", "has no id", [](House& h) { h.dwelling.id = {}; }},
      {"point[1].id", "same id as point[0]", [](House& h) { h.points[1].id = h.points[0].id; }},
      {"observation[0]", "needs a round and a point", [](House& h) { h.observations[0].point = {}; }},
  };
  expect_refused(cases);
}

TEST(Invariants, refuse_devices_and_transfer_devices_that_cannot_be) {
  const Untrue cases[] = {
      {"device[0].behind", "stands behind itself", [](House& h) { h.devices[0].behind = h.devices[0].id; }},
      {"device[1].behind", "stands behind itself", [](House& h) {
         h.devices[0].behind = h.devices[1].id, h.devices[1].behind = h.devices[0].id;
       }},
      {"device[0]", "has no handle", [](House& h) { h.handles.erase(h.handles.begin()); }},
      {"device[0]", "more than one handle", [](House& h) { h.handles[1].device = h.devices[0].id; }},
      {"device[1].poles", "switches one hot conductor", [](House& h) { h.devices[1].poles = 2; }},
      {"device[0].at_point", "must stand behind it", [](House& h) { h.points[0].behind = {}; }},
      {"point[3].mate", "do not name each other", [](House& h) { h.points[4].mate = {}; }},
      {"point[3].mate", "do not name each other", [](House& h) { h.points[3].mate = h.points[3].id; }},
      {"point[4].name", "same name", [](House& h) { h.points[4].name = h.points[3].name; }},
      {"position[1].breaker", "same pole of one breaker", [](House& h) { h.positions[1].pole = 1; }},
      {"position[1].number", "same number", [](House& h) { h.positions[1].number = 1; }},
      {"position[2].tie", "in one device", [](House& h) { h.positions[2].tie = h.positions[1].id; }},
      {"position[0].breaker", "carries a leg of the utility", [](House& h) { h.transfer_devices[0].kind = TransferKind::whole_house; }},
      {"transfer_device[0].source", "has no source", [](House& h) { h.transfer_devices[0].source = {}; }},
      {"interlock[0]", "main or branch breakers only", [](House& h) { h.interlocks[0].second = {HandleKind::position, 81}; }},
      {"interlock[0]", "two different handles", [](House& h) { h.interlocks[0].second = h.interlocks[0].first; }},
      {"declared_feed[0]", "one point or one device", [](House& h) { h.declared_feeds[0].device = h.devices[2].id; }},
      {"declared_feed[0].point", "declare the feed of the device", [](House& h) { h.declared_feeds[0].point = h.points[0].id; }},
      {"declared_feed[1].hot", "from 1 to 2", [](House& h) { h.declared_feeds[1].hot = 3; }},
      {"declared_feed[0].breaker", "names no breaker", [](House& h) { h.declared_feeds[0].breaker = {}; }},
      {"setting[1].name", "same name", [](House& h) { h.settings.push_back({Id<Setting>{151}, "pocket_width_mm", "1"}); }},
  };
  expect_refused(cases);
}

TEST(Invariants, refuse_text_that_cannot_be_kept) {
  const Untrue cases[] = {
      {"room[0].name", "A name is missing.", [](House& h) { h.rooms[0].name = ""; }},
      {"room[0].name", "201 bytes long; at most 200", [](House& h) { h.rooms[0].name.assign(201, 'x'); }},
      {"point[0].name", "10000 bytes long", [](House& h) { h.points[0].name.assign(10'000, 'x'); }},
      {"note[0].text", "10001 bytes long; at most 10000", [](House& h) { h.notes[0].text.assign(10'001, 'x'); }},
      {"room[0].name", "control character", [](House& h) { h.rooms[0].name = "Kit\x1b[2Jchen"; }},
      {"room[0].name", "control character", [](House& h) { h.rooms[0].name = std::string("Kit\0chen", 8); }},
      {"room[0].name", "control character", [](House& h) { h.rooms[0].name = "Kitchen\x7f"; }},
      {"room[0].name", "not UTF-8", [](House& h) { h.rooms[0].name = "K\xfc"; }},
      {"room[0].name", "not UTF-8", [](House& h) { h.rooms[0].name = "cut \xe2\x82"; }},
      {"room[0].name", "not UTF-8", [](House& h) { h.rooms[0].name = "overlong \xc0\xaf"; }},
      {"room[0].name", "not UTF-8", [](House& h) { h.rooms[0].name = "half a pair \xed\xa0\x80"; }},
      {"room[0].name", "not UTF-8", [](House& h) { h.rooms[0].name = "too far \xf4\x90\x80\x80"; }},
  };
  expect_refused(cases);
}

/// The closest true neighbours of the refused cases: all of these are houses that exist.
TEST(Invariants, accept_near_misses) {
  const std::pair<const char*, std::function<void(House&)>> cases[] = {
      {"the breaker moves to an empty space, untied", [](House& h) {
         h.breakers[kOnePole].tie = h.breakers[kNeighbour].tie = {}, h.breakers[kNeighbour].space = 5;
       }},
      {"tied neighbours one row lower", [](House& h) { h.breakers[kOnePole].space = 3, h.breakers[kNeighbour].space = 5; }},
      {"the lower one carries the tie", [](House& h) {
         h.breakers[kOnePole].tie = h.breakers[kNeighbour].tie = h.breakers[kNeighbour].id;
       }},
      {"a 1-pole subpanel feeder with 1-pole breakers", [](House& h) {
         h.panels[kSub].feeder = h.breakers[kTandemA].id, h.breakers[kSubOne].poles = 1;
         h.positions.erase(h.positions.begin(), h.positions.begin() + 2), h.declared_feeds.pop_back();
       }},
      {"a subpanel whose supply nobody has found", [](House& h) { h.panels[kSub].supply = Supply::nothing_known, h.panels[kSub].feeder = {}; }},
      {"the bottom space of a column", [](House& h) { h.breakers[kNeighbour].space = 1, h.breakers[kOnePole].space = 3; }},
      {"a rating that was not read", [](House& h) { h.breakers[kOnePole].amps = 0; }},
      {"starting watts equal to running watts", [](House& h) { h.loads[0].starting_watts = 750; }},
      {"no figures at all", [](House& h) { h.loads[0].running_watts = h.loads[0].starting_watts = h.loads[0].duty_percent = std::nullopt; }},
      {"a load of 0 W that never runs", [](House& h) { h.loads[0].running_watts = 0, h.loads[0].duty_percent = 0; }},
      {"one name in two rooms", [](House& h) { h.points[2].name = "receptacle 1"; }},
      {"one room name on two floors", [](House& h) { h.rooms[2].name = "Kitchen"; }},
      {"a name of 200 bytes", [](House& h) { h.rooms[0].name.assign(200, 'x'); }},
      {"a note of 10,000 bytes in lines", [](House& h) { h.notes[0].text.assign(10'000, '\n'); }},
      {"letters from everywhere", [](House& h) { h.rooms[0].name = "K\xc3\xbc" "che \xe9\xa2\xa8 \xf0\x9f\x92\xa1"; }},
      {"a GFCI behind a disconnect", [](House& h) { h.devices[0].behind = h.devices[2].id; }},
      {"both halves of a tandem tied", [](House& h) { h.breakers[kTandemA].tie = h.breakers[kTandemB].tie = h.breakers[kTandemA].id; }},
      {"as many photos as are kept", [](House& h) { photos_of(h, 200, 200'000); }},
      {"as many bytes of photos as are kept", [](House& h) { photos_of(h, 133, 300'000); }},
      {"a photo of the house", [](House& h) { h.photos[0].about = {}; }},
      {"a note about the house", [](House& h) { h.notes[0].about = {}; }},
      {"a 2-pole breaker in a 230 V house (line and neutral)", [](House& h) {
         h.dwelling.system = VoltageSystem::single_230, h.positions[1].leg = 1;
       }},
      {"a source that gives all on one leg", [](House& h) { h.sources[0].leg_watts = h.sources[0].running_watts; }},
      {"fuel use known at two points only, and level", [](House& h) { h.sources[0].use_25_ml_h = h.sources[0].use_75_ml_h = 900; }},
      {"a guest's thing", [](House& h) { h.outage_events[0].kind = OutageEventKind::load_on, h.outage_events[0].text = "hair dryer"; }},
      {"a position that carries nothing", [](House& h) { h.positions[2].breaker = {}; }},
  };
  for (const auto& [what, change] : cases) {
    House house = example_house();
    change(house);
    for (const Problem& p : problems_of(house)) ADD_FAILURE() << what << ": " << p.path << ": " << p.message;
  }
}

TEST(Invariants, the_first_problem_is_thrown_as_one_sentence) {
  House house = example_house();
  house.loads[0].running_watts = -1;
  try {
    require_sound(house);
    FAIL() << "negative watts were taken";
  } catch (const Error& e) {
    EXPECT_EQ(e.kind, ErrorKind::invalid_input);
    EXPECT_STREQ(e.what(), "load[0].running_watts: running_watts is -1; it must be from 0 to 1000000.");
  }
}

}  // namespace
}  // namespace ohmstead
