#pragma once
// What can be asked of the server: one row a request. What has no row is refused.

#include <cstdint>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "web/message.h"

namespace ohmstead::web {

/// What a device may do; each may do what those before it may. `nobody` is what is not paired.
enum class Role { nobody, look, trace, change };
/// "look", "trace", "change"; "" for nobody.
[[nodiscard]] std::string_view role_word(Role role);

/// A paired device. Its number is never given to another while the server runs.
struct Device {
  std::uint64_t number = 0;
  Role role = Role::nobody;
  std::string name;  ///< as its person typed it, cut to what a name may be; not yet safe for a terminal
};

/// One request that was let through.
struct Call {
  const Request& request;
  const Device& device;                ///< number 0 and Role::nobody where none is needed
  const nlohmann::ordered_json& body;  ///< of a POST: an object, not deep, no field twice; else null
};

/// Called from several threads at once. Throws Error for what it refuses: invalid_input, not_found and ambiguous are answered 400,
/// conflict 409, storage and output 503, each with its sentence; anything else is answered 500 without its text.
using RouteHandler = std::function<Answer(const Call&)>;

struct Route {
  Verb verb = Verb::get;
  std::string path;  ///< compared whole
  Role least = Role::change;
  RouteHandler handler;
  bool by_itself = false;  ///< a page asks it without its person: no sign that somebody is there
};

}  // namespace ohmstead::web
