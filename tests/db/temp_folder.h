#pragma once
// A fresh folder for one test, and words about what was thrown.

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "house/error.h"

namespace ohmstead {

/// A folder of its own, removed at the end.
class TempFolder {
 public:
  TempFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "ohmstead-test-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder() { std::filesystem::remove_all(path_); }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// Number of files in it, hidden ones too.
  [[nodiscard]] long files() const {
    return std::distance(std::filesystem::directory_iterator(path_), std::filesystem::directory_iterator());
  }

 private:
  std::filesystem::path path_;
};

inline std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline void write_file(const std::filesystem::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary) << bytes;
}

/// The message of the Error of this kind that `act` throws; fails the test if it throws none.
template <class F>
std::string message_of(ErrorKind kind, const F& act) {
  try {
    act();
  } catch (const Error& e) {
    EXPECT_EQ(static_cast<int>(e.kind), static_cast<int>(kind)) << e.what();
    return e.what();
  }
  ADD_FAILURE() << "nothing was thrown";
  return {};
}

}  // namespace ohmstead
