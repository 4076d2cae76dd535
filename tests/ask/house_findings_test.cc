// Findings of whole records: the sample house with its planted faults, and any house.
#include "ask/house_findings.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "tests/support/random_house.h"
#include "tests/support/traced_sample.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;

std::vector<std::string> found_of(const Findings& findings, const std::string& rule) {
  std::vector<std::string> found;
  for (const Finding& finding : findings.found)
    if (finding.rule == rule) found.push_back(finding.found);
  return found;
}

TEST(HouseFindings, the_sample_house_has_the_faults_that_were_planted) {
  const Findings made = house_findings(traced_sample(), {});
  EXPECT_THAT(found_of(made, "breaker_over_wire"), testing::ElementsAre(HasSubstr("Main 27: wire 14 AWG")));
  EXPECT_THAT(found_of(made, "label_of_a_person"), testing::ElementsAre(HasSubstr("baby's room")));
  EXPECT_THAT(found_of(made, "label_vague"), testing::Contains(HasSubstr("'lights'")));
  EXPECT_TRUE(found_of(made, "neutral_untied").empty());
  EXPECT_EQ(made.found.front().severity, Severity::danger);
}

TEST(HouseFindings, loads_count_by_their_figures) {
  const std::string house = "Hall: receptacle with heater 1500 W, receptacle with pump 700 W, 1l\nPanel Main in Hall 8 spaces: 1 15 wire 14\n";
  Record record = entered_record(house);
  for (Point& point : record.house.points) record.house.declared_feeds.push_back({.id = Id<DeclaredFeed>::fresh(), .point = point.id, .breaker = record.house.breakers[0].id});
  record = make_record(record.house);
  EXPECT_THAT(found_of(house_findings(record, {}), "overload"), testing::ElementsAre(HasSubstr("draw 18.3 A")));
  for (Load& load : record.house.loads) load.running_watts = 800, load.continuous = true, load.basis = FigureBasis::measured;
  EXPECT_THAT(found_of(house_findings(record, {}), "continuous_load"), testing::ElementsAre(HasSubstr("carries 13.3 A for three hours")));
}

TEST(HouseFindings, any_house_is_looked_through_and_every_finding_names_a_thing_of_it) {
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    const Record record = make_record(random_house(seed, 4));
    const Names names(record.house);
    const Findings made = house_findings(record, contradictions_of(record.house, conclude_units(record.house)));
    EXPECT_TRUE(std::ranges::is_sorted(made.found, {}, &Finding::severity)) << seed;
    for (const Finding& finding : made.found) {
      ASSERT_FALSE(finding.things.empty()) << seed << finding.rule;
      for (const ThingRef& thing : finding.things) EXPECT_FALSE(names.name_of(thing).empty()) << seed << " " << finding.rule;
    }
    EXPECT_THAT(words_of_findings(made).back().text, HasSubstr("licensed electrician decide"));
  }
}

TEST(HouseFindings, a_house_without_findings_says_so_and_what_was_not_checked) {
  const Lines lines = words_of_findings({{}, {"Wires."}});
  EXPECT_THAT(lines[0].text, HasSubstr("Nothing in this record stands against"));
  EXPECT_EQ(lines[1].items, std::vector<std::string>{"Wires."});
}

}  // namespace
}  // namespace ohmstead
