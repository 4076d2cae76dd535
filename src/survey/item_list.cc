// From a room line to its items: commas, glued counts and templates.

#include <algorithm>

#include "survey/draft.h"
#include "survey/entry.h"
#include "survey/item.h"

namespace ohmstead::entry_detail {

namespace {

constexpr std::size_t kMostItems = 500;

/// Words of one part of a glued count: "4r", "1lsw", "3w"; empty if it is none.
std::vector<Word> spelled_out(const std::string& count, std::string rest) {
  if (rest == "w" && (count == "3" || count == "4")) return {{count + rest}};
  if (rest == "g") return {{count}, {"gfci"}};
  if (rest == "sp") return {{count}, {"split"}, {"receptacle"}};
  if (rest == "hh") return {{count}, {"half-hot"}, {"receptacle"}};
  const bool switched = find_short_kind(rest) == nullptr && rest.ends_with("sw");
  if (switched) rest.resize(rest.size() - 2);
  const KindWord* kind = find_short_kind(rest);
  if (kind == nullptr) return {};
  std::vector<Word> words{{count}};
  for (const std::string& part : split(kind->name, " ")) words.push_back({part});
  if (switched) words.push_back({"sw"});
  return words;
}

/// "4r2l" as its parts, each spelled out; empty unless all of the word is such parts.
std::vector<std::vector<Word>> parts_of(const Word& word) {
  std::vector<std::vector<Word>> parts;
  std::string text = word.quoted ? "" : word.lower();
  while (!text.empty()) {
    const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
    const std::size_t end = std::min(text.find_first_of("0123456789", digits), text.size());
    parts.push_back(digits == 0 ? std::vector<Word>() : spelled_out(text.substr(0, digits), text.substr(digits, end - digits)));
    if (parts.back().empty()) return {};
    text.erase(0, end);
  }
  return parts;
}

/// One item between commas as one or more, each glued count beginning a new one.
std::vector<std::vector<Word>> unglued(const std::vector<Word>& words) {
  std::vector<std::vector<Word>> items(1);
  for (const Word& word : words) {
    std::vector<std::vector<Word>> parts = parts_of(word);
    if (parts.empty()) parts = {{word}};
    for (const std::vector<Word>& part : parts) {
      const bool after_plus = !items.back().empty() && items.back().back().is("+");
      if (part.size() > 1 && !items.back().empty() && !after_plus) items.emplace_back();
      items.back().insert(items.back().end(), part.begin(), part.end());
    }
  }
  return items;
}

/// What is fed by what was said of one room; it is not true of a copy.
std::vector<ItemSpec> copy_of(std::vector<ItemSpec> items) {
  for (ItemSpec& item : items) item.declared = {};
  return items;
}

std::vector<ItemSpec> items_of_template(const Draft& draft, const std::string& name) {
  if (name.empty() && !template_for_room(draft.room_name).empty())
    return parse_items(draft, std::string(*template_items(template_for_room(draft.room_name))));
  if (const auto own = draft.templates.find(lower(name)); own != draft.templates.end()) return own->second;
  if (const auto room = draft.written.find(name); room != draft.written.end()) return copy_of(room->second);
  if (const auto known = template_items(lower(name))) return parse_items(draft, std::string(*known));
  for (const auto& [room, items] : draft.written)
    if (lower(room) == lower(name)) return copy_of(items);
  if (name.empty())
    draft.fail("no template suits the name " + shown(draft.room_name) + "; say which one, as in '=bedroom', or what is in the room; known are " +
               template_names() + ", and your own.");
  draft.fail("there is no template or room " + shown("=" + name) + "; known are " + template_names() +
             ", your own, and the rooms on lines above.");
}

void take_away(const Draft& draft, std::vector<ItemSpec>& items, const std::vector<Word>& words) {
  const std::vector<Word> what(words.begin() + 1, words.end());
  const ItemSpec gone = parse_item(draft, what);
  const auto same = [&](const ItemSpec& item) {
    return lower(item.name) == lower(gone.name) || (item.kind != nullptr && item.kind == gone.kind && item.name.ends_with(gone.name));
  };
  if (std::erase_if(items, same) == 0)
    draft.fail("there is nothing to take away for 'no " + joined(what, 0, what.size()) + "'; it must be in a template before it.");
}

/// "=bath + heater 1500 W": the template, and what is joined to it.
void add_template(const Draft& draft, std::vector<ItemSpec>& items, const std::string& text) {
  std::vector<std::string> parts = split(std::string_view(text).substr(1), "+");
  std::ranges::copy(items_of_template(draft, parts.front()), std::back_inserter(items));
  for (std::size_t i = 1; i < parts.size(); ++i)
    if (!parts[i].empty())
      for (const std::vector<Word>& words : unglued(words_of(draft.line, parts[i], "+")))
        if (!words.empty()) items.push_back(parse_item(draft, words));
}

}  // namespace

std::vector<ItemSpec> parse_items(const Draft& draft, const std::string& text) {
  std::vector<ItemSpec> items;
  for (const std::string& part : split(text, ",\n")) {
    if (part.empty()) continue;
    std::string item = part;
    while (item.starts_with('+')) item = trimmed(std::string_view(item).substr(1));
    if (item.starts_with('=')) {
      add_template(draft, items, item);
    } else {
      for (const std::vector<Word>& words : unglued(words_of(draft.line, item, "+"))) {
        if (words.empty()) continue;
        if (words.size() > 1 && words.front().is("no")) take_away(draft, items, words);
        else items.push_back(parse_item(draft, words));
      }
    }
    if (items.size() > kMostItems) draft.fail("there are more than " + std::to_string(kMostItems) + " items on one line.");
  }
  return items;
}

}  // namespace ohmstead::entry_detail
