#pragma once
// Which of this computer's addresses a phone on the home network can reach.

#include <string>
#include <vector>

namespace ohmstead::web {

struct LanAddress {
  std::string address;    ///< "192.168.1.7"
  std::string interface;  ///< "wlan0"
  bool way_out = false;   ///< the computer's way to the internet goes through it, so it is the home network
};

/// Only what no other network can reach (RFC 1918, link-local by RFC 3927, RFC 4193), not loopback.
[[nodiscard]] bool is_private_address(const std::string& address);

/// Of this computer: private, IPv4, up.
[[nodiscard]] std::vector<LanAddress> lan_addresses();

/// The one that was given, the only one, or the only one with the way out. Throws Error{not_found} where there is none or the given
/// one is none of them, Error{ambiguous} that lists them where it is not clear.
[[nodiscard]] std::string choose_lan_address(const std::vector<LanAddress>& there, const std::string& given);

}  // namespace ohmstead::web
