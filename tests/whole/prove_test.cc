// Proving the sample house's transfer device with the real program, by somebody who knows how it is really wired.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "db/house_file.h"
#include "feed/liveness.h"
#include "house/index.h"
#include "program.h"
#include "sample-house/truth.h"
#include "tests/support/sample_house.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class Prove : public ::testing::Test {
 protected:
  Prove() {
    record = sample_house();
    const Truth truth = read_truth(record, source_file("sample-house/truth.csv"));
    at_start = truth.at_start;
    record.declared_feeds.clear();
    const auto declare = [&](Id<Point> point, Id<Device> device, const Feed& feed) {
      for (const Tap& tap : feed.taps) record.declared_feeds.push_back({Id<DeclaredFeed>::fresh(), point, device, tap.hot, tap.breaker, tap.pole, "J.", ""});
    };
    for (std::size_t p = 0; p < record.points.size(); ++p)
      if (!record.points[p].behind && at_start[p] != AtStart::dead_for_good) declare(record.points[p].id, {}, truth.feeds.of_point[p]);
    for (std::size_t d = 0; d < record.devices.size(); ++d)
      if (!record.devices[d].behind) declare({}, record.devices[d].id, truth.feeds.of_device[d]);
    feeds = truth.feeds;
    really = record;
  }
  void keep() { HouseFile::create(folder.at("a.house"), record); }
  Position& position(House& house, int number) { return *std::ranges::find(house.positions, number, &Position::number); }
  void exchange(int one, int other) {
    std::swap(position(really, one).breaker, position(really, other).breaker);
    std::swap(position(really, one).pole, position(really, other).pole);
  }

  /// What really works as the step says that everything stands.
  bool works(const Json& step) const {
    const Graph graph = build_graph(really, feeds);
    State state = usual_state(graph);
    const Json& stands = step.at("stands");
    if (!stands.at("utility")) state.live_legs[0] = 0;
    if (!stands.at("utility") && stands.at("source_runs"))
      for (const Terminal& terminal : graph.terminals)
        if (terminal.source == 1) state.live_legs[1] = static_cast<std::uint8_t>(state.live_legs[1] | 1 << (terminal.leg - 1));
    for (const Json& row : stands.at("positions")) {
      const std::string to = row.at("stands");
      state.throws[graph.handle_of(*parse_handle_ref(row.at("ref").get<std::string>()))] = to == "off" ? kOff : to == "utility" ? kUtilitySide : kBackupSide;
    }
    for (const Json& row : stands.at("off")) move_handle(graph, state, graph.handle_of(*parse_handle_ref(row.at("ref").get<std::string>())), kOff);
    const std::string id = step.at("point").at("id");
    const auto point = static_cast<std::size_t>(std::ranges::find(really.points, Id<Point>{*parse_id(id)}, &Point::id) - really.points.begin());
    const Liveness live = liveness(graph, state);
    EXPECT_TRUE(live.joined.empty());
    return at_start[point] == AtStart::live && state_by_record(graph, live, point) == PointState::working;
  }

  /// Answers as it is, with a break (the program killed) after every `run` answers.
  int play(int run = 10'000) {
    int looks = 0;
    for (bool done = false; !done;) {
      Talk talk(folder, {"prove", "--json-lines", "--who", "J."});
      Json step = Json::parse(talk.receive());
      for (int i = 0; i < run && !done; ++i) {
        done = step.at("kind") == "done";
        if (done) break;
        const bool look = step.at("kind") == "look";
        looks += look;
        talk.send(R"({"do":"answer","answer":")" + std::string(!look ? "done" : works(step) ? "live" : "dead") + "\"}");
        step = Json::parse(talk.receive());
      }
      talk.kill();
    }
    return looks;
  }

  Folder folder;
  /// Lines as they were before they were wrapped.
  static std::string unwrapped(std::string text) {
    std::ranges::replace(text, '\n', ' ');
    return text;
  }
  House record, really;
  Feeds feeds;
  std::vector<AtStart> at_start;
};

TEST_F(Prove, the_sample_house_wired_as_recorded_is_proved) {
  keep();
  EXPECT_THAT(folder.run({"prove", "--status"}).out, HasSubstr("not yet"));
  std::printf("sample house: %d looks\n", play());
  const Ran ran = folder.run({"prove", "--status"});
  EXPECT_EQ(ran.code, 0) << ran.out;
  EXPECT_THAT(unwrapped(ran.out), AllOf(HasSubstr("Positions 1 (breaker Main 14), 2 (breaker Main 24), 3 (breaker Main 21), 4 (breaker Main 19), 5+6 (breaker Main 20-22), "
                                                  "7 (breaker Main 16b) and 8 (breaker Main 1): proved on "), Not(HasSubstr("not yet")),
                             HasSubstr("The source reached nothing but its positions")));
  EXPECT_EQ(folder.run({"check"}).code, 0);
}

TEST_F(Prove, exchanged_positions_are_named_also_when_the_program_is_killed_on_the_way) {
  exchange(2, 8);
  keep();
  play(7);
  const Ran ran = folder.run({"prove", "--status"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("2 and 8 are exchanged: position 2 carries breaker Main 1 instead of Main 24."),
                             HasSubstr("Positions 1 (breaker Main 14), 3 (breaker"), Not(HasSubstr("! Position 3"))));
  const Json json = Json::parse(folder.run({"prove", "--status", "--json"}).out);
  EXPECT_EQ(json["units"][1]["fault"], "exchanged");
  EXPECT_EQ(json["units"][1]["carries"][0]["name"], "breaker 1 in Main");
  ASSERT_EQ(folder.run({"prove", "--record-as-found"}).code, 0);
  EXPECT_THAT(folder.run({"prove", "--status"}).out, AllOf(HasSubstr(" 2 (breaker Main 1),"), Not(HasSubstr("not yet")), Not(HasSubstr("exchanged"))));
  EXPECT_EQ(folder.run({"prove", "--record-as-found"}).code, 4);
}

TEST_F(Prove, a_position_with_another_circuit_is_named) {
  const auto other = std::ranges::find_if(really.breakers, [&](const Breaker& b) { return b.space == 25; });
  position(really, 4).breaker = other->id;
  keep();
  play();
  EXPECT_THAT(folder.run({"prove", "--status"}).out, HasSubstr("Position 4 carries breaker Main 25 instead of Main 19."));
}

TEST_F(Prove, the_terminal_shows_one_thing_at_a_time_and_keeps_what_was_answered) {
  keep();
  const Ran ran = folder.run({"prove"}, "\n?\nl\nu\nx\no\np\n");
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Before you start:"), HasSubstr("oxygen concentrator"), HasSubstr("Is it live?"), HasSubstr("Taken back."),
                             HasSubstr("This key means nothing here. These do:"), HasSubstr("Everything is as on an ordinary day."), HasSubstr("Paused.")));
  EXPECT_EQ(folder.run({"prove"}, "l\n").code, 1);
}

TEST_F(Prove, which_of_several_cannot_be_moved_is_said_by_its_number_and_a_wrong_one_is_told) {
  keep();
  std::string keys;  // read on, and say what is so, until several are to be moved at once
  {
    Talk talk(folder, {"prove", "--json-lines"});
    Json step = Json::parse(talk.receive());
    for (int i = 0; i < 300 && !(step.at("kind") == "move" && step.at("moves").size() > 1 && step.at("moves")[0].at("to") == "off"); ++i) {
      ASSERT_NE(step.at("kind"), "done");
      talk.send(R"({"do":"answer","answer":")" + std::string(step.at("kind") != "look" ? "done" : works(step) ? "live" : "dead") + "\"}");
      step = Json::parse(talk.receive());
    }
    ASSERT_EQ(step.at("kind"), "move");
    talk.kill();
  }
  const Ran ran = folder.run({"prove"}, "s\n99\n5+6\np\n");
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Type the number of its position"), HasSubstr("No position of this step is called so."))) << ran.out;
  EXPECT_THAT(folder.run({"prove"}, "s\n\np\n").out, HasSubstr("Paused."));
}

TEST_F(Prove, what_was_left_in_the_middle_is_said_by_the_status_and_before_an_outage) {
  keep();
  EXPECT_THAT(folder.run({"prove", "--status"}).out, Not(HasSubstr("left in the middle")));
  {
    Talk talk(folder, {"prove", "--json-lines"});
    Json step = Json::parse(talk.receive());
    for (int i = 0; i < 1000 && step.at("stands").at("utility"); ++i) {
      talk.send(R"({"do":"answer","answer":")" + std::string(step.at("kind") != "look" ? "done" : works(step) ? "live" : "dead") + "\"}");
      step = Json::parse(talk.receive());
    }
    talk.kill();
  }
  EXPECT_THAT(folder.run({"prove", "--status"}).out, AllOf(HasSubstr("Proving was left in the middle. By the record: The main is off, and"), HasSubstr("runs and is joined")));
  EXPECT_NE(Json::parse(folder.run({"prove", "--status", "--json"}).out).at("left"), "");
  EXPECT_THAT(folder.run({"outage"}, "p\n").out, HasSubstr("Proving was left in the middle"));
}

TEST_F(Prove, what_makes_no_sense_is_one_sentence) {
  ASSERT_EQ(folder.run({"new", "b.house"}).code, 0);
  const Ran ran = folder.run({"prove", "--status"});
  EXPECT_EQ(ran.code, 4);
  EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
}

/// A backfed breaker with an interlock; the freezer and the pump (240 V) stay on.
constexpr const char* kInterlocked =
    "Cellar: freezer 100/400 W !, well pump 240 V 750/1500 W !\nKitchen: 1r, 1l\nHall: 1l\nGenerator G 3600/4500 W 120/240\n"
    "Panel Main in Cellar, 20 spaces, 100 A main: 1 15; 3 15; 6 15; 8 15; 2+4 30 backfed from G, interlocked; 10+12 20\n"
    "By J.\nCellar freezer <- Main 1\nKitchen receptacle 1 <- Main 3\nKitchen light <- Main 6\nHall light <- Main 8\nCellar well pump <- Main 10+12\n";

/// Answers all steps of an interlocked house that is wired right, and whose interlock does this.
Json play_interlocked(const Folder& folder, const char* interlock) {
  Talk talk(folder, {"prove", "--json-lines", "--who", "Ana"});
  Json step = Json::parse(talk.receive());
  for (int i = 0; i < 300 && step.at("kind") != "done"; ++i) {
    std::string answer = "done";
    if (step.at("kind") == "try_interlock") answer = interlock;
    if (step.at("kind") == "look") {
      const Json& stands = step.at("stands");
      const std::string point = step.at("point").at("name"), off = stands.at("off").dump();
      const auto is_off = [&](const char* breaker) { return off.find(std::string("breaker ") + breaker + " in") != std::string::npos; };
      const char* breaker = point.find("freezer") != std::string::npos ? "1" : point.find("pump") != std::string::npos ? "10-12" : point.find("receptacle") != std::string::npos ? "3"
                            : point.find("Hall") != std::string::npos  ? "8" : "6";
      answer = !is_off(breaker) && (stands.at("utility").get<bool>() || (stands.at("source_runs") && stands.at("let_in"))) ? "live" : "dead";
    }
    talk.send(R"({"do":"answer","answer":")" + answer + "\"}");
    step = Json::parse(talk.receive());
    if (step.at("type") == "error") ADD_FAILURE() << step.dump();
  }
  return step;
}

class Interlock : public ::testing::Test {
 protected:
  Interlock() {
    EXPECT_EQ(folder.start_house(kInterlocked).code, 0);
    EXPECT_EQ(folder.run({"plan", "--keep"}).code, 0);
  }
  Json panel() { return Json::parse(folder.run({"prove", "--status", "--json"}).out).at("panel"); }
  Folder folder;
};

TEST_F(Interlock, is_tried_and_the_kept_breakers_are_proved_by_a_program) {
  EXPECT_EQ(folder.run({"prove", "--status"}).code, 1);
  EXPECT_THAT(folder.run({"plan", "--kept"}).out, HasSubstr("NOT PROVED YET"));
  EXPECT_EQ(play_interlocked(folder, "blocked").at("kind"), "done");
  EXPECT_EQ(panel().at("result"), "proved");
  const Ran status = folder.run({"prove", "--status"});
  EXPECT_EQ(status.code, 0) << status.out;
  EXPECT_THAT(status.out, AllOf(HasSubstr("The interlock blocks"), HasSubstr("All is proved")));
  EXPECT_THAT(folder.run({"plan", "--kept"}).out, Not(HasSubstr("NOT PROVED")));
}

TEST_F(Interlock, that_does_not_block_is_a_danger_and_the_outage_board_does_not_let_the_source_in) {
  EXPECT_EQ(play_interlocked(folder, "not_blocked").at("kind"), "done");
  EXPECT_EQ(panel().at("result"), "wrong");
  EXPECT_THAT(folder.run({"prove", "--status"}).out, HasSubstr("The interlock does not block"));
  ASSERT_EQ(folder.run({"outage", "--gone"}).code, 0);
  const Json outage = Json::parse(folder.run({"outage", "--status", "--json"}).out);
  EXPECT_EQ(outage.at("step").at("kind"), "no_safe_way");
  EXPECT_THAT(folder.run({"outage", "--status"}).out, HasSubstr("can meet the power from the street"));
  ASSERT_EQ(folder.run({"prove", "--again"}, "\n").code, 1) << "the input ended";
  EXPECT_EQ(panel().at("result"), "not_yet");
}

TEST_F(Interlock, at_the_terminal_is_answered_with_b_or_g) {
  const Ran ran = folder.run({"prove"}, "\nb\np\n");
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Try the interlock: with the main breaker of Main ON"), HasSubstr("b  blocked: it does not go on")));
  EXPECT_EQ(panel().at("tries")[0].at("result"), "blocked");
}

}  // namespace
}  // namespace ohmstead::whole
