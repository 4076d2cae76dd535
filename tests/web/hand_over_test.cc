// The file that is handed over, read by another parser: everything is named, nothing of it is markup that was not meant.

#include "web/hand_over.h"

#include <gmock/gmock.h>

#include <set>

#include "ask/house_findings.h"
#include "ask/names.h"
#include "ask/printable.h"
#include "ask/without_private.h"
#include "db/base64.h"
#include "db/interchange.h"
#include "db/record_in_page.h"
#include "db/sha256.h"
#include "house/error.h"
#include "house/invariants.h"
#include "html_reader.h"
#include "tests/support/proved_house.h"
#include "tests/support/random_house.h"
#include "tests/support/small_jpeg.h"
#include "tests/support/traced_sample.h"
#include "trace/contradictions.h"
#include "web/page_files.h"

namespace ohmstead::web {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const HandOverOptions kOptions{7, "2026-11-25T09:30:00Z", "2026-11-26", false, ".live { color: red }", "let n = 1;\n"};

const char* const kHostile[] = {
    "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "</td></table><h1>x</h1>", "&lt;b&gt; &amp; &#60;i&#62;", "'single' and \"double\"",
    "</script><script>alert(2)</script>", "<!-- not closed", "\xD7\x97\xD7\x93\xD7\xA8 \xD7\xA9\xD7\x99\xD7\xA0\xD7\x94", "over\xE2\x80\xAEride", "</style><style>*{display:none}</style>", "]]> <![CDATA[ x"};

/// A random house whose names try to be anything but names.
House hostile_house(std::uint64_t seed) {
  House house = random_house(seed, 1 + static_cast<int>(seed % 6));
  std::size_t next = seed;
  const auto name = [&](auto& rows) {
    for (auto& row : rows) row.name = std::string(kHostile[next % std::size(kHostile)]) + " " + std::to_string(next), ++next;
  };
  name(house.floors), name(house.rooms), name(house.boxes), name(house.panels), name(house.sources), name(house.transfer_devices), name(house.devices), name(house.handles), name(house.points), name(house.loads);
  for (Point& point : house.points) point.place = kHostile[next++ % std::size(kHostile)];
  house.dwelling.name = kHostile[seed % std::size(kHostile)];
  for (Note& note : house.notes) note.text = kHostile[next++ % std::size(kHostile)] + std::string(5000, 'x');
  require_sound(house);
  return house;
}

std::set<std::string> meant_elements() {
  return {"html", "head", "meta", "title", "style", "body", "div", "header", "h1", "h2", "h3", "h4", "p", "nav", "ul", "ol", "li", "a", "main", "section", "table", "caption", "colgroup", "thead", "tbody",
          "tfoot", "tr", "th", "td", "span", "b", "bdi", "code", "details", "summary", "script"};
}

void expect_meant_markup(const HtmlPage& page) {
  EXPECT_TRUE(page.errors.empty()) << page.errors[0];
  static const std::set<std::string> meant = meant_elements(), attributes = {"lang", "charset", "http-equiv", "content", "name", "id", "class", "href", "scope", "colspan", "rowspan", "span", "type", "data-sha256",
                                                                             "aria-label", "aria-labelledby", "tabindex", "role"};
  std::set<std::string> ids, wanted;
  for (const HtmlElement& element : page.elements) {
    EXPECT_TRUE(meant.contains(element.name)) << element.name;
    for (const auto& [name, value] : element.attributes) {
      EXPECT_TRUE(attributes.contains(name)) << name;
      EXPECT_TRUE(name != "id" || ids.insert(value).second) << "twice: " << value;
      if (name == "aria-labelledby") wanted.insert(value);
      if (name != "href") continue;
      EXPECT_EQ(value.substr(0, 4), "#at-");
      wanted.insert(value.substr(1));
    }
    EXPECT_TRUE(element.name != "th" || element.attributes.contains("scope"));
  }
  for (const std::string& id : wanted) EXPECT_TRUE(ids.contains(id)) << "leads nowhere: " << id;
  EXPECT_EQ(page.all("h1").size(), 1U);
  EXPECT_EQ(page.all("main").size(), 1U);
  EXPECT_EQ(page.all("html").at(0)->attributes.at("lang"), "en");
  EXPECT_EQ(page.all("script").size(), 3U);
}

void expect_everything_named(const House& house, const HtmlPage& page) {
  const Record record = make_record(house);
  const Names names(record.house);
  std::string things, summaries;
  for (const HtmlElement* head : page.all("th")) things += head->text + "\n";
  for (const HtmlElement* summary : page.all("summary")) summaries += summary->text + "\n";
  for (const Point& point : record.house.points) EXPECT_THAT(things, HasSubstr(terminal::printable(point.name)));
  for (std::size_t h = 1; h < record.graph.handles.size(); ++h) EXPECT_THAT(summaries, HasSubstr(terminal::printable(names.name_of(record.graph.handles[h].ref)) + ": "));
  EXPECT_EQ(house_to_json(house_from_page("<script type=\"application/json\" id=\"house-record\" data-sha256=\"" + page.all("script").at(2)->attributes.at("data-sha256") + "\">" + page.all("script").at(2)->text + "</script>")),
            house_to_json(house));
}

void expect_whole(std::uint64_t seed) {
  const House house = hostile_house(seed);
  const HtmlPage page = read_html(hand_over_page(house, kOptions));
  expect_meant_markup(page);
  expect_everything_named(house, page);
}

TEST(HandOver, the_sample_house_is_whole_and_small) {
  House house = traced_sample().house;
  HandOverOptions options = kOptions;
  options.style = page_file("/page.css"), options.script = page_file("/page.js");
  const std::string page = hand_over_page(house, options);
  const HtmlPage read = read_html(page);
  expect_meant_markup(read);
  expect_everything_named(house, read);
  EXPECT_LT(page.size(), 1'000'000U);
}

TEST(HandOver, names_are_text_whatever_they_hold) {
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    expect_whole(seed);
    ASSERT_FALSE(HasFailure()) << "house " << seed;
  }
}

TEST(HandOverMany, names_are_text_whatever_they_hold_in_200_houses) {
  for (std::uint64_t seed = 9; seed <= 208; ++seed) {
    expect_whole(seed);
    ASSERT_FALSE(HasFailure()) << "house " << seed;
  }
}

TEST(HandOver, only_its_own_style_and_script_may_run) {
  const std::string page = hand_over_page(sample_house(), kOptions);
  const HtmlPage read = read_html(page);
  std::string policy;
  for (const HtmlElement* meta : read.all("meta"))
    if (const auto words = meta->attributes.find("http-equiv"); words != meta->attributes.end()) policy = meta->attributes.at("content");
  const auto raw = [&](const std::string& start, const std::string& end) {
    const std::size_t from = page.rfind(start) + start.size();
    return page.substr(from, page.find(end, from) - from);
  };
  EXPECT_THAT(policy, HasSubstr("default-src 'none'"));
  EXPECT_THAT(policy, HasSubstr("script-src 'sha256-" + sha256_base64(raw("<script>", "</script>")) + "'"));
  EXPECT_THAT(policy, HasSubstr("style-src 'sha256-" + sha256_base64(raw("<style>", "</style>")) + "'"));
  EXPECT_THAT(policy, Not(HasSubstr("unsafe")));
  EXPECT_THAT(page, Not(HasSubstr("http://"))) << "nothing is fetched";
}

TEST(HandOver, a_script_that_would_end_its_element_is_refused) {
  HandOverOptions options = kOptions;
  options.script = "const s = '</SCRIPT>';";
  EXPECT_THROW((void)hand_over_page(sample_house(), options), Error);
  options = kOptions;
  options.style = "/* </style> */";
  EXPECT_THROW((void)hand_over_page(sample_house(), options), Error);
}

TEST(HandOver, what_is_private_is_left_out_when_asked) {
  House house = traced_sample().house;
  house.notes.push_back({Id<Note>::fresh(), {ThingKind::point, house.points[0].id.value}, "PRIVATEKEY behind the door", true, "NOTEWRITER", ""});
  house.notes.push_back({Id<Note>::fresh(), {ThingKind::point, house.points[0].id.value}, "PUBLICNOTE", false, "NOTEWRITER", ""});
  house.rounds.push_back({Id<Round>::fresh(), RoundKind::trace, "2026-11-25T09:30:00Z", "TRACERNAME", true});
  house.outage_events.push_back({Id<OutageEvent>::fresh(), OutageEventKind::note, "2026-11-25T09:30:00Z", "LOGWRITER"});
  house.outage_events.back().text = "OUTAGEWORDS";
  house.settings.push_back({Id<Setting>::fresh(), "who", "SETTINGVALUE"});
  HandOverOptions options = kOptions;
  const std::string with = hand_over_page(house, options);
  options.without_private = true;
  const std::string without = hand_over_page(house, options);
  for (const char* word : {"PRIVATEKEY", "NOTEWRITER", "TRACERNAME", "LOGWRITER", "OUTAGEWORDS", "SETTINGVALUE"}) {
    EXPECT_THAT(with, HasSubstr(word));
    EXPECT_THAT(without, Not(HasSubstr(word)));
  }
  EXPECT_THAT(without, HasSubstr("PUBLICNOTE"));
  EXPECT_THAT(without, HasSubstr("What is private was left out."));
  EXPECT_EQ(house_to_json(house_from_page(without)), house_to_json(without_private(house)));
}

TEST(HandOver, what_proving_found_wrong_is_said_in_its_row) {
  EXPECT_THAT(hand_over_page(after_proving(true).house, kOptions), HasSubstr("<td>found wired wrong, do not use: position 1</td>"));
  EXPECT_THAT(hand_over_page(after_proving(false).house, kOptions), HasSubstr("<td>yes: position 1</td>"));
}

TEST(HandOver, what_the_rules_of_the_trade_find_is_there_to_be_read) {
  const House& house = traced_sample().house;
  const Record record = make_record(house);
  const Lines lines = words_of_findings(house_findings(record, contradictions_of(record.house, conclude_units(record.house)), kOptions.revision));
  ASSERT_GT(lines.size(), 3U);
  const HtmlPage page = read_html(hand_over_page(house, kOptions));
  std::string text;
  for (const HtmlElement* part : page.all("section"))
    if (part->attributes.at("id") == "at-findings") text = part->text;
  for (const Line& line : lines) {
    EXPECT_NE(text.find(line.text), std::string::npos) << line.text;
    for (const std::string& item : line.items) EXPECT_NE(text.find(item), std::string::npos) << item;
  }
}

TEST(HandOver, what_to_do_in_an_outage_comes_first) {
  const std::string page = hand_over_page(traced_sample().house, kOptions);
  const std::size_t outage = page.find("id=\"at-outage\""), panels = page.find("id=\"at-panels\""), rooms = page.find("id=\"at-rooms\""), handles = page.find("id=\"at-handles\"");
  EXPECT_TRUE(outage < panels && panels < rooms && rooms < handles && handles < page.find("id=\"house-record\""));
}

TEST(HandOver, photos_that_are_not_private_are_shown_as_far_as_there_is_room) {
  House house = traced_sample().house;
  const std::string small = *from_base64(kJpeg8x8), large_one(29'000, 'x'), sum(64, 'a'), large(64, 'b'), gone(64, 'c');
  const auto photo = [&](const std::string& which, const char* caption, bool is_private) {
    house.photos.push_back({Id<Photo>::fresh(), {}, caption, sum, which, 1600, 1200, 250'000, is_private, "", "2026-11-27T10:00:00Z"});
  };
  photo(sum, "the <b>meter</b>", false), photo(sum, "a person", true), photo(gone, "from paper", false);
  for (int i = 0; i < 20; ++i) photo(large, "large", false);
  HandOverOptions options = kOptions;
  options.pictures = {{sum, small}, {large, large_one}};
  const HtmlPage page = read_html(hand_over_page(house, options));
  EXPECT_TRUE(page.errors.empty()) << page.errors[0];
  const auto pictures = page.all("img");
  ASSERT_EQ(pictures.size(), 1U + 15U) << "29 kB are 38,668 bytes of text, and 600 kB hold fifteen of them";
  EXPECT_EQ(pictures[0]->attributes.at("src"), std::string("data:image/jpeg;base64,") + kJpeg8x8);
  EXPECT_EQ(pictures[0]->attributes.at("alt"), "The house: the <b>meter</b> (2026-11-27)");
  EXPECT_EQ(pictures[0]->attributes.at("id"), "photo-" + house.photos[0].id.text());
  std::string left_out;
  for (const HtmlElement* item : page.all("li")) left_out += item->text + "\n";
  EXPECT_THAT(left_out, HasSubstr("a person (2026-11-27), private: private"));
  EXPECT_THAT(left_out, HasSubstr("from paper (2026-11-27): picture not here"));
  EXPECT_THAT(left_out, HasSubstr("large (2026-11-27): no room for it in this file"));
  options.without_private = true;
  EXPECT_THAT(hand_over_page(house, options), Not(HasSubstr("a person")));
}

}  // namespace
}  // namespace ohmstead::web
