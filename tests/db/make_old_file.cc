// make_old_file FOLDER: puts vN.house and vN.json there, N being the newest version. Run once when
// a version is released; the files then stay in tests/old-files as they are.

#include <cstdio>
#include <filesystem>

#include "db/house_file.h"
#include "db/interchange.h"
#include "db/migrate.h"
#include "db/output_file.h"
#include "tests/support/random_house.h"

int main(int count, char** words) {
  if (count != 2) return std::fputs("make_old_file FOLDER\n", stderr), 2;
  const std::string name = "v" + std::to_string(ohmstead::newest_version());
  const std::filesystem::path folder = words[1];
  const ohmstead::House house = ohmstead::random_house(2026, 12);
  ohmstead::HouseFile::create(folder / (name + ".house"), house);
  ohmstead::write_output_file(folder / (name + ".json"), ohmstead::house_to_json(house));
}
