#include "web/house_view.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "ask/answers.h"
#include "feed/diagrams.h"
#include "tests/support/proved_house.h"
#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead::web {
namespace {

using nlohmann::json;
using ::testing::Contains;
using ::testing::HasSubstr;

json view_of(const Record& record, bool for_file = false) {
  const Names names(record.house);
  return json::parse(house_view_text(record, names, {7, "2026-11-25T09:30:00Z", true, for_file}));
}

/// Is it null, or a place in the list of that name?
bool is_place(const json& view, const json& number, const char* list) {
  return number.is_null() || (number.is_number_unsigned() && number < view[list].size());
}

bool is_diagram(const json& view, const json& number) { return number.is_number_unsigned() && number < 4 + view["diagrams"]["nodes"].size(); }

void expect_places_in_range(const json& view) {
  for (const json& floor : view["floors"])
    for (const json& room : floor["rooms"]) EXPECT_TRUE(is_place(view, room, "rooms"));
  std::size_t in_rooms = 0;
  for (const json& room : view["rooms"]) {
    EXPECT_TRUE(is_place(view, room["floor"], "floors"));
    in_rooms += room["points"].size();
    for (const json& point : room["points"]) EXPECT_TRUE(is_place(view, point, "points"));
  }
  EXPECT_EQ(in_rooms, view["points"].size());
  for (const json& point : view["points"]) {
    EXPECT_TRUE(is_place(view, point["room"], "rooms") && is_diagram(view, point["diagram"]));
    for (const json& handle : point["way"]) EXPECT_TRUE(is_place(view, handle, "handles"));
    for (const json& load : point["loads"]) EXPECT_TRUE(is_place(view, load, "loads"));
  }
  for (const json& handle : view["handles"]) {
    EXPECT_TRUE(is_place(view, handle["variable"], "variables") && is_place(view, handle["room"], "rooms"));
    EXPECT_GT(handle["throws"].size(), handle["usual"].get<std::size_t>());
    for (const json& point : handle["carries"]) EXPECT_TRUE(is_place(view, point, "points"));
  }
  for (const json& panel : view["panels"])
    for (const json& cell : panel["cells"]) EXPECT_TRUE(is_place(view, cell["handle"], "handles"));
  for (const json& device : view["transfer"])
    for (const json& position : device["positions"]) EXPECT_TRUE(is_place(view, position["handle"], "handles") && !position["handle"].is_null());
}

TEST(HouseView, every_number_is_a_place_in_its_list_in_random_houses) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Record record = make_record(random_house(seed, 1 + static_cast<int>(seed % 10)));
    const json view = view_of(record);
    ASSERT_EQ(view["points"].size(), record.house.points.size());
    ASSERT_EQ(view["handles"].size(), record.graph.handles.size() - 1);
    ASSERT_EQ(view["rooms"].size(), record.house.rooms.size());
    ASSERT_EQ(view["sources"].size(), record.house.sources.size() + 1);
    expect_places_in_range(view);
    ASSERT_FALSE(::testing::Test::HasFailure()) << "house " << seed;
  }
}

TEST(HouseView, every_breaker_stands_once_in_its_panel) {
  const Record record = traced_sample();
  const json view = view_of(record);
  std::multiset<std::size_t> in_cells;
  for (const json& panel : view["panels"])
    for (const json& cell : panel["cells"])
      if (!cell["handle"].is_null()) in_cells.insert(cell["handle"].get<std::size_t>());
  for (std::size_t h = 0; h < view["handles"].size(); ++h) EXPECT_EQ(in_cells.count(h), view["handles"][h]["kind"] == "breaker" ? 1U : 0U) << view["handles"][h]["name"];
}

TEST(HouseView, says_what_the_answers_say) {
  const Record record = traced_sample();
  const json view = view_of(record);
  for (std::size_t h = 0; h < view["handles"].size(); ++h) {
    const HandleRef ref = *parse_handle_ref(view["handles"][h]["ref"].get<std::string>());
    if (record.graph.handles[h + 1].usual == kOff && ref.kind == HandleKind::device) continue;  // it has no off
    EXPECT_EQ(view["handles"][h]["carries"].get<std::vector<std::size_t>>(), what_does_it_carry(record, ref).points) << view["handles"][h]["name"];
  }
}

TEST(HouseView, a_way_leads_from_the_main_to_the_thing_and_opening_any_of_it_stops_the_thing) {
  const Record record = traced_sample();
  const json view = view_of(record);
  std::size_t ways = 0;
  for (std::size_t p = 0; p < view["points"].size(); ++p) {
    const json& way = view["points"][p]["way"];
    if (way.empty()) continue;
    ++ways;
    EXPECT_EQ(view["handles"][way[0].get<std::size_t>()]["kind"], "main");
    for (const json& handle : way) EXPECT_THAT(view["handles"][handle.get<std::size_t>()]["carries"].get<std::vector<std::size_t>>(), Contains(p));
  }
  EXPECT_GT(ways, 100U);
}

TEST(HouseView, a_thing_is_described_as_on_paper) {
  const Record record = traced_sample();
  const json view = view_of(record);
  const auto dishwasher = std::ranges::find_if(view["points"], [](const json& point) { return point["name"] == "dishwasher"; });
  ASSERT_NE(dishwasher, view["points"].end());
  EXPECT_EQ((*dishwasher)["full"], "Kitchen dishwasher");
  EXPECT_EQ((*dishwasher)["label"], "9");
  EXPECT_EQ((*dishwasher)["breaker"], "9");
  EXPECT_EQ((*dishwasher)["panel"], "Panel Main");
  EXPECT_EQ((*dishwasher)["backup"], "none");
}

TEST(HouseView, what_proving_found_wrong_is_said_of_the_thing_and_never_as_on_backup) {
  const json good = view_of(after_proving(false)), bad = view_of(after_proving(true));
  EXPECT_EQ(good["points"][0]["backup"], "position 1");
  EXPECT_THAT(good["points"][0]["marks"].get<std::vector<std::string>>(), Contains("on backup: position 1"));
  EXPECT_EQ(bad["points"][0]["backup"], "found wired wrong, do not use: position 1");
  EXPECT_THAT(bad["points"][0]["marks"].get<std::vector<std::string>>(), Contains("found wired wrong, do not use: position 1"));
}

TEST(HouseView, answers_and_the_outage_sheet_are_in_the_file_alone) {
  const Record record = traced_sample();
  const json served = view_of(record), file = view_of(record, true);
  EXPECT_TRUE(served["answers"].empty() && served["outage"].is_null());
  EXPECT_EQ(file["answers"]["where"].size(), record.house.points.size());
  EXPECT_EQ(file["answers"]["isolate"].size(), record.house.points.size());
  EXPECT_EQ(file["answers"]["off"].size(), record.graph.handles.size() - 1);
  EXPECT_EQ(file["answers"]["carries"].size(), record.graph.handles.size() - 1);
  EXPECT_FALSE(file["outage"]["lines"].empty());
}

TEST(HouseView, a_plan_that_no_longer_fits_the_record_is_no_reason_to_show_nothing) {
  const Record record = make_record(random_house(36, 8));  // a load of the plan is on a leg that its source does not have
  EXPECT_TRUE(view_of(record, true)["plan"].is_null());
}

TEST(HouseView, names_of_any_kind_come_through_unchanged) {
  Record record = traced_sample();
  const std::string hostile = "</script><b>\"quotes\" & 'more' \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D " + std::string(5000, 'x');
  record.house.points[0].name = hostile;
  EXPECT_EQ(view_of(record)["points"][0]["name"], hostile);
}

TEST(HouseView, a_photo_is_shown_on_the_cards_that_it_belongs_to) {
  Record record = traced_sample();
  House& house = record.house;
  const auto photo = [&](const ThingRef& about, const char* caption) {
    house.photos.push_back({Id<Photo>::fresh(), about, caption, std::string(64, 'a'), std::string(64, 'b'), 1600, 1200, 250'000, false, "", "2026-11-27T10:00:00Z"});
  };
  const Load& load = house.loads.at(0);
  photo(thing_of(house.panels.at(0)), "before it was opened"), photo(thing_of(load), "nameplate"), photo(thing_of(house.breakers.at(0)), ""), photo({}, "");
  const json photos = view_of(record)["photos"];
  ASSERT_EQ(photos.size(), 4U);
  EXPECT_EQ(photos[0]["on"], (json{house.panels[0].id.text(), "main:" + house.panels[0].id.text()}));
  EXPECT_THAT(photos[0]["words"].get<std::string>(), HasSubstr("before it was opened (2026-11-27)"));
  EXPECT_EQ(photos[1]["on"], json{load.point.text()});
  EXPECT_EQ(photos[2]["on"], json{"breaker:" + house.breakers[0].id.text()});
  EXPECT_TRUE(photos[3]["on"].empty());
  EXPECT_EQ(photos[3]["words"], "The house (2026-11-27)");
}

}  // namespace
}  // namespace ohmstead::web
