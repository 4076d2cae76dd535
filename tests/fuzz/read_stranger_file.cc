// Any bytes in a file give a sound house or an Error.

#include <stdlib.h>

#include <cstdint>
#include <filesystem>
#include <fstream>

#include "db/stranger.h"
#include "house/error.h"
#include "house/invariants.h"

namespace {
/// One file for all runs of this process.
const std::filesystem::path& input_file() {
  static const std::filesystem::path file = [] {
    std::string name = (std::filesystem::temp_directory_path() / "ohmstead-fuzz-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) std::abort();
    return std::filesystem::path(name) / "input.house";
  }();
  return file;
}
}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::ofstream(input_file(), std::ios::binary).write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
  try {
    if (!ohmstead::problems_of(ohmstead::read_stranger_file(input_file())).empty()) std::abort();
  } catch (const ohmstead::Error&) {
  }
  return 0;
}
