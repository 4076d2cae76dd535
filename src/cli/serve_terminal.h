#pragma once
// The terminal of a running server: shows codes, lists and takes off devices, stops it.

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "cli/command.h"
#include "cli/stop_signals.h"
#include "web/server.h"

namespace ohmstead {

struct ServeManner {
  web::Role role = web::Role::change;  ///< of the first code
  bool on_lan = false;
  std::string house;                   ///< as it is called to people: the file
  std::chrono::milliseconds idle{};    ///< it stops when nobody did anything for so long
  std::function<void()> each_second;   ///< called once a second or so
};

class ServeTerminal {
 public:
  /// Keep all of them alive. Revoking a device is a change: who waits is told.
  ServeTerminal(Session& session, const ServeManner& manner, web::Server& server, web::ChangeCounter& changes);

  /// Shows the first code, then takes lines that begin with a key until it is to stop. Returns the exit code: 130 for SIGINT, else 0.
  int run(const StopSignals& signals);

 private:
  /// Waits up to a second for a line or a signal. The exit code if it is over.
  std::optional<int> step(const StopSignals& signals);
  /// What was typed. True: stop.
  bool take_input();
  bool take_line(const std::string& line);
  void show_start();
  void show_offer(web::Role role);
  void show_devices();
  void show_new_devices();
  void revoke(const std::string& number);
  void say(const std::string& sentence);
  void say_json(const std::string& line);

  Session& session_;
  ServeManner manner_;
  web::Server& server_;
  web::ChangeCounter& changes_;
  std::string read_;        ///< of a line that is not whole
  bool input_ended_ = false;
  std::uint64_t shown_ = 0;  ///< last device that was told of
};

/// "look", "trace", "change"; throws Error{invalid_input} for another word.
[[nodiscard]] web::Role role_of_word(const std::string& word);

}  // namespace ohmstead
