#include "cli/print_set.h"

#include <algorithm>
#include <set>

namespace ohmstead {

namespace {

using Words = std::vector<std::string>;

/// Positions that carry a circuit of their own: such a device has a strip.
bool has_positions(const House& house) {
  return std::ranges::any_of(house.transfer_devices, [&](const TransferDevice& device) {
    return device.kind == TransferKind::circuits && std::ranges::find(house.positions, device.id, &Position::device) != house.positions.end();
  });
}

bool plain(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }

}  // namespace

std::vector<Words> all_prints(const House& house, const std::string& sheet) {
  std::vector<Words> all;
  const auto add = [&](Words words) {
    if (!sheet.empty()) words.insert(words.end(), {"--sheet", sheet});
    all.push_back(std::move(words));
  };
  for (const Panel& panel : house.panels) {
    Words words{"directory"};
    add_option(words, "--panel", panel.name);
    add(std::move(words));
  }
  if (house.panels.empty()) return all;
  add({"directory", "--by-room"});
  for (const char* kind : {"strip", "dots", "panels", "plates"}) add({"labels", kind});
  if (has_positions(house)) add({"labels", "transfer"});
  if (!house.planned.empty())
    for (const char* kind : {"plan", "worksheet", "wall"}) add({"paper", kind});
  for (const char* kind : {"packet", "floor-plan", "signs", "copy"}) add({"paper", kind});
  const auto of_house = [](const Note& note) { return note.about.kind == ThingKind::house && !note.is_private; };
  if (std::ranges::any_of(house.notes, of_house)) add({"paper", "notes"});
  return all;
}

PrintState state_of(const Printed& printed, const ItemsNow& now) {
  const auto item = std::ranges::find(now.items, printed.item, &PrintedItem::key);
  if (item != now.items.end()) return {item->code == printed.code, ""};
  return {false, now.refused.empty() ? "it is not in the record any more." : now.refused};
}

PrintState StatesNow::of(const Printed& printed) {
  const auto [found, fresh] = now_.try_emplace(printed.words);
  if (fresh) found->second = items_now(session_, words_kept(printed.words));
  return state_of(printed, found->second);
}

const Printed* last_of(const House& house, const std::string& item) {
  const auto last = std::ranges::find(house.printed.rbegin(), house.printed.rend(), item, &Printed::item);
  return last == house.printed.rend() ? nullptr : &*last;
}

std::vector<const Printed*> last_printed(const House& house) {
  std::vector<const Printed*> last;
  std::set<std::string> seen;
  for (auto printed = house.printed.rbegin(); printed != house.printed.rend(); ++printed)
    if (seen.insert(printed->item).second) last.push_back(&*printed);
  std::ranges::reverse(last);
  return last;
}

std::string command_text(const Words& words) {
  std::string text;
  for (const std::string& word : words) {
    const bool bare = !word.empty() && std::ranges::all_of(word, [](char c) { return plain(c) || c == '-' || c == '.' || c == ',' || c == '+' || c == ':' || c == '/'; });
    std::string quoted = "'";
    for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
    text += (text.empty() ? "" : " ") + (bare ? word : quoted + "'");
  }
  return text;
}

namespace {

std::string print_name(const Words& words) {
  std::string name;
  for (const std::string& word : words) {
    if (!name.empty() && name.back() != '-') name += '-';
    for (const char c : word) {
      if (plain(c)) name += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      else if (!name.empty() && name.back() != '-') name += '-';
    }
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  return name.substr(0, 80);
}

}  // namespace

std::vector<std::string> print_names(const std::vector<Words>& prints) {
  std::vector<std::string> names;
  for (const Words& words : prints) {
    const std::string first = print_name(words);
    std::string name = first;
    for (int number = 2; std::ranges::find(names, name) != names.end(); ++number) name = first + "-" + std::to_string(number);
    names.push_back(std::move(name));
  }
  return names;
}

}  // namespace ohmstead
