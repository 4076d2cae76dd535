// kill -9 at 200 random moments of a scripted tracing session: nothing that was acknowledged (the
// next step was received) may be missing, and the file is whole every time.

#include <gtest/gtest.h>

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

constexpr int kKills = 200;
constexpr const char* kHouse =
    "Kitchen: 4r 2l, dishwasher\nHall: 2r 1l\nBath: 1g 1l\nBedroom: 4r 1l\n"
    "Panel Main 12 spaces, 100 A main: 1 20; 3 15; 5 15; 7 20; 9 20; 2 15; 4 15\n";

/// Looks that the program acknowledged, over all sessions.
struct Acknowledged {
  std::size_t looks = 0;
  std::int64_t revision = 2;
};

/// Answers steps until the killer strikes; counts what was acknowledged by a following step.
void talk_until_killed(Talk& talk, std::mt19937& random, Acknowledged& sure) {
  Json step = Json::parse(talk.receive(), nullptr, false);
  while (step.is_object()) {
    const std::string kind = step.value("kind", "");
    const bool look = kind == "look" || kind == "ask_dead";
    std::string answer = look ? (random() % 5 == 0 ? "dead" : "live") : "done";
    if (kind == "done") return;
    talk.send(R"({"do":"answer","answer":")" + answer + "\"}");
    step = Json::parse(talk.receive(), nullptr, false);
    if (!step.is_object() || step.value("type", "") != "step") return;
    sure.looks += look;
    ++sure.revision;
  }
}

TEST(Kill, two_hundred_kills_lose_no_acknowledged_answer) {
  Folder folder;
  ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
  ASSERT_EQ(folder.run({"enter", "-"}, kHouse).code, 0);
  std::mt19937 random(7);
  Acknowledged sure;
  for (int kills = 0; kills < kKills; ++kills) {
    {
      Talk talk(folder, {"trace", "--json-lines"});
      const auto moment = std::chrono::microseconds(500 + random() % 120'000);
      std::thread killer([&] {
        std::this_thread::sleep_for(moment);
        talk.kill();
      });
      talk_until_killed(talk, random, sure);
      killer.join();
    }
    const auto findings = check_house_file(folder.at("a.house"));
    ASSERT_TRUE(findings.empty()) << findings.front();
    HouseFile file = HouseFile::open(folder.at("a.house"), Access::read);
    const House house = file.load();
    ASSERT_GE(house.observations.size(), sure.looks) << "kill " << kills;
    ASSERT_GE(file.revision(), sure.revision) << "kill " << kills;
    sure = {house.observations.size(), file.revision()};  // an answer may be on disk unacknowledged
    if (kills % 20 == 19) {  // a session that is finished says nothing any more: begin another house
      std::filesystem::remove(folder.at("a.house"));
      ASSERT_EQ(folder.run({"new", "a.house"}).code, 0);
      ASSERT_EQ(folder.run({"enter", "-"}, kHouse).code, 0);
      sure = {};
    }
  }
}

}  // namespace
}  // namespace ohmstead::whole
