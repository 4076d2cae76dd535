#pragma once
// `ohmstead serve --json`, run as a program would.

#include <sys/types.h>

#include <cstdint>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "../whole/program.h"

namespace ohmstead::web {

class Served {
 public:
  /// Starts it on the folder's a.house at a free port, with these words besides, and waits until it listens.
  explicit Served(const whole::Folder& folder, const std::vector<std::string>& words = {});
  ~Served();
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  [[nodiscard]] std::uint16_t port() const { return port_; }
  [[nodiscard]] const std::string& host() const { return host_; }  ///< "127.0.0.1:8642": where it listens
  [[nodiscard]] pid_t process() const { return child_; }
  /// The next line of that event; null if the program ended before.
  [[nodiscard]] nlohmann::json event(const std::string& name);
  void type(const std::string& line);
  /// A cookie for a new device of that role.
  [[nodiscard]] std::string new_device(const std::string& role);
  /// Waits for its end, after a signal unless that is 0. Exit code, or 1000 + the signal that ended it.
  int end(int signal);

 private:
  pid_t child_ = -1;
  FILE* to_ = nullptr;
  FILE* from_ = nullptr;
  std::uint16_t port_ = 0;
  std::string host_;
};

/// Memory of a process that is in use, in KiB.
[[nodiscard]] long resident_kib(pid_t process);

}  // namespace ohmstead::web
