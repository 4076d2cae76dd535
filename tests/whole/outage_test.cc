// An outage with the real program: killed at random moments, asked from the command line, played at the terminal.

#include <gmock/gmock.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <random>
#include <thread>

#include "db/check.h"
#include "db/house_file.h"
#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;

constexpr const char* kHouse =
    "Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !, furnace 500/1200 W !\nKitchen: refrigerator 150/600 W !, 2r\n"
    "Bedroom: oxygen concentrator 350 W !!, 2r\nHall: 1r, 1r by the stair\n"
    "Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20; 9 15; 2+4 20\n"
    "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nKitchen refrigerator <- Main 5\nKitchen receptacle 1 <- Main 7\n"
    "Kitchen receptacle 2 <- Main 7\nBedroom oxygen concentrator <- Main 9\nBedroom receptacle 1 <- Main 9\nBedroom receptacle 2 <- Main 9\n"
    "Cellar well pump <- Main 2+4\nHall receptacle 1 <- Main 9\nHall receptacle 2 <- Main 5\n"
    "Generator G 3600/4500 W 120/240\n"
    "Transfer T in Cellar 7 positions from G: 1 15 L1 <- Main 1; 2 15 L1 <- Main 3; 3 15 L2 <- Main 5; 4 20 L1 <- Main 7; 5 15 L2 <- Main 9; 6+7 20 <- Main 2+4\n";

struct Outage : testing::Test {
  Outage() {
    EXPECT_EQ(folder.run({"new", "a.house"}).code, 0);
    const Ran entered = folder.run({"enter", "-"}, kHouse);
    EXPECT_EQ(entered.code, 0) << entered.err;
  }
  Ran ask(const std::vector<std::string>& words, const std::string& input = "") {
    std::vector<std::string> all{"outage"};
    all.insert(all.end(), words.begin(), words.end());
    return folder.run(all, input);
  }
  Json status() { return Json::parse(ask({"--status", "--json"}).out); }
  /// Answers the step of now, as a program that has just read it.
  Ran answer(const std::string& word, const std::string& who = "") { return ask({"--answer", word, "--after", number(), "--who", who}); }
  /// Number of the step of now.
  std::string number() { return std::to_string(status()["revision"].get<int>()); }
  /// Confirms steps until nothing is left to do.
  void follow() {
    for (int i = 0; i < 40 && !status()["step"]["settled"].get<bool>(); ++i) ASSERT_EQ(answer("done").code, 0);
  }
  Folder folder;
};

std::size_t standing_lines(const House& house) {
  return static_cast<std::size_t>(std::ranges::count(house.outage_events, false, &OutageEvent::withdrawn));
}

/// How long the program needs here and now (sanitizers, busy machine) from its start to the first step.
std::chrono::microseconds time_to_first_step(const Folder& folder) {
  const auto start = std::chrono::steady_clock::now();
  Talk talk(folder, {"outage"});
  for (int lines = 0; lines < 400 && talk.receive().find("-----") == std::string::npos;) ++lines;
  const auto needed = std::chrono::steady_clock::now() - start;
  talk.kill();
  return std::chrono::duration_cast<std::chrono::microseconds>(needed);
}

TEST_F(Outage, sixty_kills_lose_no_step_that_was_acknowledged_by_the_next) {
  std::mt19937 random(11);
  ASSERT_EQ(ask({"--gone"}).code, 0);
  const auto needed = static_cast<std::uint64_t>(time_to_first_step(folder).count());
  std::size_t sure = 1;
  for (int kills = 0; kills < 60; ++kills) {
    {
      Talk talk(folder, {"outage"});
      const auto moment = std::chrono::microseconds(500 + random() % (5 * needed + 20'000));
      std::thread killer([&] {
        std::this_thread::sleep_for(moment);
        talk.kill();
      });
      for (int shown = 0;;) {
        const std::string line = talk.receive();
        if (line.empty() && ++shown > 2000) break;
        if (line.starts_with("-----") || line.starts_with("> -----")) {  // a step is shown: the one before is on disk
          const bool back = random() % 9 == 0;
          talk.send(back ? "b" : "");
        }
        if (line.find("The outage is over") != std::string::npos || line.find("Is the power") != std::string::npos) talk.send("");
      }
      killer.join();
    }
    ASSERT_TRUE(check_house_file(folder.at("a.house")).empty());
    const House house = HouseFile::open(folder.at("a.house"), Access::read).load();
    ASSERT_GE(standing_lines(house), sure) << "kill " << kills;
    sure = standing_lines(house);
    const Json now = status();
    ASSERT_EQ(now["question"], "outage");
  }
  EXPECT_GT(sure, 10U);
}

TEST_F(Outage, an_answer_is_on_disk_before_the_next_step_is_shown) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  Talk talk(folder, {"outage"});
  std::size_t steps = 0;
  for (int lines = 0; lines < 400 && steps < 6; ++lines) {
    const std::string line = talk.receive();
    if (line.find("-----") == std::string::npos) continue;
    const House house = HouseFile::open(folder.at("a.house"), Access::read).load();
    ASSERT_EQ(house.outage_events.size(), 1 + steps);
    ++steps;
    talk.send("");
  }
  EXPECT_EQ(steps, 6U);
  talk.kill();
}

TEST_F(Outage, the_whole_of_it_from_the_command_line_with_a_guest_and_a_hair_dryer) {
  EXPECT_THAT(ask({"--status"}).out, HasSubstr("No outage is under way."));
  ASSERT_EQ(ask({"--gone", "--who", "Ana"}).code, 0);
  EXPECT_THAT(ask({"--status"}).out, HasSubstr("NO POWER: oxygen concentrator (Bedroom)"));
  follow();
  EXPECT_EQ(status()["step"]["kind"], "running");
  EXPECT_THAT(ask({"--status"}).out, testing::Not(HasSubstr("NO POWER")));
  const Ran may = ask({"--may", "hair dryer", "--at", "bedroom receptacle 1"});
  EXPECT_EQ(may.code, 1);
  EXPECT_THAT(may.out, HasSubstr("No, not at Bedroom receptacle 1")) << "1875 W (DOE list, trade-facts C5) on a 15 A position";
  const Ran small = ask({"--may", "shaver 20 W", "--at", "bedroom"});
  EXPECT_EQ(small.code, 0) << small.err;
  EXPECT_THAT(small.out, HasSubstr("Yes."));
  EXPECT_EQ(ask({"--may", "shaver 20 W", "--at", "hall"}).code, 4) << "two circuits: it asks which one";
  EXPECT_THAT(ask({"--may", "shaver 20 W", "--at", "hall"}).err, HasSubstr("different circuits"));
  ASSERT_EQ(ask({"--on", "hair dryer 1000 W", "--at", "kitchen receptacle 1"}).code, 0);
  EXPECT_THAT(ask({"--status"}).out, HasSubstr("hair dryer (Kitchen receptacle 1), 1,000 W"));
  ASSERT_EQ(ask({"--off", "hair dryer"}).code, 0);
  EXPECT_THAT(ask({"--status"}).out, testing::Not(HasSubstr("hair dryer")));
  ASSERT_EQ(ask({"--back"}).code, 0);
  follow();
  EXPECT_EQ(status()["phase"], "none");
  const Ran log = ask({"--log"});
  EXPECT_THAT(log.out, HasSubstr("The power from the street is gone (Ana)"));
  EXPECT_THAT(log.out, HasSubstr("On: hair dryer at Kitchen receptacle 1, 1,000 W"));
  EXPECT_THAT(log.out, HasSubstr("The outage is over"));
}

TEST_F(Outage, a_move_of_ones_own_is_told_and_taken_back) {
  EXPECT_EQ(Json::parse(ask({"--json"}).out)["phase"], "none") << "nothing is asked of a program";
  ASSERT_EQ(ask({"--gone"}).code, 0);
  EXPECT_EQ(ask({"--moved", "T3 backup"}).code, 0);
  EXPECT_EQ(status()["step"]["kind"], "move") << "before the generator starts nothing may hang on it";
  EXPECT_EQ(status()["step"]["to"], "off");
  EXPECT_EQ(ask({"--undo"}).code, 0);
  EXPECT_EQ(status()["step"]["kind"], "place_source");
  EXPECT_EQ(ask({"--moved", "3 backup"}).code, 0) << "only a handle of the transfer device has a backup side";
  EXPECT_EQ(ask({"--undo"}).code, 0);
  EXPECT_EQ(ask({"--moved", "freezer backup"}).code, 4);
  EXPECT_EQ(answer("no").code, 4) << "this step takes no 'no'";
  EXPECT_EQ(ask({"--gives", "a lot"}).code, 4);
  EXPECT_EQ(ask({"--back", "--note", "x"}).code, 4) << "two things at once";
}

/// Reads up to the next step that is shown; what was said before it.
std::string up_to_the_next_step(Talk& talk) {
  std::string said;
  for (int lines = 0; lines < 300; ++lines) {
    const std::string line = talk.receive();
    if (line.find("-----") != std::string::npos) return said;
    said += line + "\n";
  }
  return said + "no step was shown";
}

void read_to(Talk& talk, const std::string& words) {
  for (int lines = 0; lines < 300; ++lines)
    if (talk.receive().find(words) != std::string::npos) return;
  FAIL() << words << " was not said";
}

TEST_F(Outage, of_two_people_at_one_board_the_second_sees_what_the_first_did_before_an_answer_is_taken) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  Talk ana(folder, {"outage", "--who", "Ana"}), ben(folder, {"outage", "--who", "Ben"});
  (void)up_to_the_next_step(ana), (void)up_to_the_next_step(ben);
  EXPECT_EQ(status()["step"]["kind"], "place_source");
  ana.send("");
  (void)up_to_the_next_step(ana);
  EXPECT_EQ(status()["step"]["kind"], "connect_source");
  ben.send("");  // means the step that he sees: it is done already
  EXPECT_THAT(up_to_the_next_step(ben), testing::AllOf(HasSubstr("Somebody else has gone on"), HasSubstr("G: placed (Ana)"), testing::Not(HasSubstr("not taken")), testing::Not(HasSubstr("G: connected"))));
  EXPECT_EQ(status()["step"]["kind"], "connect_source") << "not confirmed by Ben";
  ben.send("");
  (void)up_to_the_next_step(ben);
  EXPECT_EQ(status()["step"]["kind"], "start_source") << "nor lost";
  ana.send("w"), ana.send("the cord is wet");  // asked for before she sees his step
  EXPECT_THAT(up_to_the_next_step(ana), HasSubstr("G: connected (Ben)"));
  ana.kill(), ben.kill();
  const House house = HouseFile::open(folder.at("a.house"), Access::read).load();
  EXPECT_EQ(standing_lines(house), 3U);
}

TEST_F(Outage, an_answer_without_a_session_says_which_step_it_is_for_and_is_refused_if_another_went_on) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  const std::string seen = number();
  const Ran blind = ask({"--answer", "done"});
  EXPECT_EQ(blind.code, 4);
  EXPECT_THAT(blind.err, testing::AllOf(HasSubstr("takes --after " + seen), HasSubstr("ohmstead outage --json")));
  EXPECT_THAT(ask({"--status"}).out, HasSubstr("--answer done --after " + seen)) << "for a person with a shell script";
  ASSERT_EQ(ask({"--answer", "done", "--after", seen, "--who", "Ana"}).code, 0);
  const std::string house = folder.read("a.house");
  const Ran second = ask({"--answer", "done", "--after", seen, "--who", "Ben"});
  EXPECT_EQ(second.code, 5);
  EXPECT_THAT(second.err, HasSubstr("Somebody else has gone on"));
  EXPECT_EQ(folder.read("a.house"), house) << "nothing was written";
  EXPECT_EQ(status()["step"]["kind"], "connect_source");
  EXPECT_EQ(ask({"--answer", "done", "--after", "many"}).code, 4);
}

TEST_F(Outage, a_step_that_another_took_back_or_whose_wishes_changed_is_not_answered_by_its_old_number) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  ASSERT_EQ(answer("done").code, 0);
  const std::string seen = number();
  ASSERT_EQ(ask({"--undo"}).code, 0);
  EXPECT_EQ(ask({"--answer", "done", "--after", seen}).code, 5) << "the log has as many lines as before";
  const std::string before_wish = number();
  ASSERT_EQ(folder.run({"wish", "not", "furnace"}).code, 0);
  EXPECT_EQ(ask({"--answer", "done", "--after", before_wish}).code, 5);
  EXPECT_EQ(status()["step"]["kind"], "place_source");
}

TEST_F(Outage, a_line_that_somebody_types_while_another_goes_on_is_not_taken_and_nothing_is_lost) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  Talk ana(folder, {"outage", "--who", "Ana"});
  (void)up_to_the_next_step(ana);
  ana.send("w");
  read_to(ana, "What is to be written down?");
  ASSERT_EQ(answer("done", "Ben").code, 0);
  ana.send("it rains");
  EXPECT_THAT(up_to_the_next_step(ana), testing::AllOf(HasSubstr("Your last answer was not taken."), HasSubstr("G: placed (Ben)")));
  ana.send("w"), ana.send("it rains");
  read_to(ana, "Written down");
  ana.kill();
  EXPECT_THAT(ask({"--log"}).out, testing::AllOf(HasSubstr("G: placed (Ben)"), HasSubstr("Note: it rains (Ana)")));
}

TEST_F(Outage, the_tank_is_filled_step_by_step_or_said_to_be_full) {
  ASSERT_EQ(folder.run({"enter", "--line", "Generator H 3600/4500 W 120/240, gasoline, 11 L tank"}).code, 0);
  ASSERT_EQ(ask({"--gone", "--source", "G"}).code, 0);
  follow();
  ASSERT_EQ(ask({"--refuel"}).code, 0);
  EXPECT_EQ(status()["step"]["reason"], "refuel");
  while (status()["step"]["kind"] != "refuel") ASSERT_EQ(answer("done").code, 0);
  EXPECT_THAT(ask({"--status"}).out, HasSubstr("let it cool before refueling"));
  ASSERT_EQ(answer("done").code, 0);
  follow();
  ASSERT_EQ(ask({"--refuelled", "--who", "Ana"}).code, 0);
  EXPECT_THAT(ask({"--log"}).out, HasSubstr("G: refuelled (Ana)"));
  EXPECT_EQ(ask({"--refuel", "--refuelled"}).code, 4);
}

TEST_F(Outage, the_log_is_in_local_time) {
  ASSERT_EQ(ask({"--gone"}).code, 0);
  setenv("TZ", "XYZ-5:30", 1);  // POSIX: 5:30 ahead of UTC
  EXPECT_THAT(ask({"--log"}).out, HasSubstr("(times in UTC+5:30):"));
  EXPECT_THAT(Json::parse(ask({"--log", "--json"}).out)["events"][0]["at"].get<std::string>(), testing::EndsWith("Z"));
  unsetenv("TZ");
}

TEST_F(Outage, the_terminal_asks_offers_and_writes_down) {
  const Ran ran = ask({}, "\n\n\n\n\n\n\n\n\n\n\n\na\nhair dryer\nkitchen receptacle 1\nn\na\nkettle 500 W\nkitchen receptacle 2\n\ns\nl\np\n");
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Take generator G outdoors, at least 20 ft (6 m)"));
  EXPECT_THAT(ran.out, HasSubstr("Move handle 5 on T to BACKUP."));
  EXPECT_THAT(ran.out, HasSubstr("Yes. Kettle (500 W at most)"));
  EXPECT_THAT(ran.out, HasSubstr("On now, 1,850 W of 3,600 W: oxygen concentrator (Bedroom), 350 W; freezer")) << "in one paragraph, so that the step stays on the screen";
  EXPECT_THAT(ran.out, HasSubstr("goes on from"));
  EXPECT_THAT(ask({"--log"}).out, HasSubstr("On: kettle at Kitchen receptacle 2, 500 W"));
}

}  // namespace
}  // namespace ohmstead::whole
