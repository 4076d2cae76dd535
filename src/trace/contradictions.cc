#include "trace/contradictions.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead {

namespace {

/// Compares the readings of one unit with one explanation.
class UnitReader {
 public:
  UnitReader(const House& house, const Conclusions& all, std::size_t unit) : house_(house), all_(all), unit_(all.readings.units[unit]) {}

  [[nodiscard]] bool against(const Candidate& candidate, const Reading& reading) const {
    return speaks_against(expected_of(candidate, reading), reading.dead);
  }
  [[nodiscard]] bool in_favor(const Candidate& candidate, const Reading& reading) const {
    return reading.dead && expected_of(candidate, reading) == Expect::dead;
  }
  [[nodiscard]] const Candidate* most_believed(const UnitConclusion& unit) const {
    const auto& all = unit.candidates;
    if (unit.feed.standing != Standing::proved)
      if (const auto said = std::ranges::find(all, true, &Candidate::declared); said != all.end()) return &*said;
    const auto seen = std::ranges::find_if(all, [&](const Candidate& candidate) {
      return is_a_feed(candidate) && std::ranges::any_of(unit_.readings, [&](const Reading& r) { return in_favor(candidate, r); });
    });
    if (seen != all.end()) return &*seen;
    const auto likeliest = std::ranges::find_if(all, is_a_feed);
    return likeliest == all.end() ? nullptr : &*likeliest;
  }

 private:
  [[nodiscard]] Expect expected_of(const Candidate& candidate, const Reading& reading) const {
    return expected(house_, all_.ways, candidate, unit_.hots, all_.readings.effects[reading.round]);
  }
  const House& house_;
  const Conclusions& all_;
  const Unit& unit_;
};

Sight sight_of(const House& house, const Reading& reading) {
  const Round& round = house.rounds[reading.round];
  Sight sight{{}, reading.dead, round.at, round.who, {}};
  for (const Opened& opened : house.opened)
    if (opened.round == round.id) sight.open.push_back(opened.handle);
  return sight;
}

/// The observations behind a reading: a point looked at twice in one round has several.
void add_sights(const House& house, const Reading& reading, std::vector<Sight>& sights) {
  Sight sight = sight_of(house, reading);
  for (const Observation& seen : house.observations) {
    const bool same = seen.round == house.rounds[reading.round].id && seen.point == house.points[reading.point].id;
    if (!same || seen.withdrawn || seen.seen != (reading.dead ? Seen::dead : Seen::live)) continue;
    sight.observation = seen.id;
    if (!seen.at.empty()) sight.at = seen.at;
    if (std::ranges::find(sights, seen.id, &Sight::observation) == sights.end()) sights.push_back(sight);
  }
}

std::vector<Id<Breaker>> breakers_of(const House& house, const Conclusions& all, const Candidate& candidate) {
  std::vector<Id<Breaker>> breakers;
  const auto add = [&](std::size_t way) {
    for (const std::size_t b : all.ways[way].breakers) breakers.push_back(house.breakers[b].id);
  };
  add(candidate.first);
  if (candidate.kind != CandidateKind::one) add(candidate.second);
  return breakers;
}

}  // namespace

std::vector<Contradiction> contradictions_of(const House& house, const Conclusions& conclusions) {
  std::vector<Contradiction> found;
  for (std::size_t u = 0; u < conclusions.units.size(); ++u) {
    const Unit& unit = conclusions.readings.units[u];
    if (unit.readings.empty()) continue;
    const UnitReader reader(house, conclusions, u);
    const Candidate* believed = reader.most_believed(conclusions.units[u]);
    if (believed == nullptr) continue;
    const auto first = std::ranges::find_if(unit.readings, [&](const Reading& r) { return reader.against(*believed, r); });
    if (first == unit.readings.end()) continue;
    Contradiction contradiction{first->point, conclusions.units[u].feed.standing, breakers_of(house, conclusions, *believed),
                                believed->declared, {}, {}};
    for (const Reading& reading : unit.readings) {
      if (reader.against(*believed, reading)) add_sights(house, reading, contradiction.against);
      else if (reader.in_favor(*believed, reading)) add_sights(house, reading, contradiction.in_favor);
    }
    found.push_back(std::move(contradiction));
  }
  return found;
}

}  // namespace ohmstead
