#include "trace/prior.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "house/index.h"

namespace ohmstead {

/// What a unit's fit to a label is judged by; worked out once for each unit.
struct UnitWords {
  std::vector<std::set<std::string>> names;  ///< of its points and their loads
  std::vector<std::size_t> rooms;
  bool light = false, receptacle = false, alarm = false, own = false;
  /// All that a label is read for, when the unit is no thing of its own name.
  [[nodiscard]] auto common() const { return std::tuple(rooms, light, receptacle, alarm, names.empty()); }
};

namespace {

constexpr double kOneHotOnTwoPoles20 = 0.1;  ///< a tied multiwire pair
constexpr double kOneHotOnTwoPoles = 0.01;
constexpr double kOneHotOnOver30Amps = 0.1;
constexpr double kLightOn20Amps = 0.5, kWetOn15Amps = 0.3;
constexpr double kTwoHotsOnRating = 3;       ///< the rating that such an appliance mostly has
constexpr double kLabelNamesIt = 60, kLabelNamesRoom = 14, kLabelNamesNothing = 0.8, kLabelNamesOther = 0.25, kLabelSpare = 0.1;
constexpr double kLabelTrust = 0.75;         ///< share of old labels that are right
constexpr double kFound = 0.9;               ///< belief from which a unit speaks for or against a label

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

namespace {

/// Weight of one breaker for a unit, by its kind and rating alone.
double weight_by_kind(int hots, Sort sort, std::span<const std::set<std::string>> names, const Breaker& breaker) {
  if (hots > 1) {
    const bool fits = std::ranges::any_of(names, [&](const auto& name) { return fits_rating(breaker.amps, name); });
    return fits ? kTwoHotsOnRating : 1;
  }
  double weight = 1;
  if (breaker.poles > 1) weight *= breaker.amps > 0 && breaker.amps <= 20 ? kOneHotOnTwoPoles20 : kOneHotOnTwoPoles;
  if (breaker.amps > 30) weight *= kOneHotOnOver30Amps;
  if ((sort == Sort::light || sort == Sort::alarm) && breaker.amps == 20) weight *= kLightOn20Amps;
  if ((sort == Sort::counter || sort == Sort::bath || sort == Sort::outside) && breaker.amps == 15) weight *= kWetOn15Amps;
  return weight;
}

std::vector<double> weights_by_kind(const House& house, const Unit& unit, Sort sort, std::span<const Way> ways) {
  std::vector<std::set<std::string>> names;
  if (unit.hots > 1)
    for (const std::size_t p : unit.points) names.push_back(words_in(house.points[p].name));
  const bool all_alike = leg_count(house.dwelling.system) < 2;
  std::vector<double> weights;
  for (const Way& way : ways) {
    const bool can_be = way.feeds_points && way.poles >= unit.hots;
    weights.push_back(!can_be ? 0 : all_alike ? 1 : weight_by_kind(unit.hots, sort, names, house.breakers[way.breakers[0]]));
  }
  return weights;
}

}  // namespace

Prior::Prior(const House& house, const Readings& readings, std::span<const Way> ways, const Kin& kin) {
  const Index<Room> room_at(house.rooms);
  const LabelReader reader(house);
  std::vector<std::vector<LabelSays>> says;
  for (const Way& way : ways) {
    says.emplace_back();
    for (const std::size_t b : way.breakers) says.back().push_back(reader.read(house.breakers[b].old_label));
  }
  std::map<decltype(UnitWords{}.common()), std::size_t> known;
  for (std::size_t u = 0; u < readings.units.size(); ++u) {
    const long group = kin.group_of_unit()[u];
    const Sort sort = group < 0 ? Sort::receptacle : kin.groups()[static_cast<std::size_t>(group)].sort;
    by_kind_.push_back(weights_by_kind(house, readings.units[u], sort, ways));
    const UnitWords words = words_of_unit(house, readings.units[u], room_at);
    const auto found = words.own ? known.end() : known.find(words.common());
    fits_of_unit_.push_back(found == known.end() ? fits_.size() : found->second);
    if (found != known.end()) continue;
    if (!words.own) known.emplace(words.common(), fits_.size());
    fits_.push_back(fits_of(words, says));
  }
  weigh_levels(std::vector<double>(ways.size(), 1));
}

Prior::Fits Prior::fits_of(const UnitWords& unit, const std::vector<std::vector<LabelSays>>& says) {
  Fits fits;
  for (const auto& labels : says) {
    double best = 0;
    for (const LabelSays& label : labels) best = std::max(best, fit_of(label, unit));
    const auto level = std::ranges::find(levels_, best);
    fits.push_back(static_cast<std::size_t>(level - levels_.begin()));
    if (level == levels_.end()) levels_.push_back(best);
  }
  return fits;
}

/// `trust` in the ways' labels: 1 as before anything was seen, 0 says nothing.
void Prior::weigh_levels(std::span<const double> trust) {
  weight_.clear();
  for (const double of_way : trust) {
    weight_.emplace_back();
    for (const double level : levels_) weight_.back().push_back(std::pow(level, of_way));
  }
}

std::vector<double> Prior::weights(std::size_t unit) const {
  std::vector<double> weights = by_kind_[unit];
  const Fits& fits = fits_[fits_of_unit_[unit]];
  for (std::size_t w = 0; w < weights.size(); ++w) weights[w] *= weight_[w][fits[w]];
  return weights;
}

void Prior::learn(std::span<const Candidate> likeliest) {
  constexpr double kOwnWeight = 2, kCommonWeight = 6;
  const std::size_t ways = weight_.size();
  std::vector<double> good(ways, 0), bad(ways, 0);
  for (std::size_t u = 0; u < likeliest.size(); ++u) {
    const Candidate& top = likeliest[u];
    if (top.kind != CandidateKind::one || top.belief < kFound) continue;
    const double fit = levels_[fits_[fits_of_unit_[u]][top.first]];
    if (fit > 1.5) good[top.first] += 1;
    else if (fit < kLabelNamesNothing) bad[top.first] += 1;
  }
  double all_good = kCommonWeight * kLabelTrust, all = kCommonWeight;
  for (std::size_t w = 0; w < ways; ++w)
    if (good[w] + bad[w] > 0) all_good += good[w] / (good[w] + bad[w]), all += 1;
  const double common = all_good / all;
  std::vector<double> trust;
  for (std::size_t w = 0; w < ways; ++w)
    trust.push_back(std::min(1.2, (common * kOwnWeight + good[w]) / (kOwnWeight + good[w] + bad[w]) / kLabelTrust));
  weigh_levels(trust);
}

std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit) {
  Readings one;
  one.units.push_back(unit);
  return Prior(house, one, ways, Kin(house, one)).weights(0);
}

}  // namespace ohmstead
