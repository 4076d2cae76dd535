#include "trace/prior.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"

namespace ohmstead {

namespace {

constexpr double kOneHotOnTwoPoles20 = 0.1;  ///< a tied multiwire pair
constexpr double kOneHotOnTwoPoles = 0.01;
constexpr double kOneHotOnOver30Amps = 0.1;
constexpr double kLightOn20Amps = 0.5, kWetOn15Amps = 0.3;
constexpr double kTwoHotsOnRating = 3;       ///< the rating that such an appliance mostly has
constexpr double kLabelNamesIt = 60, kLabelNamesRoom = 14, kLabelNamesNothing = 0.8, kLabelNamesOther = 0.25, kLabelSpare = 0.1;
constexpr double kLabelTrust = 0.75;         ///< share of old labels that are right
constexpr double kFound = 0.9;               ///< belief from which a unit speaks for or against a label

/// What a unit's fit to a label is judged by; worked out once for each unit.
struct UnitWords {
  std::vector<std::set<std::string>> names;  ///< of its points and their loads
  std::vector<std::size_t> rooms;
  bool light = false, receptacle = false, alarm = false, own = false;
};

UnitWords words_of_unit(const House& house, const Unit& unit, const Index<Room>& room_at) {
  UnitWords words;
  for (const std::size_t at : unit.points) {
    const Point& point = house.points[at];
    words.names.push_back(words_in(point.name));
    words.light = words.light || point.kind == PointKind::light;
    words.receptacle = words.receptacle || point.kind == PointKind::receptacle;
    words.alarm = words.alarm || point.kind == PointKind::alarm;
    words.own = words.own || (point.kind != PointKind::light && point.kind != PointKind::alarm &&
                              (point.kind != PointKind::receptacle || names_an_appliance(words.names.back())));
    for (const Load& load : house.loads)
      if (load.point == point.id) words.names.push_back(words_in(load.name)), words.own = true;
    if (const long room = room_at.at(point.room); room >= 0) words.rooms.push_back(static_cast<std::size_t>(room));
  }
  return words;
}

/// Share of the label's words that name the thing.
double named_share(const LabelSays& says, const UnitWords& unit) {
  std::size_t best = 0;
  for (const auto& name : unit.names) {
    const auto shared = std::ranges::count_if(says.words, [&](const std::string& word) { return word.size() > 1 && name.contains(word); });
    best = std::max(best, static_cast<std::size_t>(shared));
  }
  return says.words.empty() ? 0 : static_cast<double>(best) / static_cast<double>(says.words.size());
}

double fit_of(const LabelSays& says, const UnitWords& unit) {
  if (says.words.empty() || unit.names.empty()) return 1;
  if (says.spare) return kLabelSpare;
  if (unit.own)
    if (const double share = named_share(says, unit); share > 0) return 1 + (kLabelNamesIt - 1) * share * share;
  if (says.nothing()) return kLabelNamesNothing;
  const bool own_kind = (unit.light && says.lights) || (unit.receptacle && says.receptacles) || (unit.alarm && says.alarms);
  const bool some_kind = says.lights || says.receptacles || says.alarms;
  const bool own_room = std::ranges::any_of(unit.rooms, [&](std::size_t room) { return says.rooms.contains(room); });
  if (own_room) return own_kind ? 2 * kLabelNamesRoom : some_kind ? 1 : says.names_a_thing ? kLabelNamesOther : kLabelNamesRoom;
  if (says.rooms.empty() && own_kind) return says.alarms ? kLabelNamesIt : 1.5;
  return kLabelNamesOther;
}

bool fits_rating(int amps, const std::set<std::string>& name) {
  const auto has = [&](std::initializer_list<const char*> these) {
    return std::ranges::any_of(these, [&](const char* word) { return name.contains(word); });
  };
  if (has({"range", "stove", "oven", "cooktop"})) return amps == 40 || amps == 50;
  if (has({"dryer"})) return amps == 30;
  if (has({"tub", "charger", "spa"})) return amps >= 40;
  return amps <= 40;
}

}  // namespace

double label_fit(const House& house, std::string_view label, const Unit& unit) {
  return fit_of(read_label(house, label), words_of_unit(house, unit, Index<Room>(house.rooms)));
}

Prior::Prior(const House& house, const Readings& readings, std::span<const Way> ways)
    : house_(house), readings_(readings), ways_(ways), trust_(ways.size(), 1) {
  const Index<Room> room_at(house.rooms);
  std::vector<std::vector<LabelSays>> says;
  for (const Way& way : ways) {
    says.emplace_back();
    for (const std::size_t b : way.breakers) says.back().push_back(read_label(house, house.breakers[b].old_label));
  }
  for (const Unit& unit : readings.units) {
    sorts_.push_back(sort_of(house, unit));
    const UnitWords words = words_of_unit(house, unit, room_at);
    fits_.emplace_back();
    for (const auto& labels : says) {
      double best = 0;
      for (const LabelSays& label : labels) best = std::max(best, fit_of(label, words));
      fits_.back().push_back(best);
    }
  }
}

double Prior::by_kind(std::size_t at, std::size_t way) const {
  const Unit& unit = readings_.units[at];
  const Breaker& breaker = house_.breakers[ways_[way].breakers[0]];
  if (leg_count(house_.dwelling.system) < 2) return 1;
  if (unit.hots > 1) {
    const bool fits = std::ranges::any_of(unit.points, [&](std::size_t p) {
      return fits_rating(breaker.amps, words_in(house_.points[p].name));
    });
    return fits ? kTwoHotsOnRating : 1;
  }
  double weight = 1;
  if (breaker.poles > 1) weight *= breaker.amps > 0 && breaker.amps <= 20 ? kOneHotOnTwoPoles20 : kOneHotOnTwoPoles;
  if (breaker.amps > 30) weight *= kOneHotOnOver30Amps;
  const Sort sort = sorts_[at];
  if ((sort == Sort::light || sort == Sort::alarm) && breaker.amps == 20) weight *= kLightOn20Amps;
  if ((sort == Sort::counter || sort == Sort::bath || sort == Sort::outside) && breaker.amps == 15) weight *= kWetOn15Amps;
  return weight;
}

std::vector<double> Prior::weights(std::size_t unit) const {
  std::vector<double> weights(ways_.size(), 0);
  for (std::size_t w = 0; w < ways_.size(); ++w)
    if (ways_[w].feeds_points && ways_[w].poles >= readings_.units[unit].hots)
      weights[w] = by_kind(unit, w) * std::pow(fits_[unit][w], trust_[w]);
  return weights;
}

void Prior::learn(std::span<const std::vector<Candidate>> beliefs) {
  constexpr double kOwnWeight = 2, kCommonWeight = 6;
  std::vector<double> good(ways_.size(), 0), bad(ways_.size(), 0);
  for (std::size_t u = 0; u < beliefs.size(); ++u) {
    const Candidate& top = beliefs[u].front();
    if (top.kind != CandidateKind::one || top.belief < kFound) continue;
    const double fit = fits_[u][top.first];
    if (fit > 1.5) good[top.first] += 1;
    else if (fit < kLabelNamesNothing) bad[top.first] += 1;
  }
  double all_good = kCommonWeight * kLabelTrust, all = kCommonWeight;
  for (std::size_t w = 0; w < ways_.size(); ++w)
    if (good[w] + bad[w] > 0) all_good += good[w] / (good[w] + bad[w]), all += 1;
  const double common = all_good / all;
  for (std::size_t w = 0; w < ways_.size(); ++w)
    trust_[w] = std::min(1.2, (common * kOwnWeight + good[w]) / (kOwnWeight + good[w] + bad[w]) / kLabelTrust);
}

std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit) {
  Readings one;
  one.units.push_back(unit);
  return Prior(house, one, ways).weights(0);
}

}  // namespace ohmstead
