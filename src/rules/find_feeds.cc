// Points that are fed twice, from untied breakers, or between conductors of one leg.

#include <algorithm>

#include "house/numbering.h"
#include "rules/findings_look.h"

namespace ohmstead::findings_detail {

namespace {

void find_fed_twice(Look& look, std::size_t place, const std::vector<Tap>& taps) {
  for (std::size_t i = 1; i < taps.size(); ++i) {
    if (taps[i].hot != taps[i - 1].hot) continue;
    look.add("fed_twice", Severity::danger, {thing(look.house().points[place].id), thing(taps[i - 1].breaker), thing(taps[i].breaker)},
             point_label(look.house(), place) + ": one conductor of it is fed from " + breaker_label(look.house(), taps[i - 1].breaker) + " and " + breaker_label(look.house(), taps[i].breaker) + ".",
             "It stays live with one of them off, and the two join what should be apart.");
    look.cite("common practice, no source");
    look.rests_on({place});
    return;
  }
}

int leg_of(const House& house, const Tap& tap) {
  const Breaker* breaker = find_row(house, tap.breaker);
  if (breaker == nullptr) return 0;
  const std::vector<int> legs = legs_of(house, *breaker);
  const auto pole = static_cast<std::size_t>(tap.pole - 1);
  return pole < legs.size() ? legs[pole] : 0;
}

/// A 240 V load: its two conductors open together, and are on two legs.
void find_two_hots(Look& look, std::size_t place, const std::vector<Tap>& taps) {
  const Point& point = look.house().points[place];
  if (point.hots < 2 || taps.size() < 2 || taps[0].hot == taps[1].hot) return;
  const std::vector<ThingRef> things{thing(point.id), thing(taps[0].breaker), thing(taps[1].breaker)};
  const std::string name = point_label(look.house(), place);
  if (!open_together(look.house(), taps[0].breaker, taps[1].breaker)) {
    look.add("two_poles_untied", Severity::danger, things, name + " is fed between " + breaker_label(look.house(), taps[0].breaker) + " and " + breaker_label(look.house(), taps[1].breaker) + ", and their handles are not tied.",
             "With one of them off it does not work, and something in it can still kill.");
    look.cite("NFPA 70 240.15(B)(2), from memory");
    look.rests_on({place});
  }
  const Breaker *a = find_row(look.house(), taps[0].breaker), *b = find_row(look.house(), taps[1].breaker);
  const bool one_panel = a != nullptr && b != nullptr && a->panel == b->panel;
  if (one_panel && leg_of(look.house(), taps[0]) == leg_of(look.house(), taps[1])) {
    look.add("two_poles_on_one_leg", Severity::fix, things, name + " needs two legs, and both its conductors are on one.", "Between conductors of one leg there is no voltage, so either it cannot work or the record is wrong.");
    look.cite("geometry of the bus, common practice, no source");
    look.rests_on({place});
  }
}

/// Both halves of a split receptacle on one yoke: one movement of a hand opens both.
void find_yoke(Look& look, std::size_t place) {
  const Point& point = look.house().points[place];
  if (!point.mate || point.half != ReceptacleHalf::upper) return;
  const auto mate = std::ranges::find(look.house().points, point.mate, &Point::id);
  if (mate == look.house().points.end()) return;
  const auto other = static_cast<std::size_t>(mate - look.house().points.begin());
  const auto &own = look.input.feeds.of_point[place].taps, &its = look.input.feeds.of_point[other].taps;
  if (own.empty() || its.empty() || open_together(look.house(), own[0].breaker, its[0].breaker)) return;
  look.add("yoke_of_two_circuits", Severity::danger, {thing(point.id), thing(mate->id), thing(own[0].breaker), thing(its[0].breaker)},
           point_label(look.house(), place) + ": its two halves hang on " + breaker_label(look.house(), own[0].breaker) + " and " + breaker_label(look.house(), its[0].breaker) + ", and their handles are not tied.",
           "Whoever changes this receptacle with one breaker off has the other circuit under the fingers.");
  look.cite("NFPA 70 210.7, text");
  look.rests_on({place, other});
}

}  // namespace

bool open_together(const House& house, Id<Breaker> a, Id<Breaker> b) {
  if (a == b) return true;
  const Breaker *one = find_row(house, a), *two = find_row(house, b);
  return one != nullptr && two != nullptr && one->tie && one->tie == two->tie;
}

void find_feeds(Look& look) {
  for (std::size_t p = 0; p < look.house().points.size(); ++p) {
    std::vector<Tap> taps = look.input.feeds.of_point[p].taps;
    std::ranges::sort(taps);
    find_fed_twice(look, p, taps);
    find_two_hots(look, p, taps);
    find_yoke(look, p);
  }
}

}  // namespace ohmstead::findings_detail
