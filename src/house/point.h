#pragma once
// Points (where equipment meets the fixed wiring), what is plugged or wired in at them, and the
// switching devices that stand between a breaker and a point.

#include <optional>
#include <string>

#include "house/enum_text.h"
#include "house/id.h"

namespace ohmstead {

struct Room;
struct Box;
struct Device;

enum class PointKind { receptacle, light, appliance, alarm, fan, other };
OHMSTEAD_WORDS(PointKind, "receptacle", "light", "appliance", "alarm", "fan", "other")

/// One half of a split receptacle is a point of its own.
enum class ReceptacleHalf { both, upper, lower };
OHMSTEAD_WORDS(ReceptacleHalf, "both", "upper", "lower")

/// Where equipment meets the fixed wiring. Its name is unique in its room.
struct Point {
  static constexpr const char* kTable = "point";
  Id<Point> id;
  Id<Room> room;
  Id<Box> box;        ///< none: not recorded
  std::string name;   ///< 'receptacle 3', 'dishwasher', 'ceiling light'
  std::string place;  ///< 'left of the sink'; may be empty
  PointKind kind = PointKind::receptacle;
  ReceptacleHalf half = ReceptacleHalf::both;
  Id<Point> mate;     ///< the other half of the same split receptacle
  int hots = 1;       ///< hot conductors it needs: 1 (120 or 230 V to neutral), 2 (between legs), 3
  Id<Device> behind;  ///< nearest switching device between it and its breaker; none: directly on the circuit
  int rating_amps = 0;  ///< of a receptacle: what is stamped on its face, 0..100; 0: not recorded
  bool operator==(const Point&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("room", s.room), f("box", s.box), f("name", s.name), f("place", s.place), f("kind", s.kind),
        f("half", s.half), f("mate", s.mate), f("hots", s.hots), f("behind", s.behind), f("rating_amps", s.rating_amps);
  }
};

/// Amperes that receptacles of a house are made for (NEMA WD 6, from memory).
[[nodiscard]] constexpr bool is_receptacle_rating(double amps) { return amps == 15 || amps == 20 || amps == 30 || amps == 50 || amps == 60; }

/// How much it matters that a load keeps running in an outage.
enum class Importance { normal, low, high, life_safety };
OHMSTEAD_WORDS(Importance, "normal", "low", "high", "life_safety")

/// Where a load's figures come from.
enum class FigureBasis { guess, table, nameplate, measured };
OHMSTEAD_WORDS(FigureBasis, "guess", "table", "nameplate", "measured")

/// How a load is wanted in an outage.
enum class LoadUse {
  not_said,    ///< wanted together with the others if its importance is high or life_safety, else not wanted
  together,    ///< must be able to run together with the others
  on_demand,   ///< switched on by a person, one such load at a time
  not_wanted,
};
OHMSTEAD_WORDS(LoadUse, "not_said", "together", "on_demand", "not_wanted")

/// What is plugged or wired in at a point.
struct Load {
  static constexpr const char* kTable = "load";
  Id<Load> id;
  Id<Point> point;
  std::string name;
  std::optional<int> running_watts;   ///< 0 or more
  std::optional<int> starting_watts;  ///< not less than running_watts
  std::optional<int> duty_percent;    ///< share of the time it runs, 0..100
  Importance importance = Importance::normal;
  bool hurt_by_power_loss = false;  ///< a sudden loss damages it or somebody: oxygen, server, freezer
  FigureBasis basis = FigureBasis::guess;
  LoadUse use = LoadUse::not_said;
  bool continuous = false;     ///< runs for three hours or more: a breaker must be rated for 125 % of it
  bool starts_itself = false;  ///< a thermostat, float or pressure switch starts it at any time
  std::optional<int> power_factor_percent;  ///< 1..100
  int horsepower_hundredths = 0;  ///< of a motor; 0: not known or none
  std::string code_letter;        ///< NEMA code letter of a motor, one capital; empty: not known
  int full_load_deciamps = 0;     ///< full-load current from the nameplate; 0: not known
  std::optional<int> longest_off_min;  ///< longest it may be without power; none: not known
  bool operator==(const Load&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("point", s.point), f("name", s.name), f("running_watts", s.running_watts),
        f("starting_watts", s.starting_watts), f("duty_percent", s.duty_percent), f("importance", s.importance),
        f("hurt_by_power_loss", s.hurt_by_power_loss), f("basis", s.basis), f("use", s.use),
        f("continuous", s.continuous), f("starts_itself", s.starts_itself),
        f("power_factor_percent", s.power_factor_percent), f("horsepower_hundredths", s.horsepower_hundredths),
        f("code_letter", s.code_letter), f("full_load_deciamps", s.full_load_deciamps),
        f("longest_off_min", s.longest_off_min);
  }
};

enum class DeviceKind {
  wall_switch,      ///< one handle; or a group of two (3-way pair) or more (4-way in between)
  gfci_receptacle,  ///< its own contact protects its face and what is downstream
  disconnect,       ///< at an appliance or building; may serve for isolation
};
OHMSTEAD_WORDS(DeviceKind, "wall_switch", "gfci_receptacle", "disconnect")

/// A switching device between a breaker and points: its supply comes from the circuit, or from
/// another device it stands behind; points and devices with `behind` naming it are downstream.
struct Device {
  static constexpr const char* kTable = "device";
  Id<Device> id;
  DeviceKind kind = DeviceKind::wall_switch;
  std::string name;
  Id<Device> behind;
  Id<Point> at_point;  ///< gfci_receptacle: the receptacle it is in (that point is downstream too)
  int poles = 1;       ///< hot conductors it switches, 1..3
  bool operator==(const Device&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("kind", s.kind), f("name", s.name), f("behind", s.behind), f("at_point", s.at_point),
        f("poles", s.poles);
  }
};

/// One handle of a device, and the box it is in. A wall switch group has one for each switch, in
/// the order of the wiring; every other device has exactly one. Throws: open, closed; a handle of
/// a 3-way or 4-way group has two throws, neither of which is 'off'.
struct Handle {
  static constexpr const char* kTable = "handle";
  Id<Handle> id;
  Id<Device> device;
  Id<Room> room;
  Id<Box> box;
  std::string name;
  bool operator==(const Handle&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("device", s.device), f("room", s.room), f("box", s.box), f("name", s.name);
  }
};

}  // namespace ohmstead
