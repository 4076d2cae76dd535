#include "rules/circuit_phrases.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <set>

#include "rules/plain_words.h"

namespace ohmstead {

namespace {

constexpr std::array<std::string_view, 4> kGenericWords{"receptacle", "light", "alarm", "fan"};

/// One use of a circuit in one room: "counter receptacles (left of the sink)".
struct Use {
  std::string name;  ///< singular
  std::vector<const FedItem*> items;
};

std::string list(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (const std::string& part : parts) text.append(text.empty() ? "" : between).append(part);
  return text;
}

/// "Hall", "Hall & Stair", "Hall, Stair & Attic".
std::string named_together(const std::vector<std::string>& rooms) {
  std::string text;
  for (std::size_t i = 0; i < rooms.size(); ++i)
    text.append(i == 0 ? "" : i + 1 == rooms.size() ? " & " : ", ").append(rooms[i]);
  return text;
}

bool all_sure(const std::vector<const FedItem*>& items) {
  return std::ranges::all_of(items, [](const FedItem* item) { return item->sure; });
}

std::string generic_name(const FedItem& item) {
  return item.generic == Generic::named ? item.use : std::string(kGenericWords[static_cast<std::size_t>(item.generic)]);
}

/// "1, 2, 3, 5" as "1-3, 5"; texts that are no small numbers stay as they are.
std::string ranges(std::vector<std::string> numbers) {
  const auto value = [](const std::string& text) { return text.size() < 6 ? std::atoi(text.c_str()) : -1; };
  std::ranges::stable_sort(numbers, {}, value);
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t end = i + 1;
    while (end < numbers.size() && value(numbers[end - 1]) >= 0 && value(numbers[end]) == value(numbers[end - 1]) + 1) ++end;
    const bool run = end - i > 2;
    parts.push_back(run ? numbers[i] + "-" + numbers[end - 1] : numbers[i]);
    i = run ? end : i + 1;
  }
  return list(parts, ", ");
}

std::string use_text(const Use& use, Detail detail, bool many = false) {
  std::string text = many || use.items.size() > 1 ? plural(use.name) : use.name;
  std::vector<std::string> details;
  const bool every_place = std::ranges::none_of(use.items, [](const FedItem* item) { return item->place.empty(); });
  for (const FedItem* item : use.items) {
    if (detail == Detail::place && !every_place) break;  // one place is not the place of all
    const std::string& more = detail == Detail::place ? item->place : item->number;
    if (!more.empty() && std::ranges::find(details, more) == details.end()) details.push_back(more);
  }
  if (!all_sure(use.items)) text += '?';
  if (detail == Detail::none || details.empty()) return text;
  return detail == Detail::place ? text + " (" + list(details, ", ") + ")" : text + " " + ranges(details);
}

void add_use(std::vector<Use>& uses, const std::string& name, const FedItem& item) {
  const auto found = std::ranges::find(uses, name, &Use::name);
  if (found == uses.end()) uses.push_back({name, {&item}});
  else found->items.push_back(&item);
}

/// Rooms that are said in the same words are named together: "Hall & Stair lights".
struct Said {
  std::string uses;  ///< in the plural: "lights" even for one
  std::vector<std::string> rooms;
  bool all_of = false;
  std::string alone;  ///< the same for one room: "light"
};

void say(std::vector<Said>& said, const std::string& room, Said one) {
  for (Said& before : said) {
    if (before.uses != one.uses || before.all_of != one.all_of) continue;
    before.rooms.push_back(room);
    return;
  }
  one.rooms = {room};
  said.push_back(std::move(one));
}

std::string spoken(const std::vector<Said>& said) {
  std::vector<std::string> parts;
  for (const Said& one : said) {
    const std::string rooms = named_together(one.rooms);
    const std::string& uses = one.rooms.size() > 1 ? one.uses : one.alone;
    if (one.all_of) parts.push_back("all of " + rooms + uses);
    else if (holds_word(uses.substr(0, rooms.size()), rooms)) parts.push_back(uses);
    else parts.push_back(rooms + " " + uses);
  }
  return with_capital(list(parts, "; "));
}

using ByRoom = std::map<std::size_t, std::vector<const FedItem*>>;

ByRoom by_room(const std::vector<FedItem>& items) {
  ByRoom rooms;
  for (const FedItem& item : items) rooms[item.room].push_back(&item);
  return rooms;
}

/// Points of a room that the items stand for, halves of split receptacles counted one by one.
bool is_whole_room(const WordingFacts& facts, const std::vector<const FedItem*>& items) {
  std::set<std::size_t> points;
  for (const FedItem* item : items) points.insert(item->point);
  const auto& all = facts.house.points;
  for (std::size_t i = 0; i < all.size(); ++i)
    for (const FedItem* item : items)
      if (all[i].mate && all[i].mate == all[item->point].id && item->use.find("-half") == std::string::npos) points.insert(i);
  return points.size() > 1 && points.size() == facts.points_in_room[items.front()->room];
}

/// The use of an item as it is said beside the others of its room: a GFCI receptacle among plain
/// ones is one of the receptacles, unless numbers must tell them apart.
std::string use_beside(const FedItem& item, const std::vector<const FedItem*>& in_room, Detail detail) {
  const bool plain_too = std::ranges::any_of(in_room, [](const FedItem* other) { return other->use == "receptacle"; });
  const bool merged = item.use == "GFCI receptacle" && plain_too && detail != Detail::number;
  return merged ? "receptacle" : item.use;
}

std::string room_by_room(const WordingFacts& facts, const std::vector<FedItem>& items, Detail detail, int shorter) {
  std::vector<Said> said;
  for (const auto& [room, in_room] : by_room(items)) {
    if (shorter > 1 && is_whole_room(facts, in_room)) {
      const std::string sign = all_sure(in_room) ? "" : "?";
      say(said, facts.words.rooms[room], {sign, {}, true, sign});
      continue;
    }
    std::vector<Use> uses;
    for (const FedItem* item : in_room) add_use(uses, shorter > 0 ? generic_name(*item) : use_beside(*item, in_room, detail), *item);
    std::vector<std::string> many, alone;
    for (const Use& use : uses) many.push_back(use_text(use, detail, true)), alone.push_back(use_text(use, detail));
    say(said, facts.words.rooms[room], {list(many, ", "), {}, false, list(alone, ", ")});
  }
  return spoken(said);
}

/// Is every point of this kind on the floor among the items?
bool is_whole_floor(const WordingFacts& facts, const Use& use, std::size_t floor) {
  const Generic generic = use.items.front()->generic;
  if (generic == Generic::named) return false;
  constexpr std::array kKinds{PointKind::receptacle, PointKind::light, PointKind::alarm, PointKind::fan};
  std::size_t there = 0;
  for (std::size_t i = 0; i < facts.house.points.size(); ++i)
    there += facts.room_of[i] < facts.house.rooms.size() && facts.floor_of_room[facts.room_of[i]] == floor &&
             facts.house.points[i].kind == kKinds[static_cast<std::size_t>(generic)];
  const auto here = std::ranges::count_if(use.items, [&](const FedItem* item) { return facts.floor_of_room[item->room] == floor; });
  std::set<std::size_t> rooms;
  for (const FedItem* item : use.items)
    if (facts.floor_of_room[item->room] == floor) rooms.insert(item->room);
  return rooms.size() > 1 && static_cast<std::size_t>(here) == there;
}

/// "all Upper floor lights", then the rooms left over: at most `most`, the rest as a number.
std::string places_of(const WordingFacts& facts, const Use& use, std::size_t most) {
  const auto points_there = [&](const FedItem* item) { return std::ranges::count(use.items, item->room, [](const FedItem* i) { return i->room; }); };
  std::vector<std::string> floors, rooms;
  for (std::size_t floor = 0; floor < facts.house.floors.size(); ++floor)
    if (is_whole_floor(facts, use, floor)) floors.push_back(facts.words.floors[floor]);
  std::vector<const FedItem*> items = use.items;
  std::ranges::stable_sort(items, std::ranges::greater{}, points_there);
  for (const FedItem* item : items) {
    const std::size_t floor = facts.floor_of_room[item->room];
    const bool covered = floor < facts.house.floors.size() && is_whole_floor(facts, use, floor);
    const std::string& room = facts.words.rooms[item->room];
    if (!covered && std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
  }
  if (rooms.size() > std::max<std::size_t>(most, 1)) {
    const std::size_t more = rooms.size() - most;
    rooms.resize(most);
    rooms.push_back(std::to_string(more) + (most == 0 ? " rooms" : more == 1 ? " more room" : " more rooms"));
  }
  for (std::string& floor : floors) floor = "all " + floor;
  floors.insert(floors.end(), rooms.begin(), rooms.end());
  return list(floors, ", ");
}

std::string use_by_use(const WordingFacts& facts, const std::vector<FedItem>& items, std::size_t most) {
  std::vector<Use> uses;
  for (const FedItem& item : items) add_use(uses, generic_name(item), item);
  std::vector<Said> said;
  for (const Use& use : uses) {
    const std::string places = places_of(facts, use, most);
    say(said, use_text(use, Detail::none), {places, {}, false, places});
  }
  std::vector<std::string> parts;
  for (const Said& one : said) {
    const std::string things = list(one.rooms, ", ");
    const bool one_floor = one.uses.starts_with("all ") && one.uses.find(", ") == std::string::npos;
    parts.push_back(one_floor ? one.uses + " " + things : things + " in " + one.uses);
  }
  return with_capital(list(parts, "; "));
}

/// The items of each kind, in the order of Generic, and a kind in words: "lights", "2 appliances".
using ByKind = std::array<std::vector<const FedItem*>, 5>;

ByKind by_kind(const std::vector<FedItem>& items) {
  ByKind kinds;
  for (const FedItem& item : items) kinds[static_cast<std::size_t>(item.generic)].push_back(&item);
  return kinds;
}

std::string kind_text(const std::vector<const FedItem*>& of_kind) {
  const auto kind = static_cast<std::size_t>(of_kind.front()->generic);
  const bool generic = kind < kGenericWords.size();
  const std::string noun = generic ? std::string(kGenericWords[kind]) : "appliance";
  return (generic ? "" : std::to_string(of_kind.size()) + " ") + (of_kind.size() > 1 ? plural(noun) : noun) + (all_sure(of_kind) ? "" : "?");
}

/// "Receptacles, lights, 2 appliances in 5 rooms", or without the uses "14 points in 5 rooms".
std::string summary(const WordingFacts& facts, const std::vector<FedItem>& items, bool with_uses) {
  std::set<std::size_t> rooms;
  std::vector<const FedItem*> all;
  for (const FedItem& item : items) all.push_back(&item), rooms.insert(item.room);
  const std::string where = rooms.size() == 1 ? facts.words.rooms[*rooms.begin()] : std::to_string(rooms.size()) + " rooms";
  if (!with_uses)
    return std::to_string(items.size()) + (items.size() == 1 ? " point in " : " points in ") + where + (all_sure(all) ? "" : "?");
  std::vector<std::string> texts;
  for (const auto& of_kind : by_kind(items))
    if (!of_kind.empty()) texts.push_back(kind_text(of_kind));
  return with_capital(list(texts, ", ") + " in " + where);
}

/// The kind with the most points with a room named, the others after it: "Lights in Kitchen, 3 more
/// rooms; fan, 2 appliances".
std::string led_by_most(const WordingFacts& facts, const std::vector<FedItem>& items) {
  const ByKind kinds = by_kind(items);
  const auto most = std::max_element(kinds.begin(), kinds.end() - 1, [](const auto& a, const auto& b) { return a.size() < b.size(); });
  if (most->empty()) return summary(facts, items, true);
  std::vector<std::string> others;
  for (auto kind = kinds.begin(); kind != kinds.end(); ++kind)
    if (kind != most && !kind->empty()) others.push_back(kind_text(*kind));
  const std::string places = places_of(facts, {"", *most}, 1), things = kind_text(*most);
  const bool one_floor = places.starts_with("all ") && places.find(", ") == std::string::npos;
  const std::string lead = one_floor ? places + " " + things : things + " in " + places;
  return with_capital(lead + (others.empty() ? "" : "; " + list(others, ", ")));
}

}  // namespace

std::vector<std::string> phrasings(const WordingFacts& facts, const std::vector<FedItem>& items, Detail detail) {
  std::vector<std::string> texts;
  if (items.empty()) return texts;
  const bool sure = std::ranges::all_of(items, &FedItem::sure);
  for (const int shorter : {0, 1}) texts.push_back(room_by_room(facts, items, detail, shorter));
  texts.push_back(room_by_room(facts, items, Detail::none, 2));
  for (const std::size_t most : {3u, 2u, 1u, 0u}) texts.push_back(use_by_use(facts, items, most));
  if (by_room(items).size() > 1) texts.push_back(led_by_most(facts, items));
  texts.push_back(summary(facts, items, true));
  texts.push_back(summary(facts, items, false));
  texts.push_back(std::to_string(items.size()) + (items.size() > 1 ? " points" : " point") + (sure ? "" : "?"));
  return texts;
}

}  // namespace ohmstead
