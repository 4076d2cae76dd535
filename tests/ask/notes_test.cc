#include "ask/notes.h"

#include <gtest/gtest.h>

#include "ask/household.h"
#include "house/error.h"
#include "house/invariants.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

struct Noted : ::testing::Test {
  House house = enter_text(sample_house(), source_file("sample-house/household.txt")).house;
  Names names{house};
  [[nodiscard]] std::vector<std::string> found(std::string_view words) const {
    std::vector<std::string> texts;
    for (const std::size_t n : notes_with(house, names, words)) texts.push_back(house.notes[n].text.substr(0, 12));
    return texts;
  }
};

TEST_F(Noted, topic_is_what_stands_before_the_colon_of_a_note_about_the_house) {
  EXPECT_EQ(topic_of({.text = "Gas shut-off: east"}), "Gas shut-off");
  EXPECT_EQ(topic_of({.text = "no colon"}), "");
  EXPECT_EQ(topic_of({.text = std::string(60, 'x') + ": too long"}), "");
  EXPECT_EQ(topic_of({.about = {ThingKind::room, 5}, .text = "Gas: east"}), "");
  EXPECT_EQ(topic_of({.text = "Between 8:30 and 9:00 nobody is home"}), "");
  EXPECT_EQ(topic_of({.text = "https://example.org/manual"}), "");
  EXPECT_EQ(body_of({.text = "Gas shut-off:  east"}), "east");
  EXPECT_EQ(body_of({.text = "Between 8:30 and 9:00"}), "Between 8:30 and 9:00");
}

TEST_F(Noted, all_words_must_be_in_the_note_or_in_what_it_is_about) {
  EXPECT_EQ(found("gas valve"), std::vector<std::string>{"Gas shut-off"});
  EXPECT_EQ(found("gas shutoff").size(), 1U);
  EXPECT_EQ(found("well pump lever"), std::vector<std::string>{"the pressure"});
  EXPECT_TRUE(found("gas lever").empty());
  EXPECT_TRUE(found("").empty());
  EXPECT_EQ(found("garage").front(), "the path to ") << "the name of the thing comes before words in a text";
}

TEST_F(Noted, notes_of_a_point_are_also_those_of_its_load) {
  const Load& load = house.loads.front();
  House more = with_note(house, {.about = {ThingKind::load, load.id.value}, .text = "about the load"});
  EXPECT_EQ(notes_about(more, {ThingKind::point, load.point.value}).back(), more.notes.size() - 1);
  EXPECT_TRUE(notes_about(more, {ThingKind::room, 1}).empty());
}

TEST_F(Noted, a_note_is_one_line_of_text) {
  const std::string refused[] = {"", "  ", "two\nlines", "bell \a", "\xff", std::string(kLongestNote + 1, 'x')};
  for (const std::string& text : refused) EXPECT_THROW((void)with_note(house, {.text = text}), Error) << text.substr(0, 10);
  const House more = with_note(house, {.text = "Zoë: 5 ünïts"});
  EXPECT_EQ(more.notes.size(), house.notes.size() + 1);
  EXPECT_TRUE(problems_of(more).empty());
  Note changed = more.notes.front();
  changed.text = "other";
  EXPECT_EQ(with_note(more, changed).notes.front().text, "other");
  EXPECT_EQ(with_note(more, changed).notes.size(), more.notes.size());
}

TEST_F(Noted, one_note_by_number_or_by_words_that_it_alone_has) {
  EXPECT_EQ(one_note(house, names, "1"), 0U);
  EXPECT_EQ(house.notes[one_note(house, names, "flashlights")].text.substr(0, 11), "Flashlights");
  EXPECT_THROW((void)one_note(house, names, "0"), Error);
  EXPECT_THROW((void)one_note(house, names, "999"), Error);
  EXPECT_THROW((void)one_note(house, names, "shutoff"), Error);
}

TEST_F(Noted, the_sheet_has_facts_and_things_and_no_private_note) {
  const HouseholdSheet sheet = household_sheet(house, names);
  EXPECT_EQ(sheet.left_out, 1U);
  EXPECT_EQ(sheet.facts.size() + sheet.things.size() + sheet.left_out, house.notes.size());
  ASSERT_FALSE(sheet.facts.empty());
  EXPECT_EQ(sheet.facts.front().head, "Gas shut-off");
  EXPECT_TRUE(sheet.facts.front().text.starts_with("Outside on the east wall"));
  for (const std::string& line : text_of(sheet)) EXPECT_EQ(line.find("555-0190"), std::string::npos);
  EXPECT_EQ(text_of(sheet).size(), sheet.facts.size() + sheet.things.size());
}

}  // namespace
}  // namespace ohmstead
