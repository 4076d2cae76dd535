#include "web/house_desk.h"

#include <gtest/gtest.h>
#include <malloc.h>

#include <map>
#include <thread>
#include <utility>

#include "db/base64.h"
#include "db/sha256.h"
#include "house/error.h"
#include "house/invariants.h"
#include "tests/db/temp_folder.h"
#include "tests/support/sample_house.h"
#include "tests/support/small_jpeg.h"
#include "trace/manner.h"

namespace ohmstead::web {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kNoon = "2026-11-27T12:00:00Z";

/// A desk over a new file, and two people.
struct Desk {
  TempFolder folder;
  std::filesystem::path path = folder / "a.house";
  ChangeCounter changes{1'000};
  std::string now = kNoon;
  std::function<void()> meanwhile;  ///< done once when the desk looks at its clock
  std::unique_ptr<HouseDesk> desk;
  Device ana{1, Role::change, "Ana"}, ben{2, Role::trace, "Ben"};

  explicit Desk(const House& house = sample_house()) {
    HouseFile::create(path, house);
    start();
  }
  void start() {
    const auto clock = [this] {
      if (const auto once = std::exchange(meanwhile, nullptr)) once();
      return now;
    };
    desk = std::make_unique<HouseDesk>(path, clock, LocalTime{}, changes);
  }
  /// Another program writes into the file while the desk is about to.
  void renamed_meanwhile(const std::string& name) {
    meanwhile = [this, name] { HouseFile::open(path, Access::change).change("renamed", [&](House& house) { house.dwelling.name = name; }); };
  }
  [[nodiscard]] House on_disk() const { return HouseFile::open(path, Access::read).load(); }
};

std::string refusal(const std::function<void()>& act) {
  try {
    act();
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

Json answer_to(const Json& step, const std::string& key, const char* word = nullptr) {
  const std::string kind = step.at("kind");
  return {{"do", "answer"}, {"answer", word != nullptr ? word : kind == "look" ? "live" : "done"}, {"step", step.at("step")}, {"key", key}};
}

TEST(HouseDesk, an_answer_is_on_disk_with_who_began_before_the_next_step_is_shown) {
  Desk on;
  Json step = on.desk->trace(on.ana)["step"];
  for (int n = 0; step.at("kind") != "look" && n < 20; ++n) step = on.desk->trace(on.ana, answer_to(step, "key00000" + std::to_string(n)))["answer"];
  ASSERT_EQ(step.at("kind"), "look");
  const auto before = on.changes.now();
  const Json next = on.desk->trace(on.ben, answer_to(step, "look00001", "dead"));
  EXPECT_GT(on.changes.now(), before);
  EXPECT_EQ(next.at("answer").at("type"), "step");
  const House disk = on.on_disk();
  ASSERT_FALSE(disk.observations.empty());
  EXPECT_EQ(disk.observations.back().point.text(), step.at("point").at("id").get<std::string>());
  EXPECT_EQ(disk.rounds.back().who, "Ana");
  EXPECT_EQ(disk.observations.back().at, kNoon);
}

TEST(HouseDesk, a_request_that_arrives_twice_is_done_once_also_by_a_server_started_again) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  const Json request = answer_to(first, "onlyonce1");
  const Json second = on.desk->trace(on.ana, request)["answer"];
  EXPECT_EQ(on.desk->trace(on.ana, request)["answer"], second);
  Json look = second;
  for (int n = 0; look.at("kind") != "look" && n < 20; ++n) look = on.desk->trace(on.ana, answer_to(look, "more0000" + std::to_string(n)))["answer"];
  const Json dead = answer_to(look, "deadonce1", "dead");
  (void)on.desk->trace(on.ana, dead);
  const std::size_t looks = on.on_disk().observations.size();
  on.changes.step();
  on.start();
  const Json again = on.desk->trace(on.ana, dead);
  EXPECT_EQ(on.on_disk().observations.size(), looks);
  EXPECT_EQ(again.at("answer").at("type"), "step");
}

#if defined(__GLIBC__) && !defined(__clang__)  // the sanitizers, which are built with clang, have a heap of their own
TEST(HouseDesk, an_answer_is_held_in_memory_twice_and_no_more) {
  constexpr std::size_t kMost = 800;  // bytes: its rows twice, and what the session notes of it
  Desk on;
  int number = 0;
  const auto held_after = [&](int answers) {
    for (; number < answers; ++number) {
      const Json step = on.desk->trace(on.ana)["step"];
      (void)on.desk->trace(on.ana, number % 10 == 9 ? Json{{"do", "undo"}, {"key", "undokey" + std::to_string(10'000 + number)}}
                                                    : answer_to(step, "answerkey" + std::to_string(10'000 + number)));
    }
    return mallinfo2().uordblks;
  };
  const std::size_t early = held_after(40), late = held_after(140);
  RecordProperty("bytes_an_answer", static_cast<int>((late - early) / 100));
  EXPECT_LT(late, early + 100 * kMost) << "bytes held after 40 answers: " << early << ", after 140: " << late;
}
#endif

TEST(HouseDesk, the_answer_to_an_earlier_step_is_refused_and_nothing_is_written) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  (void)on.desk->trace(on.ana, answer_to(first, "firstkey1"));
  const House before = on.on_disk();
  EXPECT_NE(refusal([&] { (void)on.desk->trace(on.ben, answer_to(first, "otherkey1")); }), "");
  EXPECT_NE(refusal([&] { (void)on.desk->trace(on.ben, {{"do", "answer"}, {"answer", "perhaps"}}); }), "");
  EXPECT_NE(refusal([&] { (void)on.desk->trace(on.ben, {{"do", "undo"}, {"key", "no key!"}}); }), "");
  EXPECT_EQ(on.on_disk(), before);
}

TEST(HouseDesk, two_people_at_their_places_are_a_helper_and_a_walker_and_each_sees_the_other) {
  Desk on;
  EXPECT_FALSE(on.desk->trace(on.ana)["manner"].at("helper"));
  (void)on.desk->stand(on.ana, {{"place", "panel"}, {"ready", true}});
  EXPECT_FALSE(on.desk->trace(on.ana)["manner"].at("helper"));
  const Json people = on.desk->stand(on.ben, {{"place", "rooms"}})["people"];
  ASSERT_EQ(people.size(), 2U);
  EXPECT_EQ(people[0].at("name"), "Ana");
  EXPECT_EQ(people[0].at("ready"), true);
  EXPECT_EQ(people[0].at("me"), false);
  EXPECT_EQ(people[1].at("me"), true);
  EXPECT_TRUE(on.desk->trace(on.ana)["manner"].at("helper"));
  EXPECT_TRUE(manner_of(on.on_disk()).helper);
  on.desk->leave(on.ben.number);
  EXPECT_FALSE(manner_of(on.on_disk()).helper);
  EXPECT_EQ(on.desk->trace(on.ana)["people"].size(), 1U);
  EXPECT_NE(refusal([&] { (void)on.desk->stand(on.ana, {{"place", "roof"}}); }), "");
}

TEST(HouseDesk, a_place_that_could_not_be_kept_is_not_taken_and_can_be_taken_again) {
  Desk on;
  (void)on.desk->stand(on.ana, {{"place", "panel"}});
  (void)on.desk->stand(on.ben, {{"place", "rooms"}});
  on.start();
  ASSERT_TRUE(manner_of(on.on_disk()).helper);
  on.renamed_meanwhile("Theirs");
  EXPECT_NE(refusal([&] { (void)on.desk->stand(on.ana, {{"place", "rooms"}}); }), "");
  EXPECT_EQ(on.desk->place_of(on.ana.number), Standpoint::away);
  (void)on.desk->stand(on.ana, {{"place", "rooms"}});
  EXPECT_FALSE(manner_of(on.on_disk()).helper) << "nobody is at the panel";
  EXPECT_EQ(on.on_disk().dwelling.name, "Theirs");
}

TEST(HouseDesk, ready_is_for_one_move_of_a_handle) {
  Desk on;
  (void)on.desk->stand(on.ana, {{"place", "panel"}, {"ready", true}});
  (void)on.desk->stand(on.ben, {{"place", "rooms"}, {"ready", true}});
  const auto ready = [&] {
    std::map<std::string, bool> all;
    const Json now = on.desk->trace(on.ana);
    for (const Json& person : now["people"]) all[person.at("place")] = person.at("ready");
    return all;
  };
  Json step = on.desk->trace(on.ana)["step"];
  for (int i = 0; step.at("kind") == "caution"; ++i) {
    EXPECT_TRUE(ready()["rooms"]);
    step = on.desk->trace(on.ben, answer_to(step, "caution" + std::to_string(i) + "key"))["answer"];
  }
  ASSERT_EQ(step.at("kind"), "open");
  EXPECT_TRUE(ready()["rooms"]);
  (void)on.desk->trace(on.ana, answer_to(step, "thehandle1"));
  EXPECT_FALSE(ready()["rooms"]);
  EXPECT_TRUE(ready()["panel"]);
}

TEST(HouseDesk, another_programs_change_is_noticed_and_gone_on_from) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  const auto before = on.changes.now();
  const auto shown = on.desk->shown();
  on.desk->look_around();
  EXPECT_EQ(on.changes.now(), before);
  HouseFile other = HouseFile::open(on.path, Access::change);
  other.change("a floor", [](House& house) { house.floors.push_back({.id = Id<Floor>::fresh(), .name = "Attic", .level = 2}); });
  on.desk->look_around();
  EXPECT_GT(on.changes.now(), before);
  EXPECT_EQ(on.desk->shown()->record.house.floors.back().name, "Attic");
  EXPECT_EQ(shown->record.house.floors.size() + 1, on.desk->shown()->record.house.floors.size());
  EXPECT_NE(refusal([&] { (void)on.desk->trace(on.ana, answer_to(first, "oldanswer")); }), "");
  (void)on.desk->trace(on.ana, answer_to(on.desk->trace(on.ana)["step"], "newanswer"));
  EXPECT_EQ(on.on_disk().floors.back().name, "Attic");
}

TEST(HouseDesk, of_a_change_that_came_before_an_answer_was_kept_everybody_is_told) {
  Desk on;
  (void)on.desk->outage("");
  const auto before = on.changes.now();
  on.renamed_meanwhile("Theirs");
  EXPECT_NE(refusal([&] { (void)on.desk->outage(on.ana, {{"do", "tell"}, {"what", "gone"}, {"key", "gone00001"}}); }), "");
  EXPECT_GT(on.changes.now(), before);
  EXPECT_EQ(on.desk->shown()->record.house.dwelling.name, "Theirs");
  EXPECT_TRUE(on.on_disk().outage_events.empty());
}

TEST(HouseDesk, printing_meanwhile_disturbs_nobody_and_is_not_lost) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  HouseFile other = HouseFile::open(on.path, Access::change);
  other.change("print", [](House& house) {
    house.printed.push_back({.id = Id<Printed>::fresh(), .item = "directory", .name = "Directory", .words = "[\"directory\"]", .at = kNoon, .revision = 1, .code = "7Q2K9D"});
  });
  on.desk->look_around();
  const Json second = on.desk->trace(on.ana, answer_to(first, "printed01"))["answer"];
  EXPECT_NE(second.at("step"), first.at("step"));
  (void)on.desk->trace(on.ana, answer_to(second, "printed02"));
  EXPECT_EQ(on.on_disk().printed.size(), 1U);
}

TEST(HouseDesk, after_an_answer_that_could_not_be_kept_the_next_one_can_be) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  {
    HouseFile other = HouseFile::open(on.path, Access::change);
    other.change("held", [&](House& house) {
      house.dwelling.name = "Held";
      EXPECT_NE(refusal([&] { (void)on.desk->trace(on.ana, answer_to(first, "held00001")); }), "");
    });
  }
  const Json now = on.desk->trace(on.ana)["step"];
  EXPECT_EQ(now.at("kind"), first.at("kind"));
  (void)on.desk->trace(on.ana, answer_to(on.desk->trace(on.ana, {{"do", "step"}})["answer"], "held00002"));
  EXPECT_NE(on.desk->trace(on.ana)["step"].at("kind"), "");
  EXPECT_EQ(on.on_disk().dwelling.name, "Held");
}

TEST(HouseDesk, what_is_tapped_is_written_down_once_said_and_taken_back) {
  House flat;
  flat.dwelling = {Id<Dwelling>::fresh(), "Flat"};
  Desk on(flat);
  Json now = on.desk->survey(on.ana, {{"do", "room"}, {"name", "Kitchen"}, {"key", "room00001"}});
  ASSERT_EQ(now.at("rooms").size(), 1U);
  EXPECT_EQ(now.at("rooms")[0].at("usual"), "=kitchen");
  const Json tap{{"do", "items"}, {"room", now.at("rooms")[0].at("id")}, {"items", "receptacle"}, {"key", "tap000001"}};
  now = on.desk->survey(on.ana, tap);
  EXPECT_FALSE(now.at("said").empty());
  now = on.desk->survey(on.ana, tap);
  EXPECT_EQ(on.on_disk().points.size(), 1U);
  EXPECT_EQ(now.at("rooms")[0].at("points")[0].at("name"), "receptacle 1");
  now = on.desk->survey(on.ana, {{"do", "undo"}, {"key", "undo00001"}});
  EXPECT_TRUE(on.on_disk().points.empty());
  EXPECT_TRUE(now.at("can_undo"));
  for (const Json& bad : {Json{{"do", "items"}, {"room", "nosuchroom00"}, {"items", "receptacle"}}, Json{{"do", "items"}, {"items", "receptacle"}},
                          Json{{"do", "room"}, {"name", 7}}, Json{{"do", "fly"}}, Json::object()})
    EXPECT_NE(refusal([&] { (void)on.desk->survey(on.ana, bad); }), "") << bad;
}

TEST(HouseDesk, every_tap_that_is_offered_is_understood) {
  House flat;
  flat.dwelling = {Id<Dwelling>::fresh(), "Flat"};
  Desk on(flat);
  Json now = on.desk->survey(on.ana, {{"do", "room"}, {"name", "Everything"}});
  const Json room = now.at("rooms")[0].at("id"), taps = now.at("taps");
  for (const Json& tap : taps) {
    const std::size_t before = on.on_disk().points.size();
    now = on.desk->survey(on.ana, {{"do", "items"}, {"room", room}, {"items", tap.at("items")}});
    EXPECT_GT(on.on_disk().points.size(), before) << tap;
  }
}

TEST(HouseDesk, an_outage_is_led_step_by_step_and_an_old_answer_is_refused) {
  Desk on;
  Json board = on.desk->outage("");
  EXPECT_EQ(board.at("phase"), "none");
  board = on.desk->outage(on.ana, {{"do", "tell"}, {"what", "gone"}, {"key", "gone00001"}});
  EXPECT_NE(board.at("phase"), "none");
  const Json answer{{"do", "answer"}, {"answer", "done"}, {"after", board.at("revision")}, {"key", "step00001"}};
  const Json next = on.desk->outage(on.ana, answer);
  EXPECT_EQ(on.desk->outage(on.ana, answer).at("revision"), next.at("revision"));
  Json late = answer;
  late["key"] = "step00002";
  EXPECT_NE(refusal([&] { (void)on.desk->outage(on.ben, late); }), "");
  EXPECT_EQ(on.on_disk().outage_events.size(), on.desk->outage("").at("log_lines"));
  EXPECT_FALSE(on.desk->may_i("freezer", "").at("lines").empty());
  const Json back = on.desk->outage(on.ana, {{"do", "undo"}, {"key", "undo00009"}});
  EXPECT_TRUE(on.on_disk().outage_events.back().withdrawn);
}

TEST(HouseDesk, a_file_that_cannot_be_written_loses_nothing_that_was_acknowledged) {
  Desk on;
  const Json first = on.desk->trace(on.ana)["step"];
  const House before = on.on_disk();
  {
    HouseFile other = HouseFile::open(on.path, Access::change);
    other.change("held", [&](House& house) {
      house.dwelling.name = "Held";
      EXPECT_NE(refusal([&] { (void)on.desk->survey(on.ana, {{"do", "room"}, {"name", "Attic room"}, {"key", "held00001"}}); }), "");
    });
  }
  EXPECT_EQ(on.on_disk().rooms.size(), before.rooms.size());
  const Json now = on.desk->survey(on.ana, {{"do", "room"}, {"name", "Attic room"}, {"key", "held00001"}});
  EXPECT_EQ(on.on_disk().rooms.size(), before.rooms.size() + 1);
  EXPECT_EQ(on.on_disk().dwelling.name, "Held");
}

TEST(HouseDesk, many_at_once_get_whole_answers_and_every_acknowledged_tap_is_in_the_file) {
  House flat;
  flat.dwelling = {Id<Dwelling>::fresh(), "Flat"};
  Desk on(flat);
  const Json room = on.desk->survey(on.ana, {{"do", "room"}, {"name", "Hall"}}).at("rooms")[0].at("id");
  std::atomic<int> acknowledged = 0, read = 0;
  std::vector<std::jthread> people;
  for (int writer = 0; writer < 3; ++writer)
    people.emplace_back([&, writer] {
      for (int n = 0; n < 15; ++n) {
        (void)on.desk->survey({10U + static_cast<unsigned>(writer), Role::change, "W"}, {{"do", "items"}, {"room", room}, {"items", "receptacle"}, {"key", "w" + std::to_string(writer) + "tap000" + std::to_string(n)}});
        ++acknowledged;
      }
    });
  for (int reader = 0; reader < 3; ++reader)
    people.emplace_back([&] {
      for (int n = 0; n < 40; ++n) {
        EXPECT_TRUE(problems_of(on.desk->shown()->record.house).empty());
        EXPECT_EQ(on.desk->trace(on.ben)["step"].at("type"), "step");
        ++read;
      }
    });
  people.clear();
  EXPECT_EQ(acknowledged, 45);
  EXPECT_EQ(read, 120);
  EXPECT_EQ(on.on_disk().points.size(), 45U);
}

TEST(HouseDesk, gives_the_picture_of_a_photo_and_says_where_it_is_not_here) {
  Desk on;
  const std::string picture = *from_base64(kJpeg24x16), small = *from_base64(kJpeg8x8);
  const Photo photo{.id = Id<Photo>::fresh(), .picture = sha256_text(picture), .small = sha256_text(small), .width = 24, .height = 16, .bytes = static_cast<int>(picture.size())};
  Photo gone = photo;
  gone.id = Id<Photo>::fresh(), gone.picture = std::string(64, 'a');
  HouseFile::open(on.path, Access::change).change(ChangeNote{.what = "photos", .pictures = {{photo.picture, picture}, {photo.small, small}}}, [&](House& house) { house.photos = {photo, gone}; });
  on.desk->look_around();
  EXPECT_EQ(on.desk->photo(photo.id.text()), picture);
  EXPECT_NE(refusal([&] { (void)on.desk->photo(gone.id.text()); }).find("not here"), std::string::npos);
  EXPECT_NE(refusal([&] { (void)on.desk->photo("../../etc"); }).find("not in this house"), std::string::npos);
}

}  // namespace
}  // namespace ohmstead::web
