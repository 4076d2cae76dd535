// Lists of points and how sure a feed is, as parts of sentences.

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <map>
#include <optional>

#include "ask/answer_words.h"
#include "house/index.h"

namespace ohmstead {

namespace {

struct NumberedName {
  std::string stem;  ///< "receptacle"
  int number = 0;
};

/// "receptacle 3" -> receptacle, 3; nothing for a name without a number of 1..999 at its end.
std::optional<NumberedName> numbered(const std::string& name) {
  const auto space = name.rfind(' ');
  if (space == std::string::npos) return std::nullopt;
  int number = 0;
  const auto [end, fault] = std::from_chars(name.data() + space + 1, name.data() + name.size(), number);
  if (fault != std::errc{} || end != name.data() + name.size() || number < 1 || number > 999) return std::nullopt;
  return NumberedName{name.substr(0, space), number};
}

/// 1,2,3,5 -> "1-3, 5"
std::string number_ranges(const std::vector<int>& numbers) {
  std::string text;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t j = i;
    while (j + 1 < numbers.size() && numbers[j + 1] == numbers[j] + 1) ++j;
    text += (text.empty() ? "" : ", ") + std::to_string(numbers[i]);
    if (j > i) text += "-" + std::to_string(numbers[j]);
    i = j + 1;
  }
  return text;
}

}  // namespace

std::string names_in_short(const std::vector<std::string>& names) {
  std::vector<std::string> stems;
  std::map<std::string, std::vector<int>> numbers;
  for (const std::string& name : names) {
    const auto split = numbered(name);
    const std::string stem = split ? split->stem + " " : name;
    if (std::ranges::find(stems, stem) == stems.end()) stems.push_back(stem);
    if (split) numbers[stem].push_back(split->number);
  }
  std::string text;
  for (const std::string& stem : stems) {
    text += text.empty() ? "" : ", ";
    auto found = numbers.find(stem);
    if (found == numbers.end()) {
      text += stem;
      continue;
    }
    std::ranges::sort(found->second);
    const bool many = found->second.size() > 1;
    text += (many ? stem.substr(0, stem.size() - 1) + "s " : stem) + number_ranges(found->second);
  }
  return text;
}

std::vector<std::string> points_by_room(const House& house, const std::vector<std::size_t>& points) {
  std::vector<std::string> items;
  for (const Room& room : house.rooms) {
    std::vector<std::string> names;
    for (const std::size_t p : points)
      if (house.points[p].room == room.id) names.push_back(house.points[p].name);
    if (!names.empty()) items.push_back(room.name + ": " + names_in_short(names));
  }
  return items;
}

std::string points_in_line(const House& house, const std::vector<std::size_t>& points) {
  std::vector<std::string> names;
  for (const std::size_t p : points) {
    const Room* room = find_row(house, house.points[p].room);
    names.push_back((room == nullptr ? "" : room->name + " ") + house.points[p].name);
  }
  return joined(names);
}

std::string standing_words(const House& house, std::size_t point, const Feed& feed) {
  char belief[16];
  std::snprintf(belief, sizeof belief, "%.0f %%", feed.belief * 100);
  switch (feed.standing) {
    case Standing::proved: return "proved: seen dead with it off and live with it on";
    case Standing::likely: return std::string("likely, not proved (") + belief + ")";
    case Standing::disputed: return "disputed: what was seen contradicts itself";
    case Standing::open: return "not traced yet";
    case Standing::declared: break;
  }
  const Id<Device> outer = outermost_device(house, house.points[point].behind);
  for (const DeclaredFeed& declared : house.declared_feeds)
    if ((declared.point == house.points[point].id || (outer && declared.device == outer)) && !declared.who.empty())
      return "declared by " + declared.who + ", not tested";
  return "declared, not tested";
}

}  // namespace ohmstead
