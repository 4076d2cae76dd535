#include "backup/start_order.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace ohmstead {

namespace {

constexpr std::size_t kTotal = kMostPoles;  ///< place after the legs: the source as a whole
using Sums = std::array<long long, kMostPoles + 1>;

Sums with_total(const PerPole& legs) {
  Sums sums{};
  for (std::size_t leg = 0; leg < kMostPoles; ++leg) sums[leg] = legs[leg], sums[kTotal] += legs[leg];
  return sums;
}

struct StartSums {
  Sums running{}, extra{};  ///< extra: what it takes more while it starts
  bool starts_itself = false;
};

StartSums sums_of(const StartLoad& load) {
  StartSums sums{.running = with_total(load.running), .extra = with_total(load.starting), .starts_itself = load.starts_itself};
  for (std::size_t i = 0; i <= kTotal; ++i) sums.extra[i] = std::max(0LL, sums.extra[i] - sums.running[i]);
  return sums;
}

Sums limits(const PlanSource& source, const PerPole& legs, int total) {
  Sums made{};
  for (std::size_t leg = 0; leg < kMostPoles; ++leg) made[leg] = leg < static_cast<std::size_t>(source.legs) ? legs[leg] : 0;
  made[kTotal] = total;
  return made;
}

/// Everything that is on, with sums over it.
class OnSet {
 public:
  explicit OnSet(const PlanSource& source)
      : most_running_(limits(source, source.leg_running, source.running)), most_starting_(limits(source, source.leg_starting, source.starting)) {}

  void add(const StartSums& load) {
    for (std::size_t i = 0; i <= kTotal; ++i) running_[i] += load.running[i];
  }
  void remove(const StartSums& load) {
    for (std::size_t i = 0; i <= kTotal; ++i) running_[i] -= load.running[i];
  }

  bool fits_running() const {
    for (std::size_t i = 0; i <= kTotal; ++i)
      if (running_[i] > most_running_[i]) return false;
    return true;
  }
  /// With all that is on running, may one more start take `extra`?
  bool fits_start(const StartSums& load) const {
    for (std::size_t i = 0; i <= kTotal; ++i)
      if (running_[i] + load.extra[i] > most_starting_[i]) return false;
    return true;
  }

 private:
  Sums running_{}, most_running_, most_starting_;
};

long long largest_extra(const StartSums& sums) { return sums.extra[kTotal]; }

}  // namespace

bool may_start(const PlanSource& source, const std::vector<StartLoad>& on, const StartLoad& next) {
  OnSet set(source);
  for (const StartLoad& load : on) set.add(sums_of(load));
  const StartSums last = sums_of(next);
  set.add(last);
  return set.fits_running() && set.fits_start(last) &&
         std::ranges::all_of(on, [&](const StartLoad& load) { return !load.starts_itself || set.fits_start(sums_of(load)); });
}

std::optional<std::vector<std::size_t>> start_order(const PlanSource& source, const std::vector<StartLoad>& loads,
                                                    const std::vector<StartLoad>& on) {
  std::vector<StartSums> sums, already;
  OnSet set(source);
  for (const StartLoad& load : loads) set.add(sums.emplace_back(sums_of(load)));
  for (const StartLoad& load : on) set.add(already.emplace_back(sums_of(load)));
  // With all of them on, the running sum and the start of whatever starts by itself are the same for every order,
  // and no smaller set asks for more: what remains is who may be last, among fewer and fewer.
  const auto may_start_again = [&](const StartSums& s) { return !s.starts_itself || set.fits_start(s); };
  if (!set.fits_running() || !std::ranges::all_of(sums, may_start_again) || !std::ranges::all_of(already, may_start_again)) return std::nullopt;
  std::vector<std::size_t> left(loads.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  // The one to be last first: largest rank number, then smallest start, then the last entered.
  std::ranges::stable_sort(left, [&](std::size_t a, std::size_t b) {
    if (loads[a].rank != loads[b].rank) return loads[a].rank > loads[b].rank;
    if (largest_extra(sums[a]) != largest_extra(sums[b])) return largest_extra(sums[a]) < largest_extra(sums[b]);
    return a > b;
  });
  std::vector<std::size_t> order(loads.size());
  for (std::size_t place = loads.size(); place-- > 0;) {
    const auto last = std::ranges::find_if(left, [&](std::size_t i) { return set.fits_start(sums[i]); });
    if (last == left.end()) return std::nullopt;
    order[place] = *last;
    set.remove(sums[*last]);
    left.erase(last);
  }
  return order;
}

}  // namespace ohmstead
