#include "survey/kind_words.h"

#include <array>
#include <map>
#include <vector>

#include "survey/text_lines.h"

namespace ohmstead {

namespace {

using enum PointKind;
using enum Importance;

// Typical watts: common practice, no source, except where marked; every one may be overwritten.
// [list]: an appliance wattage list of the US Department of Energy of about 2011, upper figures.
constexpr KindWord kKinds[] = {
    {"receptacle", receptacle, 1, 0, 0, normal, false, "outlet|plug|socket|recept|duplex|duplex receptacle", "r"},
    {"light", light, 1, 0, 0, normal, false, "lamp|fixture|light fixture|luminaire|lighting outlet", "l"},
    {"smoke alarm", alarm, 1, 0, 0, life_safety, false, "smoke detector|smoke|alarm", "sa"},
    {"CO alarm", alarm, 1, 0, 0, life_safety, false, "carbon monoxide alarm|co detector", "co"},
    {"alarm panel", alarm, 1, 20, 0, high, false, "burglar alarm|security system", ""},
    {"fan", fan, 1, 70, 0, normal, false, "exhaust fan", "f"},
    {"bath fan", fan, 1, 30, 0, low, false, "bathroom fan|vent fan", ""},
    {"ceiling fan", fan, 1, 70, 0, low, false, "paddle fan", ""},
    {"attic fan", fan, 1, 300, 0, low, false, "whole house fan|whole-house fan", ""},
    {"range", appliance, 2, 8000, 0, normal, false, "stove|electric range|cooker", ""},
    {"oven", appliance, 2, 3500, 0, normal, false, "wall oven", ""},
    {"cooktop", appliance, 2, 6000, 0, normal, false, "hob", ""},
    {"gas range", appliance, 1, 100, 0, normal, false, "gas stove|gas oven|gas cooktop", ""},
    {"dishwasher", appliance, 1, 1200, 0, low, false, "dish washer", "dw"},
    {"disposal", appliance, 1, 500, 1000, low, false, "garbage disposal|disposer", ""},
    {"refrigerator", appliance, 1, 180, 600, high, true, "fridge|icebox", "fr"},
    {"freezer", appliance, 1, 120, 500, high, true, "chest freezer|deep freezer|deep freeze", "fz"},
    {"microwave", appliance, 1, 1100, 0, normal, false, "microwave oven", "mw"},  // [list]
    {"range hood", appliance, 1, 150, 0, low, false, "hood|vent hood", ""},
    {"washer", appliance, 1, 500, 1000, normal, false, "washing machine|clothes washer", ""},  // [list], running
    {"dryer", appliance, 2, 5000, 0, low, false, "clothes dryer|electric dryer", ""},          // [list]
    {"gas dryer", appliance, 1, 700, 1500, low, false, "", ""},
    {"water heater", appliance, 2, 4500, 0, normal, false, "electric water heater|hot water heater", "wh"},  // [list]
    {"gas water heater", appliance, 1, 100, 0, normal, false, "", ""},
    {"well pump", appliance, 2, 1100, 3300, high, false, "deep well pump", ""},
    {"sump pump", appliance, 1, 800, 1250, high, false, "", ""},
    {"sewage pump", appliance, 1, 900, 2000, high, false, "ejector pump|sewage ejector", ""},
    {"pump", appliance, 1, 500, 1500, normal, false, "circulator|circulator pump", ""},
    {"furnace", appliance, 1, 600, 1800, high, false, "gas furnace|furnace fan", ""},
    {"boiler", appliance, 1, 200, 500, high, false, "gas boiler|oil boiler", ""},
    {"air handler", appliance, 1, 500, 1500, normal, false, "blower", ""},
    {"heat pump", appliance, 2, 3000, 7000, normal, false, "mini split|mini-split", ""},
    {"air conditioner", appliance, 2, 3500, 7000, normal, false, "air conditioning|a/c|central air", "ac"},
    {"baseboard heater", appliance, 2, 1500, 0, normal, false, "baseboard|baseboard heat", ""},
    {"heater", appliance, 1, 1500, 0, normal, false, "space heater|wall heater|bath heater", ""},
    {"garage opener", appliance, 1, 550, 1000, normal, false, "garage door opener|door opener", ""},
    {"doorbell", other, 1, 10, 0, low, false, "doorbell transformer|door bell|chime", ""},
    {"hot tub", appliance, 2, 6000, 0, low, false, "spa", ""},
    {"EV charger", appliance, 2, 7200, 0, normal, false, "car charger|electric vehicle charger", ""},
    {"welder", appliance, 2, 7000, 0, low, false, "", ""},
    {"air compressor", appliance, 1, 1500, 4500, low, false, "compressor", ""},
    {"table saw", appliance, 1, 1800, 4500, low, false, "saw", ""},
    {"dust collector", appliance, 1, 1200, 3600, low, false, "", ""},
    {"television", appliance, 1, 100, 0, low, false, "tv", ""},
    {"router", appliance, 1, 15, 0, high, false, "modem|wifi|internet router", ""},
    {"server", appliance, 1, 200, 0, high, true, "nas", ""},
    {"computer", appliance, 1, 150, 0, normal, true, "pc|desktop", ""},
    {"oxygen concentrator", appliance, 1, 350, 0, life_safety, true, "concentrator|oxygen", ""},
    {"CPAP", appliance, 1, 60, 0, life_safety, true, "cpap machine", ""},
    {"thermostat", other, 1, 5, 0, high, false, "", ""},
    {"irrigation controller", other, 1, 20, 0, low, false, "sprinkler controller|sprinkler timer", ""},
    {"other", other, 1, 0, 0, normal, false, "other point", ""},
};

struct Template {
  std::string_view name, items;
};

constexpr Template kTemplates[] = {
    {"bedroom", "4 receptacles, 1 light on switch, smoke alarm"},
    {"bath", "gfci, 1 light on switch, bath fan on switch"},
    {"kitchen", "4 counter receptacles, gfci, 2 lights on switch, refrigerator, range, dishwasher, disposal on switch, range hood"},
    {"living", "6 receptacles, 1 light on switch"},
    {"hall", "1 receptacle, 1 light on 3-way, smoke alarm"},
    {"laundry", "washer, dryer, 1 light on switch, 1 receptacle"},
    {"garage", "gfci + 1 downstream, 1 light on switch, garage opener"},
    {"bed", "4 receptacles, 1 light on switch, smoke alarm"},
};

using Table = std::map<std::string, const KindWord*, std::less<>>;

const Table& words_table() {
  static const Table table = [] {
    Table made;
    for (const KindWord& kind : kKinds) {
      made.emplace(entry_detail::lower(kind.name), &kind);
      if (kind.other_words.empty()) continue;
      for (const std::string& word : entry_detail::split(kind.other_words, "|")) made.emplace(word, &kind);
    }
    return made;
  }();
  return table;
}

}  // namespace

const KindWord* find_kind(std::string_view words) {
  const Table& table = words_table();
  std::string name = entry_detail::lower(words);
  const auto found = [&]() -> const KindWord* {
    const auto at = table.find(name);
    return at == table.end() ? nullptr : at->second;
  };
  if (const KindWord* kind = found()) return kind;
  if (!name.ends_with('s')) return nullptr;
  name.pop_back();
  if (const KindWord* kind = found()) return kind;
  if (!name.ends_with('e')) return nullptr;
  name.pop_back();
  return found();
}

const KindWord* find_short_kind(std::string_view word) {
  for (const KindWord& kind : kKinds)
    if (!kind.short_word.empty() && kind.short_word == word) return &kind;
  return nullptr;
}

std::optional<std::string> nearest_kind_word(std::string_view words) {
  if (words.size() > 40) return std::nullopt;
  const std::string name = entry_detail::lower(words);
  std::optional<std::string> best;
  int fewest = name.size() < 5 ? 2 : 3;  // one slip in a short word, two in a long one
  for (const auto& [word, kind] : words_table())
    for (const std::string& form : {word, word + "s"})
      if (const int slips = entry_detail::slips_between(name, form); slips < fewest) {
        fewest = slips;
        best = word;
      }
  return best;
}

std::optional<std::string_view> template_items(std::string_view name) {
  for (const Template& known : kTemplates)
    if (known.name == name) return known.items;
  return std::nullopt;
}

std::string template_for_room(std::string_view room_name) {
  const std::string name = entry_detail::lower(room_name);
  for (const auto& [part, found] : {std::pair{"bed", "bedroom"}, {"bath", "bath"}, {"kitchen", "kitchen"}, {"living", "living"},
                                    {"hall", "hall"}, {"laundry", "laundry"}, {"garage", "garage"}})
    if (name.find(part) != std::string::npos) return found;
  return "";
}

std::string template_names() {
  std::string names;
  for (const Template& known : kTemplates) names += (names.empty() ? "" : ", ") + std::string(known.name);
  return names;
}

}  // namespace ohmstead
