#include "ask/dwelling_items.h"

#include <charconv>
#include <vector>

#include "ask/printable.h"
#include "house/error.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

/// A name and what it means; the first that is in the name decides.
struct NameKind {
  std::string_view words;  ///< parted by '|'
  std::optional<LoadClass> at_240, at_120;
  bool motor = false;
};

using enum LoadClass;
constexpr std::nullopt_t kNone = std::nullopt;
const NameKind kKinds[] = {
    {"hair dryer|boot dryer|space heater|range hood|toaster oven|microwave oven|pizza oven", kNone, kNone},
    {"water heater", fastened, kNone},
    {"charger|charging|ev|evse|wallbox|car|vehicle", vehicle, kNone},
    {"heat pump", heat_pump, heat_pump, true},
    {"air conditioner|air conditioning|ac|a/c|mini split|mini-split", air_conditioning, air_conditioning, true},
    {"supplementary heat|backup heat|heat strip|auxiliary heat", supplementary_heat, kNone},
    {"baseboard|electric heat|wall heater|bath heater|heater|heat|floor heat", heating, heating},
    {"furnace|boiler", heating, fastened, true},
    {"range|oven|cooktop|stove|cooker", cooking, kNone},
    {"dryer|washer and dryer", dryer, kNone},
    {"dishwasher|compactor", fastened, fastened},
    {"disposer|disposal|garbage disposal", fastened, fastened, true},
    {"pump", fastened, fastened, true},
};

bool has_name(std::string_view name, std::string_view words) {
  const std::string padded = " " + std::string(name) + " ";
  for (std::size_t from = 0; from <= words.size();) {
    const std::size_t end = std::min(words.find('|', from), words.size());
    const std::string word(words.substr(from, end - from));
    if (holds_word(padded, " " + word + " ") || holds_word(padded, " " + word + "s ")) return true;
    from = end + 1;
  }
  return false;
}

const NameKind* kind_of(std::string_view name) {
  for (const NameKind& kind : kKinds)
    if (has_name(name, kind.words)) return &kind;
  return nullptr;
}

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text)
    if (c == ' ' || c == '\t' || c == ',') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  if (words.back().empty()) words.pop_back();
  return words;
}

[[noreturn]] void fail(const std::string& words) {
  throw Error(ErrorKind::invalid_input, "'" + terminal::printable(words.substr(0, 60)) + "' is no load: give a name, a size and, where it is not 240, the volts, such as 'range 12 kW', 'dishwasher 1200 W 120 V', '2 x oven 4 kW' or 'car charger 40 A'.");
}

/// "12 kW", "1200W", "6 A": the number, and the unit in small letters; nothing where no number begins.
std::optional<std::pair<double, std::string>> quantity_at(const std::vector<std::string>& words, std::size_t& at) {
  const std::string& word = words[at];
  double value = 0;
  const auto [end, fault] = std::from_chars(word.data(), word.data() + word.size(), value, std::chars_format::fixed);
  if (fault != std::errc{} || word[0] == '-') return std::nullopt;
  std::string unit(end, word.data() + word.size());
  if (unit.empty() && at + 1 < words.size()) unit = words[++at];
  for (char& c : unit) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  ++at;
  return std::pair{value, unit};
}

/// What was read of an item besides its name.
struct Sizes {
  double watts = 0, amps = 0, volts = 0;
  int count = 1;
};

bool take_size(const std::pair<double, std::string>& quantity, Sizes& sizes) {
  const auto& [value, unit] = quantity;
  if (!(value > 0)) return false;
  if (unit == "x" && sizes.count == 1 && value == static_cast<int>(value) && value <= 100) return sizes.count = static_cast<int>(value), true;
  double* const place = unit == "w" || unit == "kw" || unit == "va" || unit == "kva" ? &sizes.watts : unit == "a" || unit == "amps" || unit == "amp" ? &sizes.amps : unit == "v" || unit == "volts" ? &sizes.volts : nullptr;
  if (place == nullptr || *place != 0) return false;
  *place = unit[0] == 'k' ? value * 1000 : value;
  return true;
}

}  // namespace

std::optional<LoadClass> load_class_of(std::string_view name, bool of_240) {
  const NameKind* const kind = kind_of(name);
  if (kind == nullptr) return of_240 ? std::optional(LoadClass::other) : std::nullopt;
  return of_240 ? kind->at_240 : kind->at_120;
}

bool is_motor(std::string_view name) {
  const NameKind* const kind = kind_of(name);
  return kind != nullptr && kind->motor;
}

DwellingItem item_in_words(const std::string& text) {
  const std::vector<std::string> words = words_in(text);
  DwellingItem item;
  Sizes sizes;
  for (std::size_t at = 0; at < words.size();) {
    if (const auto quantity = quantity_at(words, at)) {
      if (!take_size(*quantity, sizes)) fail(text);
    } else {
      item.name += (item.name.empty() ? "" : " ") + words[at++];
    }
  }
  if (sizes.volts == 0) sizes.volts = 240;
  const bool of_120 = sizes.volts >= 110 && sizes.volts <= 125;
  if (item.name.empty() || (sizes.watts == 0) == (sizes.amps == 0) || (!of_120 && !(sizes.volts >= 208 && sizes.volts <= 250))) fail(text);
  item.va = sizes.watts != 0 ? sizes.watts : sizes.amps * sizes.volts;
  item.count = sizes.count, item.neutral = of_120;
  item.kind = load_class_of(item.name, !of_120).value_or(LoadClass::other);
  item.motor = is_motor(item.name);
  return item;
}

}  // namespace ohmstead
