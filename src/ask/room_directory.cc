#include "ask/room_directory.h"

#include <algorithm>

#include "ask/answer_words.h"
#include "ask/fed_words.h"
#include "house/index.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/wording.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLongestFloorName = 24;
constexpr const char* kNotFound = "not found yet";

/// Points of one room with the same feed, while they are gathered.
struct Group {
  RoomDirectoryRow row;
  std::vector<std::string> names;
};

RoomDirectoryRow row_of(const FedWords& fed) {
  if (fed.numbers.empty()) return {"", kNotFound, "", ""};
  return {"", fed.numbers + fed.sign, fed.panels, fed.mark.empty() || fed.mark == "none" ? fed.mark : fed.mark + fed.sign + (fed.found_wrong ? "!" : "")};
}

std::string name_in_room(const Point& point, std::size_t place) {
  const std::string name = label_name(point.name, kLongestPointName);
  return name.empty() ? std::string(text_of(point.kind)) + " " + std::to_string(place + 1) : name;
}

/// "receptacle 1" for "receptacle 1 upper" and "receptacle 1 lower", where both stand in the list and nothing else has that name.
std::vector<std::string> with_halves_joined(const std::vector<std::string>& names) {
  constexpr std::string_view kUpper = " upper", kLower = " lower";
  const auto has = [&](const std::string& name) { return std::ranges::count(names, name) == 1; };
  const auto joined = [&](const std::string& base) { return has(base + std::string(kUpper)) && has(base + std::string(kLower)) && std::ranges::count(names, base) == 0; };
  std::vector<std::string> made;
  for (const std::string& name : names) {
    const std::string base = name.ends_with(kUpper) || name.ends_with(kLower) ? name.substr(0, name.size() - kUpper.size()) : "";
    if (base.empty() || !joined(base)) made.push_back(name);
    else if (std::ranges::find(made, base) == made.end()) made.push_back(base);
  }
  return made;
}

bool same_feed(const RoomDirectoryRow& a, const RoomDirectoryRow& b) { return a.breaker == b.breaker && a.panel == b.panel && a.backup == b.backup; }

std::string floor_words(const House& house, const Room& room) {
  const Floor* floor = find_row(house, room.floor);
  if (floor == nullptr) return {};
  const std::string name = label_name(floor->name, kLongestFloorName), building = label_name(floor->building, kLongestFloorName);
  if (name == building) return name == label_name(room.name, kLongestFloorName) ? "" : name;
  return name + (name.empty() || building.empty() ? "" : ", ") + building;
}

void add_key(const House& house, RoomDirectory& directory) {
  bool unsure = false, missing = false, none = false, wrong = false;
  std::string marks;
  for (const RoomDirectoryPart& part : directory.parts)
    for (const RoomDirectoryRow& row : part.rows) {
      unsure = unsure || row.breaker.ends_with('?');
      missing = missing || row.breaker == kNotFound;
      none = none || row.backup == "none";
      wrong = wrong || row.backup.ends_with('!');
      if (!row.backup.empty() && row.backup != "none") marks += row.backup + " ";
    }
  if (missing) directory.key.emplace_back("Not found yet: it may be live whatever is switched off.");
  if (unsure) directory.key.emplace_back("?: not proved yet, may be wrong.");
  if (wrong) directory.key.emplace_back("!: proving found the wiring of this position wrong: do not use it.");
  for (const TransferDevice& device : house.transfer_devices) {
    const std::string letter(1, mark_letter(house, device.id));
    if (marks.find(letter) != std::string::npos) directory.key.push_back(letter + "1: on backup by position 1 of " + transfer_device_text(house, device.id) + ".");
  }
  if (none) directory.key.emplace_back("None: nothing carries it in an outage.");
}

}  // namespace

RoomDirectory room_directory(const Record& record) {
  const House& house = record.house;
  const RoomWords words = room_words(house);
  const PositionProofs proofs = position_proofs(record);
  RoomDirectory directory;
  directory.several_panels = house.panels.size() > 1;
  std::vector<std::vector<Group>> by_room(house.rooms.size());
  const Index<Room> room_at(house.rooms);
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const long at = room_at.at(house.points[p].room);
    if (at < 0) continue;
    std::vector<Group>& groups = by_room[static_cast<std::size_t>(at)];
    RoomDirectoryRow row = row_of(fed_words(record, proofs, p));
    auto group = std::ranges::find_if(groups, [&](const Group& one) { return same_feed(one.row, row); });
    if (group == groups.end()) group = groups.insert(groups.end(), Group{std::move(row), {}});
    group->names.push_back(name_in_room(house.points[p], p));
  }
  for (std::size_t r = 0; r < by_room.size(); ++r) {
    if (by_room[r].empty()) continue;
    RoomDirectoryPart part{words.rooms[r], floor_words(house, house.rooms[r]), {}};
    for (Group& group : by_room[r]) {
      group.row.what = with_capital(names_in_short(with_halves_joined(group.names)));
      directory.has_backup = directory.has_backup || !group.row.backup.empty();
      part.rows.push_back(std::move(group.row));
    }
    directory.parts.push_back(std::move(part));
  }
  add_key(house, directory);
  return directory;
}

std::vector<std::string> text_of(const RoomDirectory& directory) {
  std::vector<std::string> lines;
  for (const RoomDirectoryPart& part : directory.parts)
    for (const RoomDirectoryRow& row : part.rows) {
      std::string line = part.room + ", " + without_capital(row.what) + ", ";
      line += row.breaker == kNotFound ? std::string("breaker not found yet") : "breaker " + row.breaker + (directory.several_panels ? " (" + row.panel + ")" : "");
      if (!row.backup.empty()) line += row.backup == "none" ? ", not on backup" : ", backup " + row.backup;
      lines.push_back(line + ".");
    }
  lines.insert(lines.end(), directory.key.begin(), directory.key.end());
  return lines;
}

}  // namespace ohmstead
