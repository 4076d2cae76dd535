// Tables of conductors against what is published of them.
#include "rules/conductor.h"

#include <gmock/gmock.h>

#include <cmath>

#include "house/error.h"

namespace ohmstead {
namespace {

constexpr auto kCopper = WireMaterial::copper;
constexpr auto kAluminum = WireMaterial::aluminium;

// ASTM B258 (formula) with IEC 60028 (1/58 ohm mm2/m): computed; the last column agrees to the printed digits with the
// wire tables of the US National Bureau of Standards (from memory).
struct Geometry {
  const char* size;
  double mil, mm, cmil, mm2, ohm_km, ohm_kft;
};
constexpr Geometry kGeometry[] = {
    {"14", 64.08, 1.6277, 4107, 2.0809, 8.2855, 2.5254},      {"12", 80.81, 2.0525, 6530, 3.3088, 5.2108, 1.5883},     {"10", 101.90, 2.5882, 10383, 5.2612, 3.2771, 0.9989},
    {"8", 128.49, 3.2636, 16510, 8.3656, 2.0610, 0.6282},     {"6", 162.02, 4.1154, 26251, 13.3018, 1.2962, 0.3951},   {"4", 204.31, 5.1894, 41741, 21.1506, 0.8152, 0.2485},
    {"3", 229.42, 5.8273, 52635, 26.6705, 0.6465, 0.1970},    {"2", 257.63, 6.5437, 66371, 33.6308, 0.5127, 0.1563},   {"1", 289.30, 7.3481, 83693, 42.4077, 0.4066, 0.1239},
    {"1/0", 324.86, 8.2515, 105534, 53.4751, 0.3224, 0.0983}, {"2/0", 364.80, 9.2658, 133076, 67.4309, 0.2557, 0.0779}, {"3/0", 409.64, 10.4049, 167806, 85.0288, 0.2028, 0.0618},
    {"4/0", 460.00, 11.6840, 211600, 107.2193, 0.1608, 0.0490}};

TEST(Conductor, geometry_by_astm_b258_and_resistance_by_iec_60028) {
  for (const Geometry& row : kGeometry) {
    const WireSize size = wire_size(row.size);
    EXPECT_NEAR(size.diameter_mm / 0.0254, row.mil, 0.005) << row.size;
    EXPECT_NEAR(size.diameter_mm, row.mm, 0.00005) << row.size;
    EXPECT_NEAR(size.circular_mils, row.cmil, 0.6) << row.size;  // 105,534.50 and 133,076.55 stand cut off there
    EXPECT_NEAR(size.area_mm2, row.mm2, 0.00005) << row.size;
    EXPECT_NEAR(resistance_ohm_km(size, kCopper, 20), row.ohm_km, 0.00005) << row.size;
    EXPECT_NEAR(resistance_ohm_km(size, kCopper, 20) * 0.3048, row.ohm_kft, 0.00005) << row.size;
  }
  EXPECT_DOUBLE_EQ(wire_size("250 kcmil").circular_mils, 250'000);
}

TEST(Conductor, the_resistance_table_is_the_formula_at_75_c) {
  // Solid sizes 14 to 8 of the table equal 3.0713, 1.9316, 1.2148, 0.7640 computed (a published copy calls them stranded).
  for (const auto& [name, computed] : {std::pair{"14", 3.0713}, {"12", 1.9316}, {"10", 1.2148}, {"8", 0.7640}}) {
    const WireSize size = wire_size(name);
    EXPECT_NEAR(resistance_ohm_km(size, kCopper, 75) * 0.3048, computed, 0.00006) << name;
    EXPECT_NEAR(*table_8_ohm_kft(size, kCopper, Make::solid), computed, 0.006) << name;
    EXPECT_NEAR(*table_8_ohm_kft(size, kCopper, Make::stranded) / computed, 1.02, 0.006) << name;
  }
  for (const WireSize& size : wire_sizes())
    for (const WireMaterial metal : {kCopper, kAluminum})
      for (const Make make : {Make::solid, Make::stranded})
        if (const auto table = table_8_ohm_kft(size, metal, make)) {
          const double formula = resistance_ohm_km(size, metal, 75) * 0.3048;
          EXPECT_NEAR(*table / formula, make == Make::solid ? 1.0 : 1.02, 0.012) << size.name << metal_text(metal);
        }
  EXPECT_NEAR(from_75_c(1, kCopper, 20), 0.8224, 0.0001);  // computed: table value x 0.8224 at 20 C
}

// NFPA 70 chapter 9 tables 8 and 9 as two published copies give them: a cell of each row, so that a slip of a line is seen.
TEST(Conductor, tables_8_and_9_cell_by_cell) {
  struct Row {
    const char* size;
    double cu_dc, al_dc, x_pvc, x_steel, cu_pvc, cu_al, cu_steel, al_pvc, al_al, al_steel;
  };
  constexpr Row kTable[] = {{"14", 3.14, 5.17, 0.058, 0.073, 3.1, 3.1, 3.1, 0, 0, 0},          {"12", 1.98, 3.25, 0.054, 0.068, 2.0, 2.0, 2.0, 3.2, 3.2, 3.2},
                            {"10", 1.24, 2.04, 0.050, 0.063, 1.2, 1.2, 1.2, 2.0, 2.0, 2.0},    {"8", 0.778, 1.28, 0.052, 0.065, 0.78, 0.78, 0.78, 1.3, 1.3, 1.3},
                            {"6", 0.491, 0.808, 0.051, 0.064, 0.49, 0.49, 0.49, 0.81, 0.81, 0.81}, {"4", 0.308, 0.508, 0.048, 0.060, 0.31, 0.31, 0.31, 0.51, 0.51, 0.51},
                            {"3", 0.245, 0.403, 0.047, 0.059, 0.25, 0.25, 0.25, 0.40, 0.41, 0.40}, {"2", 0.194, 0.319, 0.045, 0.057, 0.19, 0.20, 0.20, 0.32, 0.32, 0.32},
                            {"1", 0.154, 0.253, 0.046, 0.057, 0.15, 0.16, 0.16, 0.25, 0.26, 0.25}, {"1/0", 0.122, 0.201, 0.044, 0.055, 0.12, 0.13, 0.12, 0.20, 0.21, 0.20},
                            {"2/0", 0.0967, 0.159, 0.043, 0.054, 0.10, 0.10, 0.10, 0.16, 0.16, 0.16}, {"3/0", 0.0766, 0.126, 0.042, 0.052, 0.077, 0.082, 0.079, 0.13, 0.13, 0.13},
                            {"4/0", 0.0608, 0.100, 0.041, 0.051, 0.062, 0.067, 0.063, 0.10, 0.11, 0.10}};
  for (const Row& row : kTable) {
    const WireSize size = wire_size(row.size);
    EXPECT_EQ(table_8_ohm_kft(size, kCopper, Make::stranded), row.cu_dc) << row.size;
    EXPECT_EQ(table_8_ohm_kft(size, kAluminum, Make::stranded), row.al_dc) << row.size;
    const double cu[] = {row.cu_pvc, row.cu_al, row.cu_steel}, al[] = {row.al_pvc, row.al_al, row.al_steel};
    for (const Conduit conduit : {Conduit::pvc, Conduit::aluminum, Conduit::steel}) {
      const auto copper = table_9_ohm_kft(size, kCopper, conduit), aluminum = table_9_ohm_kft(size, kAluminum, conduit);
      EXPECT_EQ(copper->r, cu[static_cast<int>(conduit)]) << row.size;
      EXPECT_EQ(copper->x, conduit == Conduit::steel ? row.x_steel : row.x_pvc) << row.size;
      EXPECT_EQ(aluminum ? aluminum->r : 0, al[static_cast<int>(conduit)]) << row.size;
    }
  }
  EXPECT_FALSE(table_8_ohm_kft(wire_size("6"), kCopper, Make::solid));
}

// NFPA 70 table 310.16 as of 2011, two published copies that agree on every cell; and what it read up to 2008.
TEST(Conductor, ampacities_cell_by_cell_and_the_edition_trap) {
  struct Row {
    const char* size;
    int cu[3], al[3];
  };
  constexpr Row kTable[] = {{"14", {15, 20, 25}, {0, 0, 0}},        {"12", {20, 25, 30}, {15, 20, 25}},       {"10", {30, 35, 40}, {25, 30, 35}},       {"8", {40, 50, 55}, {35, 40, 45}},
                            {"6", {55, 65, 75}, {40, 50, 55}},      {"4", {70, 85, 95}, {55, 65, 75}},        {"3", {85, 100, 115}, {65, 75, 85}},      {"2", {95, 115, 130}, {75, 90, 100}},
                            {"1", {110, 130, 145}, {85, 100, 115}}, {"1/0", {125, 150, 170}, {100, 120, 135}}, {"2/0", {145, 175, 195}, {115, 135, 150}}, {"3/0", {165, 200, 225}, {130, 155, 175}},
                            {"4/0", {195, 230, 260}, {150, 180, 205}}};
  for (const Row& row : kTable)
    for (int c = 0; c < 3; ++c) {
      EXPECT_EQ(table_310_16_amps(wire_size(row.size), kCopper, 60 + 15 * c, 2020), row.cu[c]) << row.size;
      EXPECT_EQ(table_310_16_amps(wire_size(row.size), kAluminum, 60 + 15 * c, 2020), row.al[c]) << row.size;
    }
  const auto old = [](const char* size, WireMaterial metal) {
    return std::vector{table_310_16_amps(wire_size(size), metal, 60, 2008), table_310_16_amps(wire_size(size), metal, 75, 2008), table_310_16_amps(wire_size(size), metal, 90, 2008)};
  };
  using testing::ElementsAre;
  EXPECT_THAT(old("14", kCopper), ElementsAre(20, 20, 25));
  EXPECT_THAT(old("12", kCopper), ElementsAre(25, 25, 30));
  EXPECT_THAT(old("3", kCopper), ElementsAre(85, 100, 110));
  EXPECT_THAT(old("1", kCopper), ElementsAre(110, 130, 150));
  EXPECT_THAT(old("12", kAluminum), ElementsAre(20, 20, 25));
  EXPECT_THAT(old("8", kAluminum), ElementsAre(30, 40, 45));
  EXPECT_THAT(old("6", kAluminum), ElementsAre(40, 50, 60));
  EXPECT_EQ(table_310_16_amps(wire_size("14"), kCopper, 60, 2011), 15);
  EXPECT_THROW((void)table_310_16_amps(wire_size("14"), kCopper, 70, 2020), Error);
}

TEST(Conductor, correction_bands_are_the_formula_to_two_places) {
  // Formula behind the table (form from memory): sqrt((Tc - Ta) / (Tc - 30)), Ta the upper end of the band.
  for (const int column : {60, 75, 90})
    for (int upper = 10; upper <= 60; upper += 5) {
      const double formula = upper >= column ? 0 : std::sqrt((column - upper) / (column - 30.0));
      EXPECT_NEAR(ambient_factor(column, upper), formula, 0.0051) << column << " " << upper;
      EXPECT_EQ(ambient_factor(column, upper == 10 ? -30 : upper - 4), ambient_factor(column, upper)) << column << " " << upper;
    }
  EXPECT_EQ(ambient_factor(75, 31), 0.94);
  EXPECT_EQ(ambient_factor(75, 30), 1.0);
  EXPECT_EQ(ambient_factor(60, -5), 1.29);
  EXPECT_THROW((void)ambient_factor(75, 61), Error);
  for (const auto& [count, factor] : {std::pair{3, 1.0}, {4, 0.8}, {6, 0.8}, {7, 0.7}, {9, 0.7}, {10, 0.5}, {20, 0.5}, {21, 0.45}, {30, 0.45}, {31, 0.4}, {40, 0.4}, {41, 0.35}})
    EXPECT_EQ(bundle_factor(count), factor) << count;
  EXPECT_THROW((void)bundle_factor(0), Error);
}

TEST(Conductor, small_conductors_and_standard_ratings) {
  for (const auto& [size, copper, aluminum] : {std::tuple{"18", 7, 0}, {"16", 10, 0}, {"14", 15, 0}, {"12", 20, 15}, {"10", 30, 25}, {"8", 0, 0}}) {
    EXPECT_EQ(small_conductor_amps(wire_size(size), kCopper, 2020), copper) << size;
    EXPECT_EQ(small_conductor_amps(wire_size(size), kAluminum, 2020), aluminum) << size;
  }
  EXPECT_EQ(small_conductor_amps(wire_size("14"), WireMaterial::copper_clad_aluminium, 2023), 10);
  EXPECT_EQ(small_conductor_amps(wire_size("14"), WireMaterial::copper_clad_aluminium, 2020), 0);
  EXPECT_EQ(standard_rating_from(122, 2020), 125);
  EXPECT_EQ(standard_rating_from(125, 2020), 125);
  EXPECT_EQ(standard_rating_from(8, 2020), 15);
  EXPECT_EQ(standard_rating_from(8, 2023), 10);
  EXPECT_EQ(standard_rating_from(401, 2023), 0);
}

TEST(Conductor, sizes_are_read_as_people_write_them_and_others_are_refused) {
  for (const char* text : {"12", "12 AWG", "#12", " 12awg "}) EXPECT_EQ(wire_size(text).name, "12") << text;
  EXPECT_EQ(size_text(wire_size("250 MCM")), "250 kcmil");
  for (const char* text : {"", "13", "2.5 mm2", "5/0", "0", "251", "AWG", "-12", "999999999999", "1\x1b[2J"}) {
    EXPECT_FALSE(find_wire_size(text)) << text;
    try {
      (void)wire_size(text);
      ADD_FAILURE() << text;
    } catch (const Error& error) {
      EXPECT_THAT(error.what(), testing::HasSubstr("no wire of the size"));
      EXPECT_THAT(error.what(), testing::Not(testing::HasSubstr("\x1b")));
    }
  }
}

}  // namespace
}  // namespace ohmstead
