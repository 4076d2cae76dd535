#include "web/server.h"

#include "web/device_routes.h"

namespace ohmstead::web {

namespace {

/// Cookies are shared by all ports of a host (RFC 6265 section 8.5), so two servers need two names.
std::string cookie_name(const ListenSocket& socket) { return "ohmstead-" + std::to_string(socket.port()); }

std::vector<Route> all_routes(std::vector<Route> routes, Pairing& pairing, const ListenSocket& socket) {
  for (Route& route : file_routes()) routes.push_back(std::move(route));
  routes.push_back(pair_route(pairing, cookie_name(socket)));
  return routes;
}

GateRules rules_of(const std::string& address, const ListenSocket& socket) {
  GateRules rules;
  rules.hosts = own_hosts(address, socket.port());
  rules.cookie_name = cookie_name(socket);
  return rules;
}

}  // namespace

std::vector<std::string> own_hosts(const std::string& address, std::uint16_t port) {
  std::vector<std::string> hosts{address_and_port(address, port)};
  if (address == "127.0.0.1" || address == "::1") hosts.push_back("localhost:" + std::to_string(port));
  if (port == 80) {  // browsers leave that number out
    const std::size_t with_port = hosts.size();
    for (std::size_t i = 0; i < with_port; ++i) hosts.push_back(hosts[i].substr(0, hosts[i].size() - 3));
  }
  return hosts;
}

Server::Server(const ServerOptions& options, std::vector<Route> routes, ChangeCounter& changes)
    : address_(options.address), socket_(options.address, options.port), pairing_(options.clock, options.left),
      gate_(rules_of(address_, socket_), all_routes(std::move(routes), pairing_, socket_), pairing_, options.clock), changes_(changes),
      listener_(socket_, options.listener, [this](const Request& request) { return gate_(request); }) {
  changes_.tell([this] { listener_.wake(); });
}

Server::~Server() { changes_.tell({}); }

std::string Server::url() const { return "http://" + address_and_port(address_, port()) + "/"; }

}  // namespace ohmstead::web
