// measure_db: opening, loading and changing house files, in milliseconds (median of several).

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <random>

#include "db/house_file.h"
#include "db/interchange.h"
#include "house/invariants.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

double median_ms(int times, const std::function<void()>& act) {
  std::vector<double> all;
  for (int i = 0; i < times; ++i) {
    const auto start = std::chrono::steady_clock::now();
    act();
    all.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  std::ranges::sort(all);
  return all[all.size() / 2];
}

/// A random house with at least this many points, and this many observations of them.
House house_of(int points, int observations) {
  House house = random_house(17, points / 3);
  if (house.rounds.empty()) house.rounds.push_back({Id<Round>::fresh(), RoundKind::trace, "2026-01-01T00:00:00Z"});
  std::mt19937_64 random(3);
  while (static_cast<int>(house.observations.size()) < observations)
    house.observations.push_back({Id<Observation>::fresh(), house.rounds[random() % house.rounds.size()].id,
                                  house.points[random() % house.points.size()].id, Seen::live, Method::lamp,
                                  "2026-01-01T00:00:00Z"});
  return house;
}

void measure(const std::filesystem::path& folder, const char* name, const House& house, int times) {
  const auto path = folder / (std::string(name) + ".house");
  std::filesystem::remove(path);
  const double create = median_ms(1, [&] { HouseFile::create(path, house); });
  const double open = median_ms(times, [&] { (void)HouseFile::open(path, Access::read).revision(); });
  const double load = median_ms(times, [&] { (void)HouseFile::open(path, Access::read).load(); });
  const double sound = median_ms(times, [&] { (void)problems_of(house); });
  HouseFile file = HouseFile::open(path, Access::change);
  int count = 0;
  const double change = median_ms(std::min(times, 9), [&] {
    file.change("renamed", [&](House& h) { h.dwelling.name = "House " + std::to_string(++count); });
  });
  std::string text;
  const double out = median_ms(3, [&] { text = house_to_json(house); });
  const double in = median_ms(3, [&] { (void)house_from_json(text); });
  std::printf("%-6s %5zu points %6zu observations, file %8ju bytes: create %.1f, open %.2f, open+load %.2f "
              "(of it soundness %.2f), one change %.1f; JSON %zu bytes: out %.1f, in %.1f ms\n",
              name, house.points.size(), house.observations.size(), std::filesystem::file_size(path), create, open, load,
              sound, change, text.size(), out, in);
}

}  // namespace
}  // namespace ohmstead

int main(int count, char** words) {
  const std::filesystem::path folder = count > 1 ? words[1] : std::filesystem::temp_directory_path() / "ohmstead-measure";
  std::filesystem::create_directories(folder);
  ohmstead::measure(folder, "small", ohmstead::house_of(110, 110), 200);
  ohmstead::measure(folder, "large", ohmstead::house_of(5000, 50'000), 5);
}
