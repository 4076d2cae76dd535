#include "ask/position_words.h"

#include <algorithm>

#include "ask/printable.h"
#include "house/index.h"

namespace ohmstead {

std::string device_words(const House& house, const Position& position) {
  const TransferDevice* mine = find_row(house, position.device);
  if (mine == nullptr || mine->name.empty()) return "";
  const auto several = std::ranges::count_if(house.transfer_devices, [&](const TransferDevice& device) {
    return device.source == mine->source && device.kind == TransferKind::circuits;
  });
  return several > 1 ? " on " + terminal::printable(mine->name) : "";
}

}  // namespace ohmstead
