// What devices of the sample house take down, found with the real program by somebody who knows the truth: the record
// says which receptacles are GFCIs and where switches are, and nothing of what is behind them.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "program.h"

namespace ohmstead::whole {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

/// The sample house, and a copy of it without what is behind its devices.
class Hidden : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(folder.run({"new", "whole.house"}).code, 0);
    ASSERT_EQ(folder.run({"--house", "whole.house", "enter", OHMSTEAD_SAMPLE "/house.txt"}).code, 0);
    ASSERT_EQ(folder.run({"--house", "whole.house", "export", "-o", "whole.json"}).code, 0);
    whole = Json::parse(folder.read("whole.json"));
    Json hidden = whole;
    for (Json& point : hidden["point"]) {
      const bool in_a_gfci = std::ranges::any_of(hidden["device"], [&](const Json& device) { return device["at_point"] == point["id"]; });
      if (!in_a_gfci) point["behind"] = nullptr;
    }
    folder.write("hidden.json", hidden.dump());
    ASSERT_EQ(folder.run({"import", "hidden.json", "a.house"}).code, 0);
    std::filesystem::remove(folder.at("whole.house"));  // one house file in the folder needs no name
    read_dead_at_start();
  }

  void read_dead_at_start() {
    std::ifstream file(OHMSTEAD_SAMPLE "/truth.csv");
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
      std::istringstream fields(line);
      std::vector<std::string> words;
      for (std::string word; std::getline(fields, word, ',');) words.push_back(word);
      at_start[words.at(0) + ", " + words.at(1)] = std::stoi(words.at(6));
    }
  }

  /// "Upper bath, receptacle 1" for a row of the record.
  [[nodiscard]] std::string name_of(const Json& point) const {
    for (const Json& room : whole["room"])
      if (room["id"] == point["room"]) return room["name"].get<std::string>() + ", " + point["name"].get<std::string>();
    return "";
  }
  /// What is behind the device that a handle belongs to, by the record of the whole house.
  [[nodiscard]] std::set<std::string> truth(const Json& handle) const {
    std::set<std::string> names;
    for (const Json& point : whole["point"])
      for (Json at = point["behind"]; !at.is_null();) {
        if (at == handle["device"]) names.insert(name_of(point));
        at = std::ranges::find_if(whole["device"], [&](const Json& device) { return device["id"] == at; })->at("behind");
      }
    return names;
  }
  [[nodiscard]] const Json& handle(const std::string& ref) const {
    return *std::ranges::find_if(whole["handle"], [&](const Json& row) { return ref == "device:" + row["id"].get<std::string>(); });
  }

  std::string answer(const Json& step) {
    const std::string kind = step["kind"];
    if (kind != "look" && kind != "ask_dead") return "done";
    std::string name = step["point"]["name"];
    name = name.substr(0, name.find(" ("));
    int& dead = at_start.at(name);
    if (kind == "ask_dead" && dead == 1) dead = 0;
    if (dead > 0) return "dead";
    for (const Json& open : step["handles"])
      if (truth(handle(open["ref"])).contains(name)) return "dead";
    return "live";
  }

  /// Answers the session about this handle to its end, or `most` answers; says what was found.
  std::set<std::string> ask(const std::vector<std::string>& words, int most = 1000) {
    Talk talk(folder, words);
    Json step = Json::parse(talk.receive());
    for (int i = 0; i < most && step["kind"] != "done"; ++i) {
      last = step;
      talk.send(Json{{"do", "answer"}, {"answer", answer(step)}, {"step", step["step"]}}.dump());
      step = Json::parse(talk.receive());
      EXPECT_EQ(step["type"], "step") << step;
    }
    talk.send(R"({"do":"behind"})");
    const Json found = Json::parse(talk.receive());
    EXPECT_EQ(found["type"], "behind") << found;
    done = step["kind"] == "done";
    text = found["text"];
    std::set<std::string> names;
    for (const Json& point : found["points"])
      if (point["standing"] == "behind")
        names.insert(name_of(*std::ranges::find_if(whole["point"], [&](const Json& row) { return row["id"] == point["point"]; })));
    talk.kill();
    return names;
  }

  Folder folder;
  Json whole, last;
  std::map<std::string, int> at_start;
  bool done = false;
  std::string text;
};

TEST_F(Hidden, what_every_gfci_takes_down_is_found_and_told_where_the_house_is_asked) {
  for (const char* name : {"Upper bath GFCI", "Garage GFCI", "Workshop GFCI", "Middle bath GFCI"}) {
    SCOPED_TRACE(name);
    const std::set<std::string> found = ask({"trace", "--json-lines", "--behind", name});
    EXPECT_TRUE(done);
    EXPECT_EQ(found, truth(handle(last["behind"]["ref"]))) << text;
  }
  EXPECT_THAT(folder.run({"where", "lower bath receptacle"}).out, HasSubstr("Upper bath GFCI, found by looks"));
  const Json where = Json::parse(folder.run({"where", "lower bath receptacle", "--json"}).out);
  EXPECT_EQ(where["found_behind"], where["behind"]);
  ASSERT_EQ(folder.run({"enter", "--line", "Upper bath GFCI receptacle <- Main 5 by Ana"}).code, 0);
  const Json off = Json::parse(folder.run({"off", "upper bath GFCI", "--json"}).out);
  std::set<std::string> goes_off;
  for (const Json& point : off["off"]) goes_off.insert(point["room"].get<std::string>() + ", " + point["name"].get<std::string>());
  EXPECT_EQ(goes_off, (std::set<std::string>{"Lower bath, receptacle 1", "Upper bath, GFCI receptacle", "Upper bath, receptacle 1"}));
  EXPECT_THAT(folder.run({"export"}).out, Not(HasSubstr("found"))) << "what is found is computed, not stored";
}

TEST_F(Hidden, what_wall_switches_work_is_found_one_of_a_3_way_pair_too) {
  for (const char* name : {"Kitchen light switch", "Living room receptacles switch", "Lower hall light switch"}) {
    SCOPED_TRACE(name);
    const std::set<std::string> found = ask({"trace", "--json-lines", "--behind", name});
    EXPECT_TRUE(done);
    EXPECT_EQ(found, truth(handle(last["behind"]["ref"]))) << text;
  }
}

TEST_F(Hidden, a_session_that_was_cut_off_goes_on_and_answers_can_be_taken_back) {
  (void)ask({"trace", "--json-lines", "--behind", "upper bath GFCI"}, 3);
  EXPECT_FALSE(done);
  {
    Talk talk(folder, {"trace", "--json-lines"});
    const Json step = Json::parse(talk.receive());
    EXPECT_EQ(step["kind"], "look");
    EXPECT_THAT(step["text"].get<std::string>(), HasSubstr("Off now: GFCI in Upper bath"));
    talk.send(R"({"do":"undo"})");
    EXPECT_EQ(Json::parse(talk.receive())["point"], last["point"]) << "the look before is asked again";
    talk.send(R"({"do":"undo"})");
    const Json open = Json::parse(talk.receive());
    EXPECT_EQ(open["kind"], "open");
    EXPECT_THAT(open["text"].get<std::string>(), HasSubstr("Press TEST on GFCI in Upper bath"));
    talk.kill();
  }
  EXPECT_EQ(ask({"trace", "--json-lines"}).size(), 3U);
  EXPECT_TRUE(done);
  Talk breakers(folder, {"trace", "--json-lines"});
  const Json next = Json::parse(breakers.receive());
  EXPECT_FALSE(next.contains("behind")) << "everything was asked about the GFCI: breakers again";
  breakers.send(R"({"do":"behind"})");
  EXPECT_EQ(Json::parse(breakers.receive())["type"], "error");
  breakers.kill();
}

TEST_F(Hidden, a_transfer_position_has_its_own_caution_and_what_cannot_be_asked_is_refused_in_one_sentence) {
  const Ran ran = folder.run({"trace", "--behind", "T7"}, "\n\n");
  EXPECT_THAT(ran.out, HasSubstr("Before position 7 of Transfer is moved"));
  EXPECT_THAT(ran.out, HasSubstr("licensed electrician"));
  EXPECT_THAT(ran.out, HasSubstr("Set position 7 of Transfer to OFF."));
  const std::string before = folder.read("a.house");
  for (const char* name : {"no such thing", "T7 breaker", "GFCI"}) {
    const Ran refused = folder.run({"trace", "--behind", name});
    EXPECT_EQ(refused.code, 4) << name << refused.out;
    EXPECT_EQ(refused.out, "");
    EXPECT_FALSE(refused.err.empty());
  }
  EXPECT_EQ(folder.read("a.house"), before);
}

}  // namespace
}  // namespace ohmstead::whole
