#include "rules/panel_text.h"

#include <algorithm>
#include <set>

#include "house/index.h"
#include "house/numbering.h"
#include "house/voltage.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

std::string name_of(const std::string& name) { return label_name(name, kLongestInText); }

/// "breaker 14-16 of Panel Main"; empty if there is no such breaker.
std::string breaker_in_words(const House& house, Id<Breaker> id) {
  const Breaker* breaker = find_row(house, id);
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  return panel == nullptr ? "" : "breaker " + breaker_number(*panel, *breaker) + " of " + panel_title(*panel);
}

/// Every word of more than `most` letters cut to fewer, with a period: "Workshop" is "Worksh." for 7.
std::string abbreviated(const std::string& name, std::size_t most) {
  std::string text;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t end = std::min(name.find(' ', at), name.size());
    const std::string word = name.substr(at, end - at);
    std::size_t bytes = 0;
    for (std::size_t letters = 0; bytes < word.size() && letters + 1 < most; ++letters)
      do ++bytes;
      while (bytes < word.size() && (static_cast<unsigned char>(word[bytes]) & 0xC0U) == 0x80U);
    if (!text.empty()) text += ' ';
    text += character_count(word) > most ? word.substr(0, bytes) + "." : word;
    at = end + 1;
  }
  return text;
}

/// From the whole title to its place among the panels.
std::vector<std::string> ways_of(const Panel& panel, std::size_t place) {
  std::string name = panel_title(panel);
  std::vector<std::string> ways{name};
  if (name.starts_with("Panel ")) name.erase(0, 6);
  ways.push_back(name);
  for (const std::size_t most : {9U, 7U, 5U, 4U, 3U}) ways.push_back(abbreviated(name, most));
  ways.push_back("P" + std::to_string(place + 1));
  return ways;
}

}  // namespace

std::string panel_title(const Panel& panel) {
  const std::string name = name_of(panel.name);
  if (name.empty()) return "Panel";
  return holds_word(name, "panel") ? with_capital(name) : "Panel " + name;
}

std::vector<std::string> panel_title_ways(const House& house, const Panel& panel) {
  const auto own = static_cast<std::size_t>(std::ranges::find(house.panels, panel.id, &Panel::id) - house.panels.begin());
  std::set<std::string> taken;
  for (std::size_t p = 0; p < house.panels.size(); ++p)
    if (p != own)
      for (const std::string& way : ways_of(house.panels[p], p)) taken.insert(way);
  std::vector<std::string> ways;
  for (const std::string& way : ways_of(panel, own))
    if (!taken.contains(way) && (ways.empty() || character_count(way) < character_count(ways.back()))) ways.push_back(way);
  if (ways.empty() || ways.front() != panel_title(panel)) ways.insert(ways.begin(), panel_title(panel) + " (P" + std::to_string(own + 1) + ")");
  return ways;
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
