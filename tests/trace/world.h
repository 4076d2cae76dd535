#pragma once
// One invented house with its truth, as plain values, and the file that such houses are kept in.
//
// The file is a JSON array of houses. What may be left out has its value in brackets.
//   seed, kind ["ordinary"]   number of the house; a word of WorldKind
//   system ["split_phase_120_240"]   a word of VoltageSystem
//   floors, panel_room        storeys above the ground; room of the main panel
//   rooms[]      id, name, type, floor (-1 basement, 0 ground, ...)
//   walk_s[r][k] walking seconds between rooms, the shortest way, the same both ways
//   adjacent[]   pairs of rooms that share a wall
//   subpanels[] [none]        room, fed_by (a breaker of a panel before it)
//   breakers[]   id, slot, poles, amps, only_alone (may be off only with no other off, 300 s at most),
//                label (words of the old directory, or null), panel [0] (0 the main one, 1 the first subpanel)
//   points[]     id, room, class (a word of PointClass), kind, volts, check_s (seconds of one look),
//                mate [none] (the other half of a split receptacle)
//   truth        breaker_of_point[] (-1: not on these panels), dead_at_start[] (0 live; 1 dead, comes alive
//                by a wall switch, a reset or another lamp; 2 dead for good), stray[] (1: on a surprising
//                circuit), label_status[] (none, right, vague or stale, by breaker)
// Ids are places in their lists. Slots are numbered down one column: a breaker of two poles takes
// its slot and the next. Other fields are passed over.

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "house/enum_text.h"
#include "house/voltage.h"

namespace ohmstead::test {

/// What kind of house it is (tests/trace/world_maker.h says how each is made).
enum class WorldKind {
  ordinary, labels_wrong, no_labels, no_locality, few_circuits, two_panels, single_phase_230, tiny, big
};
OHMSTEAD_WORDS(WorldKind, "ordinary", "labels_wrong", "no_labels", "no_locality", "few_circuits", "two_panels",
               "single_phase_230", "tiny", "big")

enum class PointClass { light, receptacle, smoke_alarm, appliance, two_hots };
OHMSTEAD_WORDS(PointClass, "light", "receptacle", "smoke_alarm", "appliance", "240v")

enum class LabelStatus { none, right, vague, stale };
OHMSTEAD_WORDS(LabelStatus, "none", "right", "vague", "stale")

enum class AtStart { live, dead_until_repaired, dead_for_good };

struct WorldRoom {
  std::string name, type;
  int floor = 0;
  bool operator==(const WorldRoom&) const = default;
};

struct WorldBreaker {
  int slot = 1, poles = 1, amps = 15;
  bool only_alone = false;
  std::string label;  ///< empty: none
  int panel = 0;
  LabelStatus label_status = LabelStatus::none;
  bool operator==(const WorldBreaker&) const = default;
};

struct Subpanel {
  int room = 0, fed_by = 0;
  bool operator==(const Subpanel&) const = default;
};

struct WorldPoint {
  int room = 0;
  PointClass is = PointClass::receptacle;
  std::string kind;
  int volts = 120;
  double check_s = 8;
  int mate = -1;  ///< -1: none
  // Its truth.
  int breaker = -1;  ///< -1: not on these panels
  AtStart at_start = AtStart::live;
  bool stray = false;
  bool operator==(const WorldPoint&) const = default;
};

struct World {
  unsigned seed = 0;
  WorldKind kind = WorldKind::ordinary;
  VoltageSystem system = VoltageSystem::split_phase_120_240;
  int floors = 1, panel_room = 0;
  std::vector<WorldRoom> rooms;
  std::vector<std::vector<double>> walk_s;
  std::vector<std::pair<int, int>> adjacent;
  std::vector<Subpanel> subpanels;
  std::vector<WorldBreaker> breakers;
  std::vector<WorldPoint> points;
  bool operator==(const World&) const = default;
};

/// Room of the panel that a breaker is in.
[[nodiscard]] int panel_room_of(const World& world, int breaker);
/// Does it feed a subpanel?
[[nodiscard]] bool is_feeder(const World& world, int breaker);
/// Does this point go dead when that breaker is opened, directly or through a subpanel?
[[nodiscard]] bool goes_dead_with(const World& world, const WorldPoint& point, int breaker);

/// What cannot be true of a house, as one sentence; empty when all is well: a room, breaker or point that
/// is named and not there, walks that differ by direction or are longer than a way through another
/// room, two breakers in one slot, two hots on one pole, mates that do not name each other.
[[nodiscard]] std::string fault_of(const World& world);

/// Throws Error{invalid_input} when a field is missing or of the wrong type, or fault_of finds one.
[[nodiscard]] World read_world(const nlohmann::json& json);
[[nodiscard]] nlohmann::json write_world(const World& world);

/// A whole file, as its text. Throws as above; `name` says in the message which file it is.
[[nodiscard]] std::vector<World> read_worlds(std::string_view text, const std::string& name);
/// One house a line.
[[nodiscard]] std::string write_worlds(std::span<const World> worlds);

}  // namespace ohmstead::test
