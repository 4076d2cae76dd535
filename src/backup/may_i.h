#pragma once
// May this be switched on now? Yes; or what to switch off first; or why it has no power. Every answer is for the leg
// that the thing's point is on.

#include "backup/outage_lawful.h"

namespace ohmstead {

/// A thing somebody wants to switch on: a load of the record, or something at a point.
struct AskedThing {
  int load = -1;          ///< place in house.loads; its point and figures are then taken from the record
  std::size_t point = 0;  ///< place in house.points
  int running = 0, starting = 0;  ///< watts, the most it may draw
};

enum class MayIKind {
  yes,
  after,             ///< after `off_first` were switched off, in this order
  on_already,
  too_much,          ///< even with everything off that may be switched off
  too_much_here,     ///< the small breaker of its circuit carries no more than `circuit_watts`
  not_carried,       ///< no power in this outage: its circuit is not carried
  not_on_yet,        ///< its circuit is carried, and comes on later (`unit`)
  no_source,         ///< the source is not running
  feed_not_known,    ///< nobody knows what feeds this point
  watts_not_known,   ///< nobody knows what it draws
  barred,            ///< its circuit may never be on this source (`unit`, OutageGear::bars)
  no_outage,         ///< the utility is there
};
OHMSTEAD_WORDS(MayIKind, "yes", "after", "on_already", "too_much", "too_much_here", "not_carried", "not_on_yet", "no_source",
               "feed_not_known", "watts_not_known", "barred", "no_outage")

struct MayI {
  MayIKind kind = MayIKind::no_outage;
  std::size_t point = 0;
  int running = 0, starting = 0;    ///< what was reckoned with
  std::vector<Consumer> off_first;  ///< fewest of the least important; never what keeps somebody alive
  int unit = -1;                    ///< place in OutageGear::units; -1: none
  int circuit_watts = 0;
};

/// Everything that runs now counts, and the start of what starts by itself. What is to go off is chosen so that the
/// most important of it matters least, then as few as can be, then as few watts as can be.
[[nodiscard]] MayI may_i(const OutageView& view, const AskedThing& asked);

}  // namespace ohmstead
