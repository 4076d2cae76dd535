#include "web/gate.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "house/error.h"
#include "json/json_line.h"

namespace ohmstead::web {

namespace {

using Json = nlohmann::ordered_json;

bool is_json(std::string_view type) {
  const std::string_view kind = type.substr(0, type.find(';'));
  return kind.substr(0, kind.find_last_not_of(' ') + 1) == "application/json";
}

/// What a route's handler refused.
Response refusal_of(const Error& error) {
  switch (error.kind) {
    case ErrorKind::not_found: return refusal(400, "not_found", error.what());
    case ErrorKind::ambiguous: return refusal(400, "ambiguous", error.what());
    case ErrorKind::invalid_input: break;
    case ErrorKind::conflict: return refusal(409, "conflict", error.what());
    case ErrorKind::storage: return refusal(503, "storage", error.what());
    case ErrorKind::output: return refusal(503, "output", error.what());
  }
  return refusal(400, "invalid_input", error.what());
}

/// Refused unless only the server's own page can have sent it.
std::optional<Response> refused_post(const Request& request) {
  if (!is_json(request.content_type)) return refusal(403, "not_from_page", "What is sent here must say that it is JSON (Content-Type: application/json).");
  if (request.own_header != "1") return refusal(403, "not_from_page", "What is sent here must carry the header 'X-Ohmstead: 1', as this server's page does.");
  if (request.origin != "http://" + request.hosts.front()) return refusal(403, "not_from_page", "Only this server's own page may send something here.");
  return std::nullopt;
}

}  // namespace

Gate::Gate(GateRules rules, std::vector<Route> routes, Pairing& pairing, Clock clock)
    : rules_(std::move(rules)), routes_(std::move(routes)), pairing_(pairing), clock_(std::move(clock)),
      strangers_(rules_.stranger, rules_.all_strangers, clock_()), devices_(rules_.device, rules_.all_devices, clock_()) {
  const auto same = [](const Route& a, const Route& b) { return a.verb == b.verb && a.path == b.path; };
  for (auto one = routes_.begin(); one != routes_.end(); ++one)
    for (auto other = std::next(one); other != routes_.end(); ++other)
      if (same(*one, *other)) throw std::logic_error("two routes for " + one->path);
}

bool Gate::is_own_host(const Request& request) const {
  return request.hosts.size() == 1 && std::ranges::find(rules_.hosts, request.hosts.front()) != rules_.hosts.end();
}

bool Gate::within_pace(const Request& request, const Device& device) {
  if (device.role == Role::nobody) return strangers_.take(request.address, clock_());
  return devices_.take(std::to_string(device.number), clock_());
}

const Route* Gate::route_of(const Request& request, bool& path_known) const {
  path_known = false;
  for (const Route& route : routes_) {
    if (route.path != request.path) continue;
    path_known = true;
    if (route.verb == request.verb) return &route;
  }
  return nullptr;
}

std::optional<Response> Gate::refused(const Request& request, const Route& route, const Device& device) const {
  if (request.verb == Verb::post)
    if (auto refusal_now = refused_post(request)) return refusal_now;
  if (request.verb == Verb::get && !request.body.empty()) return refusal(400, "invalid_input", "A question carries nothing but its address.");
  if (route.least == Role::nobody) return std::nullopt;
  if (device.role == Role::nobody) return refusal(401, "not_paired", "This device is not paired with the house computer; pair it with a code from there.");
  if (device.role < route.least)
    return refusal(403, "role", "This device may not do that: it was paired to " + std::string(role_word(device.role)) + ". Pair it anew with a code that allows it.");
  return std::nullopt;
}

Answer Gate::operator()(const Request& request) {
  if (!is_own_host(request)) return refusal(421, "wrong_host", "This server is not the one that was asked for; open the address that the terminal shows.");
  const Device device = pairing_.device_of(request.cookie_named(rules_.cookie_name)).value_or(Device{});
  if (!within_pace(request, device)) return refusal(429, "too_many", "Too many requests at once; wait a few seconds.");
  bool path_known = false;
  const Route* const route = route_of(request, path_known);
  if (route == nullptr)
    return path_known ? refusal(405, "wrong_verb", "This cannot be asked for in that way.") : refusal(404, "no_such_page", "There is no such page here.");
  if (const auto refusal_now = refused(request, *route, device)) return *refusal_now;
  if (device.role != Role::nobody && !route->by_itself) pairing_.note_person();
  try {
    const Json body = request.verb == Verb::post ? parse_json_line(request.body, "request") : Json();
    return route->handler({request, device, body});
  } catch (const Error& error) {
    return refusal_of(error);
  }
}

}  // namespace ohmstead::web
