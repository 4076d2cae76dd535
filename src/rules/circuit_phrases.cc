#include "rules/circuit_phrases.h"

#include <algorithm>
#include <array>
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

bool all_sure(const std::vector<const FedItem*>& items) {
  return std::ranges::all_of(items, [](const FedItem* item) { return item->sure; });
}

std::string generic_name(const FedItem& item) {
  return item.generic == Generic::named ? item.use : std::string(kGenericWords[static_cast<std::size_t>(item.generic)]);
}

std::string use_text(const Use& use, Detail detail) {
  std::string text = use.items.size() > 1 ? plural(use.name) : use.name;
  std::vector<std::string> details;
  for (const FedItem* item : use.items) {
    const std::string& more = detail == Detail::place ? item->place : item->number;
    if (!more.empty() && std::ranges::find(details, more) == details.end()) details.push_back(more);
  }
  if (!all_sure(use.items)) text += '?';
  if (detail == Detail::none || details.empty()) return text;
  return detail == Detail::place ? text + " (" + list(details, ", ") + ")" : text + " " + list(details, ", ");
}

void add_use(std::vector<Use>& uses, const std::string& name, const FedItem& item) {
  const auto found = std::ranges::find(uses, name, &Use::name);
  if (found == uses.end()) uses.push_back({name, {&item}});
  else found->items.push_back(&item);
}

/// Rooms that are said in the same words are named together: "Hall & Stair lights".
struct Said {
  std::string uses;
  std::vector<std::string> rooms;
  bool all_of = false;
};

void say(std::vector<Said>& said, const std::string& room, const std::string& uses, bool all_of) {
  for (Said& before : said) {
    if (before.uses != uses || before.all_of != all_of) continue;
    before.rooms.push_back(room);
    return;
  }
  said.push_back({uses, {room}, all_of});
}

std::string spoken(const std::vector<Said>& said) {
  std::vector<std::string> parts;
  for (const Said& one : said) {
    const std::string rooms = list(one.rooms, " & ");
    if (one.all_of) parts.push_back("all of " + rooms + one.uses);
    else if (one.rooms.size() == 1 && holds_word(one.uses.substr(0, rooms.size()), rooms)) parts.push_back(one.uses);
    else parts.push_back(rooms + " " + one.uses);
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

std::string room_by_room(const WordingFacts& facts, const std::vector<FedItem>& items, Detail detail, int shorter) {
  std::vector<Said> said;
  for (const auto& [room, in_room] : by_room(items)) {
    if (shorter > 1 && is_whole_room(facts, in_room)) {
      say(said, facts.words.rooms[room], all_sure(in_room) ? "" : "?", true);
      continue;
    }
    std::vector<Use> uses;
    for (const FedItem* item : in_room) add_use(uses, shorter > 0 ? generic_name(*item) : item->use, *item);
    std::vector<std::string> texts;
    for (const Use& use : uses) texts.push_back(use_text(use, detail));
    say(said, facts.words.rooms[room], list(texts, ", "), false);
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
  std::vector<std::string> floors, rooms;
  for (std::size_t floor = 0; floor < facts.house.floors.size(); ++floor)
    if (is_whole_floor(facts, use, floor)) floors.push_back(facts.words.floors[floor]);
  for (const FedItem* item : use.items) {
    const std::size_t floor = facts.floor_of_room[item->room];
    const bool covered = floor < facts.house.floors.size() && is_whole_floor(facts, use, floor);
    const std::string& room = facts.words.rooms[item->room];
    if (!covered && std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
  }
  if (rooms.size() > most) {
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
  for (const Use& use : uses) say(said, use_text(use, Detail::none), places_of(facts, use, most), false);
  std::vector<std::string> parts;
  for (const Said& one : said) parts.push_back(list(one.rooms, ", ") + " in " + one.uses);
  return with_capital(list(parts, "; "));
}

/// "Receptacles, lights, 2 appliances in 5 rooms", or without the uses "14 points in 5 rooms".
std::string summary(const WordingFacts& facts, const std::vector<FedItem>& items, bool with_uses) {
  std::array<std::vector<const FedItem*>, 5> kinds;
  std::set<std::size_t> rooms;
  std::vector<const FedItem*> all;
  for (const FedItem& item : items) {
    kinds[static_cast<std::size_t>(item.generic)].push_back(&item);
    all.push_back(&item);
    rooms.insert(item.room);
  }
  const std::string where = rooms.size() == 1 ? facts.words.rooms[*rooms.begin()] : std::to_string(rooms.size()) + " rooms";
  if (!with_uses)
    return std::to_string(items.size()) + (items.size() == 1 ? " point in " : " points in ") + where + (all_sure(all) ? "" : "?");
  std::vector<std::string> texts;
  for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
    const auto& of_kind = kinds[kind];
    if (of_kind.empty()) continue;
    const std::string noun = kind < kGenericWords.size() ? std::string(kGenericWords[kind]) : "appliance";
    const std::string count = kind < kGenericWords.size() ? "" : std::to_string(of_kind.size()) + " ";
    texts.push_back(count + (of_kind.size() > 1 ? plural(noun) : noun) + (all_sure(of_kind) ? "" : "?"));
  }
  return with_capital(list(texts, ", ") + " in " + where);
}

}  // namespace

std::vector<std::string> phrasings(const WordingFacts& facts, const std::vector<FedItem>& items, Detail detail) {
  std::vector<std::string> texts;
  if (items.empty()) return texts;
  for (const int shorter : {0, 1}) texts.push_back(room_by_room(facts, items, detail, shorter));
  texts.push_back(room_by_room(facts, items, Detail::none, 2));
  for (const std::size_t most : {3u, 2u, 1u, 0u}) texts.push_back(use_by_use(facts, items, most));
  texts.push_back(summary(facts, items, true));
  texts.push_back(summary(facts, items, false));
  return texts;
}

}  // namespace ohmstead
