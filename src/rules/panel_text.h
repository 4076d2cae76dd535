#pragma once
// What a panel is called on everything that is printed, and where its power comes from.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Panel's name as printed in heads and codes: "Panel Main"; "Workshop panel" stays as it is.
[[nodiscard]] std::string panel_title(const Panel& panel);

/// Ways to say its title, longest first: "Panel Workshop", "Workshop", "Worksh.", "Wor.". No other panel of the house has any of them, so
/// that the shortest still tells which one it is; at last "P2", its place among the panels. Where two have one title, its place stands behind it.
[[nodiscard]] std::vector<std::string> panel_title_ways(const House& house, const Panel& panel);

/// "120/240 V", the number kept on one line with its unit.
[[nodiscard]] std::string volts_text(VoltageSystem system);

/// "the utility", "breaker 14-16 of Panel Main", "position 3 of transfer device 'T' (normally from breaker 9 of
/// Panel Main)"; "" where it is not recorded.
[[nodiscard]] std::string fed_by_text(const House& house, const Panel& panel);

/// "transfer device 'T'", or "the transfer device" where it has no name.
[[nodiscard]] std::string transfer_device_text(const House& house, Id<TransferDevice> id);

}  // namespace ohmstead
