#include "print/card_content.h"

#include <algorithm>
#include <set>

#include "house/index.h"
#include "house/numbering.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLongestName = 24;
const std::string kCaution =
    "Before work: test the tester, test, test the tester again. "
    "Local code and a licensed electrician decide.";

std::string name_of(const std::string& name) { return label_name(name, kLongestName); }

std::string supply_text(const House& house, const Panel& panel) {
  const std::string from = fed_by_text(house, panel);
  std::string text = volts_text(house.dwelling.system) + ", " + (from.empty() ? "supply not recorded" : "fed by " + from) + ".";
  const Room* room = find_row(house, panel.room);
  const std::string where = room == nullptr ? "" : name_of(room->name);
  if (!where.empty()) text += " Panel is in: " + where + ".";
  if (!panel.main_amps) text += " No main breaker in this panel.";
  return text;
}

/// Numbers of breakers of this panel that are interlocked with its main.
std::string interlocked_with_main(const House& house, const Panel& panel) {
  const HandleRef main{HandleKind::main, panel.id.value};
  std::string numbers;
  for (const Interlock& lock : house.interlocks) {
    if (lock.first != main && lock.second != main) continue;
    const HandleRef& other = lock.first == main ? lock.second : lock.first;
    const Breaker* breaker = other.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{other.id}) : nullptr;
    if (breaker != nullptr && breaker->panel == panel.id)
      numbers += (numbers.empty() ? "" : " and ") + breaker_number(panel, *breaker);
  }
  return numbers;
}

std::string main_text(const House& house, const Panel& panel) {
  if (panel.main_amps == 0) return {};
  const std::string amps = std::to_string(panel.main_amps) + "\u00A0A";
  const std::string locked = interlocked_with_main(house, panel);
  std::string text = amps + ". Its line side stays live when it is OFF.";
  if (!locked.empty()) text = amps + ". INTERLOCK: never ON together with " + locked + ". Its line side stays live when it is OFF.";
  return text;
}

/// "[G3] position 3 of transfer device 'T' (generator)" for each device that is marked.
void explain_marks(const House& house, const std::vector<CircuitWords>& words, std::vector<std::string>& parts) {
  std::set<std::uint64_t> devices;
  for (const Position& position : house.positions)
    for (const CircuitWords& one : words)
      if (position.breaker == one.breaker) devices.insert(position.device.value);
  for (const TransferDevice& device : house.transfer_devices) {
    if (!devices.contains(device.id.value)) continue;
    const Source* source = find_row(house, device.source);
    const bool battery = source != nullptr && source->kind == SourceKind::battery_inverter;
    const char letter = mark_letter(house, device.id);
    parts.push_back(std::string("Box ") + letter + "1: on backup from the " + (battery ? "battery inverter" : "generator") +
                    " by position 1 of " + transfer_device_text(house, device.id));
  }
}

std::string key_text(const House& house, const CardContent& content, const std::vector<CircuitWords>& words) {
  std::vector<std::string> parts;
  const auto any = [&](CircuitUse use) { return std::ranges::find(words, use, &CircuitWords::use) != words.end(); };
  if (std::ranges::any_of(words, &CircuitWords::uncertain)) parts.push_back("?: not proved yet, may be wrong");
  if (any(CircuitUse::spare)) parts.push_back("SPARE: a breaker that feeds nothing");
  if (any(CircuitUse::inlet)) parts.push_back("INLET: brings power in from outside");
  const bool halves = std::ranges::any_of(content.table.cells, [](const PanelCell& c) { return c.breaker && c.numbers[0].back() >= 'a'; });
  if (halves) parts.push_back("a, b: upper and lower breaker of one space");
  if (!content.table.ties.empty()) parts.push_back("Bracket: handles tied together");
  explain_marks(house, words, parts);
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "Key. " : ". ") + part;
  return text.empty() ? text : text + ".";
}

}  // namespace

CardContent card_content(const House& house, const Feeds& feeds, const DirectoryOptions& options) {
  const Panel& panel = row(house, options.panel);
  const auto words = panel_words(house, feeds, panel.id);
  CardContent content;
  content.title = panel_title(panel);
  content.location = options.location.value_or(location_of(house, panel.room));
  content.supply = supply_text(house, panel) + (options.check.empty() ? "" : " Check code " + printed_check_code(options.check) + ".");
  content.date = options.date;
  content.revision = "rev " + std::to_string(options.revision);
  content.main_text = main_text(house, panel);
  content.table = panel_cells(house, panel, words);
  content.caution = kCaution;
  content.key = key_text(house, content, words);
  content.codes = directory_text(house, panel, words, content.date + " " + content.revision);
  return content;
}

}  // namespace ohmstead
