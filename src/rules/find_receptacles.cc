// What is stamped on receptacles, against the circuit and the position of the transfer device that feed them.

#include <algorithm>

#include "rules/findings_look.h"
#include "rules/panel_text.h"

namespace ohmstead::findings_detail {

namespace {

struct Ratings {
  int least = 0, most = 0;
};

/// What receptacles on a circuit of so many amperes may be rated, by table 210.21(B)(3).
Ratings ratings_on(int circuit) {
  if (circuit <= 15) return {0, 15};
  if (circuit <= 20) return {15, 20};
  if (circuit <= 30) return {30, 30};
  if (circuit <= 40) return {40, 50};
  if (circuit <= 50) return {50, 50};
  return {circuit, 1000};
}

void find_rating(Look& look, const Breaker& breaker, std::size_t p, bool alone) {
  const Point& point = look.house().points[p];
  const Ratings may = ratings_on(breaker.amps);
  const bool large = point.rating_amps > may.most;
  if (point.rating_amps >= may.least && (!large || alone)) return;  // alone it is rated not less than the circuit: 210.21(B)(1)
  const std::string stands = point_label(look.house(), p) + ": " + std::to_string(point.rating_amps) + " A stands on it, and " + breaker_label(look.house(), breaker.id) + " has " + std::to_string(breaker.amps) + " A.";
  look.add("receptacle_rating", Severity::fix, {thing(point.id), thing(breaker.id)}, stands,
           large ? "It takes plugs of things that draw more than the circuit may carry." : "It and the cord in it can burn before this breaker trips.");
  look.cite(alone ? "NFPA 70 210.21(B)(1), secondary" : "NFPA 70 210.21(B)(3), secondary");
  look.rests_on({p});
}

/// A circuit that is protected lower on the source than at the panel.
void find_under_position(Look& look, const Position& position) {
  const Breaker* breaker = find_row(look.house(), position.breaker);
  if (breaker == nullptr || breaker->amps == 0 || position.amps == 0 || position.amps >= breaker->amps) return;
  for (const std::size_t p : points_on(look, breaker->id)) {
    const Point& point = look.house().points[p];
    if (point.rating_amps <= position.amps || point.rating_amps > ratings_on(breaker->amps).most) continue;
    look.add("receptacle_over_position", Severity::note, {thing(point.id), thing(position.id)},
             point_label(look.house(), p) + ": " + std::to_string(point.rating_amps) + " A stands on it; on the source its circuit is protected at " + std::to_string(position.amps) + " A by position " + std::to_string(position.number) + ".",
             "Whether it may stay on a circuit that is protected lower is for the electrician to say; what is plugged in there may trip the position.");
    look.cite("NFPA 70 210.21(B)(3), secondary; whether it applies here is open");
    look.rests_on({p});
  }
}

}  // namespace

void find_receptacles(Look& look) {
  if (look.house().dwelling.system == VoltageSystem::single_230) return;  // the table is of another system
  for (const Breaker& breaker : look.house().breakers) {
    if (breaker.amps == 0 || breaker.backfed_from) continue;
    const std::vector<std::size_t> on = points_on(look, breaker.id);
    for (const std::size_t p : on)
      if (look.house().points[p].rating_amps > 0) find_rating(look, breaker, p, on.size() == 1 && look.house().points[p].half == ReceptacleHalf::both);
  }
  for (const Position& position : look.house().positions) find_under_position(look, position);
}

}  // namespace ohmstead::findings_detail
