#pragma once
// What of a house one source uses in an outage: the handles that circuits ride on (units), the handles on the
// way from the source to them (ways), what must be off before (mains), and what each load draws on which leg.

#include <string>
#include <vector>

#include "backup/figures.h"
#include "backup/start_order.h"
#include "feed/liveness.h"
#include "feed/restore.h"
#include "house/house.h"

namespace ohmstead {

/// How a load counts in an outage. In the order of house.loads.
struct OutageLoad {
  std::size_t point = 0;        ///< place in house.points
  LoadUse use = LoadUse::not_wanted;
  int worth = 0;                ///< the more, the later it is switched off to make room (kLifeWorth: never)
  int unit = -1;                ///< place in OutageGear::units; -1: nothing of this source carries it
  StartLoad draw;               ///< on the legs of the source; nothing where its watts are not known
  bool by_handle = false;       ///< wired in, started by a float or thermostat, and alone on its unit: its handle is its switch
};
inline constexpr int kLifeWorth = 100;
inline constexpr int kGuestWorth = 5;  ///< of a thing that is in no record

/// A handle with what comes on when it is closed: a transfer position (with those tied to it), or a breaker of a
/// panel that stands behind the source.
struct OutageUnit {
  std::uint32_t handle = 0;     ///< first of its group
  Throw on = kOn;               ///< kBackupSide for a position
  bool planned = false;         ///< by the plan that was kept; without one, each position that is wired, and breakers with something wanted
  PerPole leg_watts{};          ///< most on each leg by its own small breaker, or its breaker; 0: not known
  std::vector<std::size_t> points;  ///< places in house.points
  std::vector<std::size_t> loads;   ///< places in house.loads
};

/// Why a unit is never put on the source.
enum class OutageBarKind { shared_neutral, found_wrong };
struct OutageBar {
  std::uint32_t handle = 0;
  OutageBarKind kind = OutageBarKind::shared_neutral;
};

/// What proving says of the positions; none: there is nothing to be proved.
enum class OutageWiring { none, not_proved, proved, wrong };

struct OutageGear {
  std::size_t source = 0;       ///< place in house.sources
  Graph graph;
  int rated_watts = 0;          ///< running watts of the source as recorded
  PlanSource limits;            ///< as recorded; what was told in the outage is in OutageNow
  State everything;             ///< the source live, all its ways and units closed
  bool automatic = false;       ///< a device of this source moves by itself
  std::vector<Move> off_first;  ///< mains that part the house from the utility, before the source is let in
  std::vector<Move> ways;       ///< whole-house positions to backup, backfed breakers on
  std::vector<OutageUnit> units;
  std::vector<bool> point_carried;  ///< in the order of house.points
  std::vector<int> point_unit;  ///< the same: place in units; -1: none
  std::vector<OutageLoad> loads;
  std::vector<std::pair<int, int>> joined_anyway;  ///< terminals that the record joins on an ordinary day already

  std::vector<OutageBar> bars;  ///< backup/outage_bars.h
  OutageWiring wiring = OutageWiring::none;
  bool reaches_panel = false;   ///< proving found that the source reaches the panel past the positions

  /// Null: this unit may be put on the source.
  [[nodiscard]] const OutageBar* bar_of(std::uint32_t handle) const;
  /// Place in units of the unit whose group holds this handle; -1: none.
  [[nodiscard]] int unit_of(std::uint32_t handle) const;
  [[nodiscard]] bool is_way(std::uint32_t handle) const;
};

/// Precondition: the house is sound, the feeds fit it. Throws Error{invalid_input}, with one sentence on what to do,
/// if the watts of the source are not recorded or it feeds nothing.
[[nodiscard]] OutageGear outage_gear(const House& house, const Feeds& feeds, std::size_t source);

/// Draw of a thing of these watts at a point, on the legs by which this source carries it.
[[nodiscard]] StartLoad draw_at(const OutageGear& gear, std::size_t point, int running, int starting);

}  // namespace ohmstead
