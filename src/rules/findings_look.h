#pragma once
// Internal to findings: what each group of rules gets, and how it writes down what it found.

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "house/index.h"
#include "rules/findings.h"
#include "rules/record_names.h"

namespace ohmstead::findings_detail {

struct Look {
  const FindingsInput& input;
  Findings& out;
  std::map<std::uint64_t, std::vector<std::size_t>> on_breaker = {};  ///< places in house.points by breaker, any standing but open

  [[nodiscard]] const House& house() const { return input.house; }
  void add(const char* rule, Severity severity, std::vector<ThingRef> things, std::string found, std::string why) {
    out.found.push_back({rule, severity, std::move(things), std::move(found), std::move(why), "as recorded", ""});
  }
  /// The rule behind the finding that was added last.
  void cite(std::string citation) { out.found.back().citation = std::move(citation); }
  /// It rests on the feeds of these points: the weakest says how sure it is.
  void rests_on(const std::vector<std::size_t>& points);
};

[[nodiscard]] inline ThingRef thing(Id<Breaker> id) { return {ThingKind::breaker, id.value}; }
[[nodiscard]] inline ThingRef thing(Id<Point> id) { return {ThingKind::point, id.value}; }
[[nodiscard]] inline ThingRef thing(Id<Room> id) { return {ThingKind::room, id.value}; }
[[nodiscard]] inline ThingRef thing(Id<Source> id) { return {ThingKind::source, id.value}; }
[[nodiscard]] inline ThingRef thing(Id<Position> id) { return {ThingKind::position, id.value}; }
[[nodiscard]] inline ThingRef thing(Id<Panel> id) { return {ThingKind::panel, id.value}; }

/// Breakers by what they share a neutral with.
[[nodiscard]] std::map<std::uint64_t, std::vector<const Breaker*>> neutral_groups(const House& house);
[[nodiscard]] std::string names_of(const House& house, const std::vector<const Breaker*>& breakers);
/// Legs of a breaker's poles, top to bottom.
[[nodiscard]] std::vector<int> legs_of(const House& house, const Breaker& breaker);
/// Fills Look::on_breaker.
void sort_points(Look& look);
/// Places in house.points that hang on a breaker, by the record (any standing but open).
[[nodiscard]] std::vector<std::size_t> points_on(const Look& look, Id<Breaker> breaker);
/// Does the handle of the one move the other too (tied, or the same)?
[[nodiscard]] bool open_together(const House& house, Id<Breaker> a, Id<Breaker> b);

void find_neutrals(Look& look);
void find_feeds(Look& look);
void find_wires(Look& look);
void find_receptacles(Look& look);
void find_loads(Look& look);
void find_protection(Look& look);
void find_dedicated(Look& look);
void find_life_safety(Look& look);
void find_backup(Look& look);
void find_trips(Look& look);
void find_words(Look& look);
void find_gaps(Look& look);

}  // namespace ohmstead::findings_detail
