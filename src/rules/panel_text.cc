#include "rules/panel_text.h"

#include "house/index.h"
#include "house/numbering.h"
#include "house/voltage.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLongestName = 24;

std::string name_of(const std::string& name) { return label_name(name, kLongestName); }

/// "breaker 14-16 of Panel Main"; empty if there is no such breaker.
std::string breaker_in_words(const House& house, Id<Breaker> id) {
  const Breaker* breaker = find_row(house, id);
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  return panel == nullptr ? "" : "breaker " + breaker_number(*panel, *breaker) + " of " + panel_title(*panel);
}

}  // namespace

std::string panel_title(const Panel& panel) {
  const std::string name = name_of(panel.name);
  if (name.empty()) return "Panel";
  return holds_word(name, "panel") ? with_capital(name) : "Panel " + name;
}

std::string volts_text(VoltageSystem system) {
  const int line = volts_to_neutral(system), between = volts_between_legs(system);
  return std::to_string(line) + (between > 0 ? "/" + std::to_string(between) : "") + "\u00A0V";
}

std::string transfer_device_text(const House& house, Id<TransferDevice> id) {
  const TransferDevice* device = find_row(house, id);
  if (device == nullptr) return "the transfer device";
  const std::string name = name_of(device->name);
  return name.empty() ? "the transfer device" : "transfer device '" + name + "'";
}

std::string fed_by_text(const House& house, const Panel& panel) {
  switch (panel.supply) {
    case Supply::utility: return "the utility";
    case Supply::breaker: return breaker_in_words(house, panel.feeder);
    case Supply::position: {
      const Position* position = find_row(house, panel.position);
      if (position == nullptr) return {};
      const std::string normal = breaker_in_words(house, position->breaker);
      return "position " + std::to_string(position->number) + " of " + transfer_device_text(house, position->device) +
             (normal.empty() ? "" : " (normally from " + normal + ")");
    }
    case Supply::nothing_known: break;
  }
  return {};
}

}  // namespace ohmstead
