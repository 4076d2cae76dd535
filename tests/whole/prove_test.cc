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
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Position 3 (breaker Main 21): proved"), HasSubstr("Position 5+6 (breaker Main 20-22): proved"), Not(HasSubstr("not yet")),
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
                             HasSubstr("Position 1 (breaker Main 14): proved"), Not(HasSubstr("! Position 3"))));
  const Json json = Json::parse(folder.run({"prove", "--status", "--json"}).out);
  EXPECT_EQ(json["units"][1]["fault"], "exchanged");
  EXPECT_EQ(json["units"][1]["carries"][0]["name"], "breaker 1 in Main");
  ASSERT_EQ(folder.run({"prove", "--record-as-found"}).code, 0);
  EXPECT_THAT(folder.run({"prove", "--status"}).out, AllOf(HasSubstr("Position 2 (breaker Main 1): proved"), Not(HasSubstr("exchanged"))));
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
                             HasSubstr("This key means nothing here."), HasSubstr("Everything is as on an ordinary day."), HasSubstr("Paused.")));
  EXPECT_EQ(folder.run({"prove"}, "l\n").code, 1);
}

TEST_F(Prove, what_makes_no_sense_is_one_sentence) {
  ASSERT_EQ(folder.run({"new", "b.house"}).code, 0);
  const Ran ran = folder.run({"prove", "--status"});
  EXPECT_EQ(ran.code, 4);
  EXPECT_EQ(std::ranges::count(ran.err, '\n'), 1) << ran.err;
}

}  // namespace
}  // namespace ohmstead::whole
