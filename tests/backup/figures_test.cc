#include "backup/figures.h"

#include <gmock/gmock.h>

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

Load named(const char* name) {
  Load load;
  load.name = name;
  return load;
}

Load with_watts(const char* name, FigureBasis basis, int running, std::optional<int> starting = std::nullopt) {
  Load load = named(name);
  load.basis = basis, load.running_watts = running, load.starting_watts = starting;
  return load;
}

/// One point that needs so many hots, with this load at it.
struct OnePoint {
  House house;
  explicit OnePoint(int hots) { house.points.push_back({.id = Id<Point>::fresh(), .hots = hots}); }
  LoadFigures figures(Load load) {
    load.point = house.points.front().id;
    return figures_of(house, load);
  }
};

TEST(Figures, what_was_measured_or_read_stands_as_entered) {
  for (const FigureBasis basis : {FigureBasis::nameplate, FigureBasis::measured}) {
    const LoadFigures figures = figures_of({}, with_watts("refrigerator", basis, 150, 640));
    EXPECT_TRUE(figures.known && figures.motor);
    EXPECT_EQ(figures.running, (WattRange{150, 150}));
    EXPECT_EQ(figures.starting, (WattRange{640, 640}));
    EXPECT_EQ(figures.running_basis, basis);
    EXPECT_EQ(figures.starting_basis, basis);
    EXPECT_EQ(figures.running_source, basis == FigureBasis::measured ? "measured" : "nameplate");
  }
}

TEST(Figures, a_guess_of_the_running_watts_starts_as_many_times_higher_as_published) {
  const LoadFigures figures = figures_of({}, with_watts("fridge", FigureBasis::guess, 200));
  EXPECT_EQ(figures.running, (WattRange{200, 200}));
  EXPECT_EQ(figures.starting, (WattRange{300, 600}));
  EXPECT_EQ(figures.running_basis, FigureBasis::guess);
  EXPECT_THAT(figures.running_source, HasSubstr("guess"));
  EXPECT_EQ(figures.starting_basis, FigureBasis::table);
  EXPECT_THAT(figures.starting_source, HasSubstr("1.5 to 3"));
}

TEST(Figures, watts_that_the_survey_filled_in_yield_to_the_table) {
  const LoadFigures figures = figures_of({}, with_watts("refrigerator", FigureBasis::table, 180, 600));
  EXPECT_EQ(figures.running, (WattRange{500, 1200}));
  EXPECT_EQ(figures.starting, (WattRange{750, 3000}));
  const LoadFigures stranger = figures_of({}, with_watts("kiln", FigureBasis::table, 180, 600));
  EXPECT_EQ(stranger.running, (WattRange{180, 180}));
  EXPECT_EQ(stranger.starting, (WattRange{600, 600}));
  EXPECT_EQ(stranger.running_basis, FigureBasis::table);
}

TEST(Figures, no_watts_and_no_such_name_is_not_known_and_counts_as_nothing) {
  const LoadFigures figures = figures_of({}, named("thingamajig"));
  EXPECT_FALSE(figures.known);
  EXPECT_FALSE(typical_figures("thingamajig").known);
  EXPECT_EQ(planned_running(figures), 0);
  EXPECT_EQ(planned_starting(figures), 0);
}

TEST(Figures, a_guest_brings_a_hair_dryer) {
  const LoadFigures figures = typical_figures("hair dryer");
  EXPECT_TRUE(figures.known);
  EXPECT_FALSE(figures.motor);
  EXPECT_EQ(planned_running(figures), 1875);  // US DOE appliance list of about 2011
  EXPECT_EQ(planned_starting(figures), 1875);
  EXPECT_THAT(figures.running_source, HasSubstr("US DOE"));
}

TEST(Figures, entered_starting_watts_are_kept_beside_running_watts_of_the_table) {
  Load load = named("freezer");
  load.starting_watts = 2500;
  const LoadFigures figures = figures_of({}, load);
  EXPECT_EQ(figures.running, (WattRange{720, 720}));
  EXPECT_EQ(figures.starting, (WattRange{2500, 2500}));
  load.starting_watts = 100;  // the running watts of the table are larger: starting is never below running
  EXPECT_EQ(figures_of({}, load).starting, (WattRange{720, 720}));
}

TEST(Figures, three_lights_count_three_times) {
  EXPECT_EQ(typical_figures("3 lights").running, (WattRange{66, 225}));
  EXPECT_EQ(typical_figures("2 freezers").running, (WattRange{1440, 1440}));
  EXPECT_EQ(typical_figures("2 freezers").starting, (WattRange{720 + 1890, 720 + 1890}));
}

TEST(Figures, horsepower_and_code_letter_give_the_start) {
  Load load = with_watts("well pump", FigureBasis::nameplate, 900);
  load.horsepower_hundredths = 50, load.code_letter = "L";
  const LoadFigures figures = figures_of({}, load);
  EXPECT_EQ(figures.starting, (WattRange{4500, 4995}));  // 1/2 hp, 9.0 to 9.99 kVA/hp (NEMA MG 1-10.37.2)
  EXPECT_EQ(figures.starting_basis, FigureBasis::nameplate);
}

TEST(Figures, horsepower_alone_gives_full_load_and_the_usual_letter) {
  Load load = named("lathe");
  load.horsepower_hundredths = 100;
  const LoadFigures figures = figures_of({}, load);
  EXPECT_EQ(figures.running, (WattRange{1840, 1840}));  // 16 A at 115 V, NFPA 70 Table 430.248
  EXPECT_EQ(figures.starting, (WattRange{8000, 8990}));  // letter K is usual for 1 hp
  EXPECT_EQ(figures.starting_basis, FigureBasis::table);
  load.horsepower_hundredths = 33;  // no usual letter is published
  EXPECT_EQ(figures_of({}, load).starting, (WattRange{828 * 3, 828 * 5}));
}

TEST(Figures, full_load_amperes_are_taken_at_the_volts_of_the_point) {
  Load load = named("mill");
  load.full_load_deciamps = 100;
  EXPECT_EQ(OnePoint(1).figures(load).running.high, 1200);
  EXPECT_EQ(OnePoint(2).figures(load).running.high, 2400);
  OnePoint three(3);
  three.house.dwelling.system = VoltageSystem::wye_120_208_3;
  EXPECT_EQ(three.figures(load).running.high, 3600);
  OnePoint europe(1);
  europe.house.dwelling.system = VoltageSystem::single_230;
  EXPECT_EQ(europe.figures(load).running.high, 2300);
  load.running_watts = 500;  // a guess does not beat the nameplate
  EXPECT_EQ(OnePoint(1).figures(load).running.high, 1200);
  EXPECT_EQ(OnePoint(1).figures(load).running_basis, FigureBasis::nameplate);
}

TEST(Figures, a_plan_counts_voltamperes_where_the_power_factor_is_known) {
  Load load = with_watts("fan", FigureBasis::nameplate, 100);
  load.power_factor_percent = 60;
  EXPECT_EQ(planned_running(figures_of({}, load)), 167);
  load.full_load_deciamps = 20;
  load.running_watts.reset();
  const LoadFigures by_amps = figures_of({}, load);
  EXPECT_EQ(by_amps.running.high, 144);  // 240 VA at 0.6
  EXPECT_EQ(planned_running(by_amps), 240);
}

TEST(Figures, starting_figures_of_motors_are_voltamperes_already) {
  Load load = with_watts("pump", FigureBasis::nameplate, 500, 1500);
  load.power_factor_percent = 50;
  const LoadFigures figures = figures_of({}, load);
  EXPECT_EQ(planned_running(figures), 1000);
  EXPECT_EQ(planned_starting(figures), 1500);
  load.starting_watts = 600;
  EXPECT_EQ(planned_starting(figures_of({}, load)), 1000);
}

TEST(Figures, what_matters_is_wanted_unless_something_else_is_said) {
  Load load;
  EXPECT_EQ(wanted_use(load), LoadUse::not_wanted);
  load.importance = Importance::low;
  EXPECT_EQ(wanted_use(load), LoadUse::not_wanted);
  load.importance = Importance::high;
  EXPECT_EQ(wanted_use(load), LoadUse::together);
  load.importance = Importance::life_safety;
  EXPECT_EQ(wanted_use(load), LoadUse::together);
  load.use = LoadUse::on_demand;
  EXPECT_EQ(wanted_use(load), LoadUse::on_demand);
}

TEST(Figures, what_a_thermostat_or_float_starts_is_known_by_name) {
  for (const char* name : {"refrigerator", "freezer", "well pump", "sump pump", "furnace", "boiler circulator"}) EXPECT_TRUE(starts_itself(named(name))) << name;
  for (const char* name : {"hair dryer", "microwave", "light", "thingamajig"}) EXPECT_FALSE(starts_itself(named(name))) << name;
  Load load = named("thingamajig");
  load.starts_itself = true;
  EXPECT_TRUE(starts_itself(load));
}

TEST(Figures, duty_is_as_entered_or_of_its_kind_or_all_the_time) {
  Load load = named("refrigerator");
  EXPECT_EQ(duty_percent(load), 33);  // plugged-in time / 3: US DOE formula, restated by a city and an energy rater
  load.duty_percent = 60;
  EXPECT_EQ(duty_percent(load), 60);
  load.duty_percent = 0;
  EXPECT_EQ(duty_percent(load), 0);
  EXPECT_EQ(duty_percent(named("thingamajig")), 100);
  EXPECT_EQ(duty_percent(named("sump pump")), 100);  // it depends on the inflow: nothing is published
}

}  // namespace
}  // namespace ohmstead
