#pragma once
// Runs the real program in a folder of its own.

#include <sys/types.h>

#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

namespace ohmstead::whole {

struct Ran {
  int code = -1;  ///< exit code, or 1000 + the signal
  std::string out, err;
};

/// A fresh folder, removed at the end, in which the program runs.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::filesystem::path at(const std::string& name) const { return path_ / name; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  /// Runs `ohmstead WORDS` with `input` on standard input, which is then closed.
  [[nodiscard]] Ran run(const std::vector<std::string>& words, const std::string& input = "") const;
  /// Makes `a.house`, called Hillside, with these entry lines. Returns how the entering went.
  [[nodiscard]] Ran start_house(const std::string& lines) const;
  void write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] std::string read(const std::string& name) const;

 private:
  std::filesystem::path path_;
};

/// In a forked child: becomes `ohmstead WORDS` in this folder.
[[noreturn]] void become_program(const Folder& folder, const std::vector<std::string>& words);

/// The program at the other end of two pipes.
class Talk {
 public:
  Talk(const Folder& folder, const std::vector<std::string>& words);
  ~Talk();
  Talk(const Talk&) = delete;
  Talk& operator=(const Talk&) = delete;
  void send(const std::string& line);
  /// Next line without its end; empty at the end of the output.
  [[nodiscard]] std::string receive();
  void kill();

 private:
  pid_t child_ = -1;
  FILE* to_ = nullptr;
  FILE* from_ = nullptr;
};

}  // namespace ohmstead::whole
