#include "web/lan_address.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <algorithm>
#include <fstream>
#include <memory>
#include <set>
#include <sstream>

#include "ask/printable.h"
#include "house/error.h"
#include "web/listen_socket.h"

namespace ohmstead::web {

namespace {

/// Interfaces that a default route goes through.
std::set<std::string> ways_out() {
  std::set<std::string> ways;
  std::ifstream table("/proc/net/route");
  for (std::string line; std::getline(table, line);) {
    std::istringstream fields(line);
    std::string interface, destination;
    if (fields >> interface >> destination && destination == "00000000") ways.insert(interface);
  }
  return ways;
}

std::string list_of(const std::vector<LanAddress>& there) {
  std::string list;
  for (const LanAddress& one : there) list += (list.empty() ? "" : ", ") + one.address + " (" + one.interface + ")";
  return list;
}

}  // namespace

bool is_private_address(const std::string& address) {
  in_addr four{};
  if (inet_pton(AF_INET, address.c_str(), &four) == 1) {
    const std::uint32_t value = ntohl(four.s_addr);
    return value >> 24U == 10 || value >> 20U == (172U << 4U | 1U) || value >> 16U == (192U << 8U | 168U) || value >> 16U == (169U << 8U | 254U);
  }
  in6_addr six{};
  return inet_pton(AF_INET6, address.c_str(), &six) == 1 && (six.s6_addr[0] & 0xFEU) == 0xFCU;
}

std::vector<LanAddress> lan_addresses() {
  ifaddrs* first = nullptr;
  if (getifaddrs(&first) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&freeifaddrs)> owned(first, freeifaddrs);
  const std::set<std::string> ways = ways_out();
  std::vector<LanAddress> there;
  for (const ifaddrs* at = first; at != nullptr; at = at->ifa_next) {
    const bool usable = at->ifa_addr != nullptr && at->ifa_addr->sa_family == AF_INET && (at->ifa_flags & IFF_UP) != 0 && (at->ifa_flags & IFF_LOOPBACK) == 0;
    if (!usable) continue;
    const std::string address = address_text(at->ifa_addr);
    if (is_private_address(address)) there.push_back({address, at->ifa_name, ways.contains(at->ifa_name)});
  }
  return there;
}

std::string choose_lan_address(const std::vector<LanAddress>& there, const std::string& given) {
  if (!given.empty()) {
    if (std::ranges::find(there, given, &LanAddress::address) != there.end()) return given;
    throw Error(ErrorKind::not_found, "'" + terminal::printable(given.substr(0, 60)) + "' is not an address of this computer on a home network" +
                                          (there.empty() ? "." : "; it has " + list_of(there) + "."));
  }
  if (there.empty()) throw Error(ErrorKind::not_found, "This computer is on no home network; connect it to the Wi-Fi, or leave out --lan to use the page on this computer alone.");
  if (there.size() == 1) return there.front().address;
  const auto is_way_out = [](const LanAddress& one) { return one.way_out; };
  if (std::ranges::count_if(there, is_way_out) == 1) return std::ranges::find_if(there, is_way_out)->address;
  throw Error(ErrorKind::ambiguous, "This computer is on several networks: " + list_of(there) + ". Say which with --address.");
}

}  // namespace ohmstead::web
