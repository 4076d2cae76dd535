#pragma once
// Decides whether a request is let through, by nothing but the request and the time; denies what no row of the table allows.
// The reasons are in docs/page.md.

#include <string>
#include <vector>

#include "web/bucket.h"
#include "web/pairing.h"
#include "web/routes.h"

namespace ohmstead::web {

struct GateRules {
  std::vector<std::string> hosts;  ///< values of Host that are the server's own: "127.0.0.1:8642"
  std::string cookie_name = "ohmstead";
  Pace stranger{20, 60}, all_strangers{200, 400};  ///< requests of what is not paired, by address and in all
  Pace device{30, 120}, all_devices{2000, 4000};   ///< requests of paired devices
};

/// From several threads at once.
class Gate {
 public:
  /// Keep the pairing alive. Two routes with one verb and path are a fault of the program.
  Gate(GateRules rules, std::vector<Route> routes, Pairing& pairing, Clock clock);

  /// The refusal, or what the route's handler answers.
  [[nodiscard]] Answer operator()(const Request& request);

 private:
  [[nodiscard]] bool is_own_host(const Request& request) const;
  [[nodiscard]] bool within_pace(const Request& request, const Device& device);
  [[nodiscard]] const Route* route_of(const Request& request, bool& path_known) const;
  [[nodiscard]] std::optional<Response> refused(const Request& request, const Route& route, const Device& device) const;

  GateRules rules_;
  std::vector<Route> routes_;
  Pairing& pairing_;
  Clock clock_;
  Buckets strangers_, devices_;
};

}  // namespace ohmstead::web
