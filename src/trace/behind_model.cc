#include "trace/behind_model.h"

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "trace/behind_scene.h"
#include "trace/effect.h"

namespace ohmstead {

namespace {

constexpr double kLeast = 0.003;         ///< nothing is ruled out before it was looked at
constexpr double kOwnReceptacle = 0.99;  ///< a GFCI's own face
constexpr double kWayWorthACase = 0.002;
constexpr double kAsRecorded = 0.95;     ///< the record of a position's breaker is right
constexpr double kHiddenPanel = 0.1;     ///< a panel of unknown supply hangs on the breaker asked about
constexpr double kFeedsKnown = 0.5;      ///< below, feeds are not known well enough to go by them alone

double bounded(double chance) { return std::clamp(chance, kLeast, 1 - kLeast); }

/// How far a GFCI receptacle reaches, with the chance of each; then whether lights hang on it too.
enum class Reach { itself, room, next_rooms, anywhere };
constexpr double kReach[] = {0.25, 0.3, 0.2, 0.25};
constexpr double kLightsAlong = 0.25;

bool is_wet(Sort sort) { return sort == Sort::counter || sort == Sort::bath || sort == Sort::outside; }

/// Chance that a point shares a breaker with a GFCI, when nothing is known of its feed.
double shares_breaker(Sort sort, Away away) {
  constexpr double kAny[] = {0.6, 0.25, 0.12, 0.04}, kWet[] = {0.8, 0.5, 0.4, 0.35};
  return (is_wet(sort) ? kWet : kAny)[static_cast<int>(away)];
}

/// Chance that a GFCI takes a point of its own breaker down.
double downstream_of_gfci(Sort sort, Away away, Reach reach, bool lights) {
  if (reach == Reach::itself) return 0.01;
  if (reach != Reach::anywhere && static_cast<int>(away) >= static_cast<int>(reach)) return 0.01;
  switch (sort) {
    case Sort::counter:
    case Sort::bath:
    case Sort::outside: return 0.75;
    case Sort::receptacle: return 0.6;
    case Sort::light: return !lights ? 0.01 : away == Away::here ? 0.7 : 0.4;
    case Sort::own: return 0.2;
    case Sort::alarm:
    case Sort::two_hots: break;
  }
  return 0.01;
}

/// What a wall switch works, with the chance of each.
enum class Works { lights_here, halves_here, lights_near, lights_outside, something_else };
constexpr double kWorks[] = {0.6, 0.12, 0.08, 0.1, 0.1};
constexpr int kWorksCount = 5, kReachCount = 8;

double worked_by_switch(const BehindScene& scene, const Point& point, std::size_t p, Works works) {
  const Sort sort = scene.sort(p);
  const Away away = scene.away(p);
  const bool here = away == Away::here, light = sort == Sort::light;
  switch (works) {
    case Works::lights_here: return here && light ? 0.65 : 0.01;
    case Works::halves_here: return here && point.half != ReceptacleHalf::both ? 0.6 : here && sort == Sort::receptacle ? 0.2 : 0.01;
    case Works::lights_near: return light && (away == Away::near || away == Away::floor) ? (away == Away::near ? 0.3 : 0.1) : 0.01;
    case Works::lights_outside: return light && !here && scene.outside(p) ? 0.4 : 0.01;
    case Works::something_else: break;
  }
  return here || away == Away::near ? 0.05 : 0.02;
}

double cut_by_disconnect(const Point& point, const Device& device, Sort sort, Away away) {
  const bool fits = point.hots == device.poles && (sort == Sort::own || sort == Sort::two_hots);
  constexpr double kFits[] = {0.5, 0.2, 0.05, 0.02};
  return fits ? kFits[static_cast<int>(away)] : 0.01;
}

/// Is the device on the recorded way from this point (or device) to its breaker?
bool stands_behind(const House& house, Id<Device> nearest, Id<Device> device) {
  std::size_t steps = 0;
  for (Id<Device> at = nearest; at && steps <= house.devices.size(); ++steps) {
    if (at == device) return true;
    const Device* row = find_row(house, at);
    at = row == nullptr ? Id<Device>{} : row->behind;
  }
  return false;
}

/// One case of a device for each way it may stand on and each variant of what it takes down.
class DeviceCases {
 public:
  DeviceCases(const BehindGround& ground, const Device& device, const BehindScene& scene)
      : ground_(ground), house_(ground.house), device_(device), scene_(scene) {
    for (const Point& point : house_.points) declared_.push_back(stands_behind(house_, point.behind, device.id));
  }

  [[nodiscard]] std::vector<BehindCase> make() const {
    const auto at = static_cast<std::size_t>(Index<Device>(house_.devices).at(device_.id));
    const int variants = device_.kind == DeviceKind::gfci_receptacle ? kReachCount : device_.kind == DeviceKind::wall_switch ? kWorksCount : 1;
    std::vector<BehindCase> cases;
    for (int v = 0; v < variants; ++v) {
      const std::vector<double> ways = scene_.ways_of_device(at, says_which_breaker(v));
      for (std::size_t w = 0; w < ways.size(); ++w)
        if (ways[w] >= kWayWorthACase) cases.push_back(make_case(w, v, ways[w] * weight_of(v)));
    }
    return cases;
  }

 private:
  [[nodiscard]] double weight_of(int variant) const {
    if (device_.kind == DeviceKind::gfci_receptacle) return kReach[variant / 2] * (variant % 2 == 1 ? kLightsAlong : 1 - kLightsAlong);
    return device_.kind == DeviceKind::wall_switch ? kWorks[variant] : 1;
  }

  [[nodiscard]] BehindCase make_case(std::size_t way, int variant, double weight) const {
    BehindCase made{weight, {}};
    for (std::size_t p = 0; p < house_.points.size(); ++p) made.takes.push_back(bounded(chance(p, way, variant)));
    return made;
  }

  [[nodiscard]] bool is_gfci() const { return device_.kind == DeviceKind::gfci_receptacle; }

  /// Chance that a point is taken down if it is on the device's breaker.
  [[nodiscard]] double on_its_breaker(std::size_t p, int variant) const {
    const Sort sort = scene_.sort(p);
    const Away away = scene_.away(p);
    if (is_gfci()) return downstream_of_gfci(sort, away, static_cast<Reach>(variant / 2), variant % 2 == 1);
    const double takes = device_.kind == DeviceKind::wall_switch ? worked_by_switch(scene_, house_.points[p], p, static_cast<Works>(variant))
                                                                 : cut_by_disconnect(house_.points[p], device_, sort, away);
    return house_.points[p].behind ? 0.1 * takes : takes;  // by the record something else works it
  }

  /// How much each point says of the device's breaker: a GFCI is on that of the points around it, a
  /// switch on that of what it works.
  [[nodiscard]] std::vector<double> says_which_breaker(int variant) const {
    constexpr double kAround[] = {1, 0.2, 0, 0};
    std::vector<double> says;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      says.push_back(is_gfci() ? kAround[static_cast<int>(scene_.away(p))] : on_its_breaker(p, variant));
    return says;
  }

  [[nodiscard]] double chance(std::size_t p, std::size_t way, int variant) const {
    if (house_.points[p].id == device_.at_point) return kOwnReceptacle;
    if (declared_[p]) return kDeclaredTrust;
    const double known = scene_.known(p);
    return on_its_breaker(p, variant) * (known * scene_.on(p, way) + (1 - known) * (is_gfci() ? shares_breaker(scene_.sort(p), scene_.away(p)) : 1));
  }

  const BehindGround& ground_;
  const House& house_;
  const Device& device_;
  const BehindScene& scene_;
  std::vector<bool> declared_;
};

/// What goes dead by the record when these handles are open.
std::vector<double> by_record(const BehindGround& ground, const HandleRef& handle) {
  const Effect effect = effect_of(ground.house, std::vector<HandleRef>{handle});
  const Readings& readings = ground.conclusions.readings;
  std::vector<double> of_unit;
  for (std::size_t u = 0; u < readings.units.size(); ++u) {
    double dead = 0;
    for (const Candidate& candidate : ground.conclusions.units[u].candidates) {
      const Expect expect = is_a_feed(candidate) ? expected(ground.house, ground.conclusions.ways, candidate, readings.units[u].hots, effect) : Expect::live;
      dead += candidate.belief * (expect == Expect::dead ? 1 : expect == Expect::either ? 0.5 : 0);
    }
    of_unit.push_back(dead);
  }
  std::vector<double> takes;
  for (const std::size_t unit : readings.unit_of_point) takes.push_back(bounded(of_unit[unit]));
  return takes;
}

std::vector<double> on_way(const BehindScene& scene, std::size_t way, std::size_t points) {
  std::vector<double> takes;
  for (std::size_t p = 0; p < points; ++p) takes.push_back(bounded(scene.on(p, way)));
  return takes;
}

/// A position that carries a breaker, as recorded or not: it may be any other one that is not carried.
std::vector<BehindCase> position_cases(const BehindGround& ground, const Position& position, const BehindScene& scene) {
  const House& house = ground.house;
  std::vector<BehindCase> cases;
  std::vector<std::size_t> others;
  for (std::size_t w = 0; w < scene.ways(); ++w) {
    const bool carried = std::ranges::any_of(house.positions, [&](const Position& other) {
      return std::ranges::any_of(ground.conclusions.ways[w].breakers, [&](std::size_t b) { return house.breakers[b].id == other.breaker; });
    });
    if (!carried && ground.conclusions.ways[w].feeds_points) others.push_back(w);
  }
  if (position.breaker) cases.push_back({kAsRecorded, by_record(ground, {HandleKind::position, position.id.value})});
  const double rest = (position.breaker ? 1 - kAsRecorded : 1) / static_cast<double>(std::max<std::size_t>(1, others.size()));
  for (const std::size_t w : others) cases.push_back({rest, on_way(scene, w, house.points.size())});
  return cases;
}

/// A breaker or main as recorded, or with a panel on it whose supply is not recorded.
std::vector<BehindCase> breaker_cases(const BehindGround& ground, const HandleRef& handle, const BehindScene& scene) {
  const House& house = ground.house;
  std::vector<BehindCase> cases{{1, by_record(ground, handle)}};
  for (const Panel& panel : house.panels) {
    if (panel.supply != Supply::nothing_known || (handle.kind == HandleKind::main && handle.id == panel.id.value)) continue;
    BehindCase with{kHiddenPanel, cases[0].takes};
    for (std::size_t w = 0; w < scene.ways(); ++w)
      if (house.breakers[ground.conclusions.ways[w].breakers[0]].panel == panel.id)
        for (std::size_t p = 0; p < with.takes.size(); ++p) with.takes[p] = bounded(with.takes[p] + scene.on(p, w));
    cases.push_back(std::move(with));
  }
  return cases;
}

/// Where feeds are hardly known a breaker's points still lie together: each case once for every room
/// in the middle of them.
std::vector<BehindCase> spread_over_rooms(const BehindGround& ground, const BehindScene& scene, std::vector<BehindCase> cases) {
  constexpr double kTogether[] = {0.5, 0.15, 0.05, 0.01};
  constexpr std::size_t kMostCases = 2000;
  const std::size_t rooms = ground.house.rooms.size();
  if (scene.all_known() >= kFeedsKnown || rooms < 2 || cases.size() * rooms > kMostCases) return cases;
  std::vector<BehindCase> spread;
  for (const BehindCase& one : cases)
    for (std::size_t r = 0; r < rooms; ++r) {
      spread.push_back(one);
      for (std::size_t p = 0; p < one.takes.size(); ++p) {
        const double near = scene.known(p) * one.takes[p] + (1 - scene.known(p)) * kTogether[static_cast<int>(scene.away_from(r, p))];
        spread.back().takes[p] = bounded(std::max(one.takes[p], near));
      }
    }
  return spread;
}

}  // namespace

std::vector<BehindCase> behind_cases(const BehindGround& ground, const HandleRef& handle) {
  const House& house = ground.house;
  const BehindScene scene(ground, room_of_handle(house, handle));
  if (handle.kind == HandleKind::device) {
    const Handle* moved = find_row(house, Id<Handle>{handle.id});
    const Device* device = moved == nullptr ? nullptr : find_row(house, moved->device);
    return device == nullptr ? std::vector<BehindCase>{} : DeviceCases(ground, *device, scene).make();
  }
  if (handle.kind == HandleKind::position) {
    const Position* position = find_row(house, Id<Position>{handle.id});
    const TransferDevice* device = position == nullptr ? nullptr : find_row(house, position->device);
    if (device == nullptr) return {};
    if (device->kind == TransferKind::circuits) return spread_over_rooms(ground, scene, position_cases(ground, *position, scene));
  } else if (handle.kind != HandleKind::breaker && handle.kind != HandleKind::main) {
    return {};
  }
  return spread_over_rooms(ground, scene, breaker_cases(ground, handle, scene));
}

std::vector<double> behind_beliefs(std::span<const BehindCase> cases, std::span<const BehindLooks> looks) {
  std::vector<double> if_taken, if_not;  // likelihoods of each point's looks
  const double odds = (1 - kReadingError) / kReadingError;  // only their ratio matters: each look of one kind makes up for one of the other
  for (const auto& [dead, live] : looks) {
    if_taken.push_back(std::pow(odds, std::min(0, dead - live)));
    if_not.push_back(std::pow(odds, std::min(0, live - dead)));
  }
  std::vector<double> logs;
  for (const BehindCase& one : cases) {
    logs.push_back(std::log(one.weight));
    for (std::size_t p = 0; p < looks.size(); ++p)
      if (looks[p].dead + looks[p].live > 0) logs.back() += std::log(one.takes[p] * if_taken[p] + (1 - one.takes[p]) * if_not[p]);
  }
  const double most = *std::ranges::max_element(logs);
  std::vector<double> beliefs(looks.size(), 0);
  double sum = 0;
  for (std::size_t c = 0; c < cases.size(); ++c) {
    const double weight = std::exp(logs[c] - most);
    sum += weight;
    for (std::size_t p = 0; p < looks.size(); ++p) {
      const double taken = cases[c].takes[p] * if_taken[p];
      beliefs[p] += weight * taken / (taken + (1 - cases[c].takes[p]) * if_not[p]);
    }
  }
  for (double& belief : beliefs) belief /= sum;
  return beliefs;
}

}  // namespace ohmstead
