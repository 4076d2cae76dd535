#pragma once
// Sources besides the utility, and what moves circuits between sources.

#include <string>

#include "house/enum_text.h"
#include "house/id.h"
#include "house/refs.h"

namespace ohmstead {

struct Room;
struct Breaker;

enum class SourceKind { generator, battery_inverter };
OHMSTEAD_WORDS(SourceKind, "generator", "battery_inverter")

/// How a source's output meets the legs of what it feeds.
enum class SourceOutput {
  full,                ///< as many legs, with the same angles, as the house
  one_leg,             ///< leg 1 only
  one_120_both_legs,   ///< one 120 V output bridged to all legs: they are in phase, 240 V loads see 0 V
};
OHMSTEAD_WORDS(SourceOutput, "full", "one_leg", "one_120_both_legs")

/// Is the neutral of a source joined to its frame? Its transfer gear must fit (a warning beside the inlet says which).
enum class NeutralBond { not_known, bonded, floating };
OHMSTEAD_WORDS(NeutralBond, "not_known", "bonded", "floating")

enum class Fuel { not_known, gasoline, diesel, propane, natural_gas };
OHMSTEAD_WORDS(Fuel, "not_known", "gasoline", "diesel", "propane", "natural_gas")

/// A generator or battery inverter. The utility is not a row: it is always there.
struct Source {
  static constexpr const char* kTable = "source";
  Id<Source> id;
  std::string name;
  SourceKind kind = SourceKind::generator;
  SourceOutput output = SourceOutput::full;
  int running_watts = 0;   ///< 0: not known
  int starting_watts = 0;  ///< 0: not known; else not less than running_watts
  int leg_watts = 0;       ///< most on one leg, running; 0: an equal share of running_watts
  int inlet_amps = 0;      ///< rating of the inlet, each leg; 0: not known, or no inlet
  int cord_amps = 0;       ///< rating of the cord, each leg; 0: not known, or no cord
  NeutralBond neutral = NeutralBond::not_known;
  Fuel fuel = Fuel::not_known;  ///< of a generator
  int tank_ml = 0;         ///< usable fuel when full; 0: not known, or piped gas
  int use_25_ml_h = 0;     ///< fuel an hour at a quarter of running_watts; 0: not known. Piped gas: liters of gas
  int use_50_ml_h = 0, use_75_ml_h = 0, use_100_ml_h = 0;  ///< the same at 50, 75, 100 %
  int capacity_wh = 0;     ///< usable energy of a battery; 0: not known
  bool operator==(const Source&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("kind", s.kind), f("output", s.output), f("running_watts", s.running_watts),
        f("starting_watts", s.starting_watts), f("leg_watts", s.leg_watts), f("inlet_amps", s.inlet_amps),
        f("cord_amps", s.cord_amps), f("neutral", s.neutral), f("fuel", s.fuel), f("tank_ml", s.tank_ml),
        f("use_25_ml_h", s.use_25_ml_h), f("use_50_ml_h", s.use_50_ml_h), f("use_75_ml_h", s.use_75_ml_h),
        f("use_100_ml_h", s.use_100_ml_h), f("capacity_wh", s.capacity_wh);
  }
};

/// What the normal side of a transfer device's positions is connected to.
enum class TransferKind {
  circuits,     ///< each position's normal side is one pole of a breaker (a branch circuit or a feeder)
  whole_house,  ///< positions stand between the utility and a panel: position k carries leg k
};
OHMSTEAD_WORDS(TransferKind, "circuits", "whole_house")

/// What moves circuits, a subpanel or the whole house from the utility to `source`.
struct TransferDevice {
  static constexpr const char* kTable = "transfer_device";
  Id<TransferDevice> id;
  std::string name;
  Id<Room> room;
  TransferKind kind = TransferKind::circuits;
  Id<Source> source;
  bool automatic = false;  ///< moves by itself when the utility fails
  bool operator==(const TransferDevice&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("room", s.room), f("kind", s.kind), f("source", s.source),
        f("automatic", s.automatic);
  }
};

/// One switched way of a transfer device: a double-throw switch (utility, off, backup) whose
/// backup side has its own small breaker on leg `leg` of the source.
struct Position {
  static constexpr const char* kTable = "position";
  Id<Position> id;
  Id<TransferDevice> device;
  int number = 0;     ///< as marked on the device, 1..
  int amps = 0;       ///< its own breaker; 0: it has none
  int leg = 1;        ///< leg of the source, 1-based
  Id<Position> tie;   ///< tied partner handles: id of the first position of the tie, also on that one
  Id<Breaker> breaker;  ///< the breaker whose pole it carries; none: nothing is connected (or whole_house)
  int pole = 1;         ///< pole of that breaker, or leg of the utility with whole_house; 1-based
  bool operator==(const Position&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("device", s.device), f("number", s.number), f("amps", s.amps), f("leg", s.leg),
        f("tie", s.tie), f("breaker", s.breaker), f("pole", s.pole);
  }
};

/// Two handles that a mechanical interlock never lets be closed (on) at once.
struct Interlock {
  static constexpr const char* kTable = "interlock";
  Id<Interlock> id;
  HandleRef first, second;  ///< main or breaker
  bool operator==(const Interlock&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("first", s.first), f("second", s.second);
  }
};

}  // namespace ohmstead
