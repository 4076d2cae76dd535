#pragma once
// What a session needs to know of the world it is held in.

#include <functional>
#include <string>

namespace ohmstead {

/// The time now, UTC, as `2026-11-25T09:30:00Z`.
using NowFn = std::function<std::string()>;

struct TraceOptions {
  NowFn now;
  std::string who;                  ///< may be empty
  bool single_keys = false;         ///< standard input is a terminal: take each key as it is pressed
};

}  // namespace ohmstead
