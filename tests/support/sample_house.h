#pragma once
// The sample house, entered from its text, for tests.

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "survey/entry.h"

namespace ohmstead {

/// A file of the repository as text. Throws std::runtime_error if it cannot be read.
[[nodiscard]] inline std::string source_file(const std::string& path) {
  std::ifstream in(std::string(OHMSTEAD_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) throw std::runtime_error("cannot read " + path);
  return text.str();
}

/// The house of sample-house/house.txt. Ids differ from call to call.
[[nodiscard]] inline House sample_house() {
  House empty;
  empty.dwelling.id = Id<Dwelling>::fresh();
  return enter_text(empty, source_file("sample-house/house.txt")).house;
}

}  // namespace ohmstead
