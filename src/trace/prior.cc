#include "trace/prior.h"

#include <algorithm>
#include <cctype>
#include <set>
#include <string>

#include "house/index.h"

namespace ohmstead {

namespace {

constexpr double kOneHotOnTwoPoles = 0.1;   ///< a tied multiwire pair, mostly
constexpr double kOneHotOnOver30Amps = 0.1;
constexpr double kLightOn20Amps = 0.7;
constexpr double kLabelNamesIt = 30, kLabelNamesRoom = 8, kLabelNamesOther = 0.4, kLabelSpare = 0.1;

/// Words of a text in lower case, without a plural s.
std::set<std::string> words_in(std::string_view text) {
  std::set<std::string> words;
  std::string word;
  const auto end_word = [&] {
    if (word.size() > 3 && word.back() == 's') word.pop_back();
    if (word.size() >= 2) words.insert(word);
    word.clear();
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) word += static_cast<char>(std::tolower(byte));
    else end_word();
  }
  end_word();
  return words;
}

bool share_a_word(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::ranges::any_of(a, [&](const std::string& word) { return b.contains(word); });
}

const std::set<std::string>& words_for(PointKind kind) {
  static const std::set<std::string> kLight{"light", "lighting", "lt", "lamp"};
  static const std::set<std::string> kReceptacle{"receptacle", "recept", "recep", "outlet", "plug", "socket"};
  static const std::set<std::string> kAlarm{"alarm", "smoke", "detector"};
  static const std::set<std::string> kFan{"fan"};
  static const std::set<std::string> kNothing;
  switch (kind) {
    case PointKind::light: return kLight;
    case PointKind::receptacle: return kReceptacle;
    case PointKind::alarm: return kAlarm;
    case PointKind::fan: return kFan;
    case PointKind::appliance:
    case PointKind::other: break;
  }
  return kNothing;
}

bool on_the_ceiling(PointKind kind) { return kind == PointKind::light || kind == PointKind::alarm; }

}  // namespace

double label_fit(const House& house, std::string_view label, const Unit& unit) {
  const auto said = words_in(label);
  if (said.empty() || unit.points.empty()) return 1;
  if (said.contains("spare")) return kLabelSpare;
  double best = kLabelNamesOther;
  for (const std::size_t at : unit.points) {
    const Point& point = house.points[at];
    const Room* room = find_row(house, point.room);
    const bool names_room = room != nullptr && share_a_word(said, words_in(room->name));
    bool names_it = (point.kind == PointKind::appliance || point.kind == PointKind::fan || point.kind == PointKind::other) &&
                    share_a_word(said, words_in(point.name));
    for (const Load& load : house.loads) names_it = names_it || (load.point == point.id && share_a_word(said, words_in(load.name)));
    bool other_kind = false, own_kind = share_a_word(said, words_for(point.kind));
    for (const PointKind kind : {PointKind::light, PointKind::receptacle, PointKind::alarm})
      other_kind = other_kind || (kind != point.kind && share_a_word(said, words_for(kind)));
    double fit = kLabelNamesOther;
    if (names_it) fit = kLabelNamesIt;
    else if (names_room) fit = other_kind && !own_kind ? 1 : own_kind ? 2 * kLabelNamesRoom : kLabelNamesRoom;
    else if (own_kind) fit = 1;
    best = std::max(best, fit);
  }
  return best;
}

std::vector<double> prior_weights(const House& house, std::span<const Way> ways, const Unit& unit) {
  std::vector<double> weights(ways.size(), 0);
  const bool light = std::ranges::any_of(unit.points, [&](std::size_t at) { return house.points[at].kind == PointKind::light; });
  const bool many_legs = leg_count(house.dwelling.system) > 1;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    if (!ways[w].feeds_points || ways[w].poles < unit.hots) continue;
    const Breaker& breaker = house.breakers[ways[w].breakers[0]];
    double weight = 1;
    if (unit.hots == 1 && many_legs && breaker.poles > 1) weight *= kOneHotOnTwoPoles;
    if (unit.hots == 1 && many_legs && breaker.amps > 30) weight *= kOneHotOnOver30Amps;
    if (light && breaker.amps == 20 && many_legs) weight *= kLightOn20Amps;
    double fit = 0;
    for (const std::size_t b : ways[w].breakers) fit = std::max(fit, label_fit(house, house.breakers[b].old_label, unit));
    weights[w] = weight * fit;
  }
  return weights;
}

void add_neighbours(const House& house, const Readings& readings, std::size_t unit,
                    std::span<const std::vector<Candidate>> beliefs, std::vector<double>& weights) {
  const Unit& mine = readings.units[unit];
  double sum = 0;
  for (const double weight : weights) sum += weight;
  if (mine.points.empty() || sum <= 0) return;
  const Point& point = house.points[mine.points[0]];
  std::vector<double> votes(weights.size(), 0);
  double voters = 0;
  for (std::size_t u = 0; u < readings.units.size(); ++u) {
    const Unit& other = readings.units[u];
    if (u == unit || other.points.empty() || other.readings.empty() || other.hots != mine.hots) continue;
    const Point& mate = house.points[other.points[0]];
    if (mate.room != point.room || on_the_ceiling(mate.kind) != on_the_ceiling(point.kind)) continue;
    voters += 1;
    for (const Candidate& candidate : beliefs[u])
      if (candidate.kind == CandidateKind::one) votes[candidate.first] += candidate.belief;
  }
  if (voters == 0) return;
  const double share = 0.85 * voters / (voters + 0.5);
  for (std::size_t w = 0; w < weights.size(); ++w)
    if (weights[w] > 0) weights[w] = (1 - share) * weights[w] / sum + share * votes[w] / voters;
}

}  // namespace ohmstead
