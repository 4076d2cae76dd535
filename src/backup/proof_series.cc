#include "backup/proof_series.h"

#include <algorithm>
#include <bit>
#include <limits>

#include "house/tour.h"

namespace ohmstead {

namespace {

using Code = unsigned;  ///< bit r: off in round r of its block
constexpr std::size_t kLargestBlock = 15;
constexpr std::size_t kMostDividedFreely = 16;

std::size_t rounds_for(std::size_t size) { return static_cast<std::size_t>(std::bit_width(size)); }

/// In which rounds of its block a circuit is looked at, and whether it still has to be seen live with everything on.
struct Looks {
  unsigned rounds = 0;
  bool with_everything_on = false;
  [[nodiscard]] int count() const { return std::popcount(rounds) + (with_everything_on ? 1 : 0); }
};

/// Fewest looks that tell `mine` from every other code and from one that is always live or always dead.
Looks fewest_looks(Code mine, const std::vector<Code>& codes, std::size_t rounds) {
  Looks best{~0U, true};
  for (unsigned chosen = 1; chosen < 1U << rounds; ++chosen) {
    const bool dead_once = (mine & chosen) != 0, live_once = (~mine & chosen) != 0;
    const bool alone = std::ranges::none_of(codes, [&](Code other) { return other != mine && (other & chosen) == (mine & chosen); });
    const Looks looks{chosen, !live_once};
    if (dead_once && alone && (best.rounds == ~0U || looks.count() < best.count())) best = looks;
  }
  return best;
}

int looks_of(const std::vector<Code>& codes, std::size_t rounds) {
  int sum = 0;
  for (const Code code : codes) sum += fewest_looks(code, codes, rounds).count();
  return sum;
}

/// The codes of a block that need the fewest looks. Up to three rounds all choices are tried; for more, those with
/// the fewest positions off are taken.
std::vector<Code> codes_for(std::size_t size) {
  const std::size_t rounds = rounds_for(size);
  std::vector<Code> all;
  for (Code code = 1; code < 1U << rounds; ++code) all.push_back(code);
  std::ranges::stable_sort(all, {}, [](Code code) { return std::popcount(code); });
  if (rounds > 3) return {all.begin(), all.begin() + static_cast<long>(size)};
  std::vector<Code> best;
  for (unsigned chosen = 0; chosen < 1U << all.size(); ++chosen) {
    if (static_cast<std::size_t>(std::popcount(chosen)) != size) continue;
    std::vector<Code> codes;
    for (std::size_t i = 0; i < all.size(); ++i)
      if ((chosen >> i & 1U) != 0) codes.push_back(all[i]);
    const unsigned in_use = [&] { unsigned used = 0; for (const Code code : codes) used |= code; return used; }();
    if (in_use != (1U << rounds) - 1U) continue;
    if (best.empty() || looks_of(codes, rounds) < looks_of(best, rounds)) best = codes;
  }
  return best;
}

void add_block(Series& series, const std::vector<std::size_t>& members) {
  const std::size_t first = series.size(), rounds = rounds_for(members.size());
  const std::vector<Code> codes = codes_for(members.size());
  series.resize(first + rounds);
  for (std::size_t i = 0; i < members.size(); ++i) {
    const Looks looks = fewest_looks(codes[i], codes, rounds);
    for (std::size_t r = 0; r < rounds; ++r) {
      if ((codes[i] >> r & 1U) != 0) series[first + r].off.push_back(members[i]);
      if ((looks.rounds >> r & 1U) != 0) series[first + r].looks.push_back(members[i]);
    }
    if (looks.with_everything_on) series[0].looks.push_back(members[i]);
  }
}

/// All ways to take blocks of a code out of `left` units, largest first; what is left over is alone.
void divide(std::size_t left, std::size_t largest, std::vector<std::size_t>& blocks, std::vector<std::vector<std::size_t>>& into) {
  into.push_back(blocks);
  for (std::size_t size = std::min(left, largest); size >= 3; --size) {
    blocks.push_back(size);
    divide(left - size, size, blocks, into);
    blocks.pop_back();
  }
}

}  // namespace

bool proves(const Series& series, std::size_t units) {
  constexpr std::size_t kMore = 2;  // nothing cuts it; it is never fed
  for (std::size_t mine = 0; mine < units; ++mine)
    for (std::size_t other = 0; other < units + kMore; ++other) {
      if (other == mine) continue;
      const bool told_apart = std::ranges::any_of(series, [&](const SeriesRound& round) {
        const auto off = [&](std::size_t unit) { return std::ranges::find(round.off, unit) != round.off.end(); };
        const bool looked = std::ranges::find(round.looks, mine) != round.looks.end();
        return looked && off(mine) != (other < units ? off(other) : other == units + 1);
      });
      if (!told_apart) return false;
    }
  return true;
}

int seconds_of(const Series& series, const std::vector<SeriesUnit>& units, const SeriesCosts& costs) {
  int seconds = 0;
  for (std::size_t r = 0; r < series.size(); ++r) {
    const SeriesRound& round = series[r];
    std::vector<std::size_t> rooms;
    for (const std::size_t unit : round.looks) {
      seconds += units[unit].look_seconds;
      for (const std::size_t room : units[unit].rooms)
        if (std::ranges::find(rooms, room) == rooms.end()) rooms.push_back(room);
    }
    if (!round.off.empty()) seconds += costs.round_seconds + 2 * costs.handle_seconds * static_cast<int>(round.off.size());
    const auto order = walking_order(costs.walk, costs.device_room, costs.device_room, rooms);
    seconds += walk_seconds(costs.walk, costs.device_room, costs.device_room, order);
  }
  return seconds;
}

Series one_at_a_time(const std::vector<SeriesUnit>& units) { return in_codes(units, {}); }

Series in_codes(const std::vector<SeriesUnit>& units, const std::vector<std::size_t>& blocks) {
  std::vector<std::size_t> together;
  for (std::size_t u = 0; u < units.size(); ++u)
    if (!units[u].alone) together.push_back(u);
  Series series(1);
  std::size_t at = 0;
  for (const std::size_t size : blocks) {
    add_block(series, {together.begin() + static_cast<long>(at), together.begin() + static_cast<long>(at + size)});
    at += size;
  }
  for (; at < together.size(); ++at) add_block(series, {together[at]});
  for (std::size_t u = 0; u < units.size(); ++u)
    if (units[u].alone) add_block(series, {u});
  for (SeriesRound& round : series) std::ranges::sort(round.looks);
  return series;
}

Series cheapest_series(const std::vector<SeriesUnit>& units, const SeriesCosts& costs) {
  const auto together = static_cast<std::size_t>(std::ranges::count(units, false, &SeriesUnit::alone));
  std::vector<std::vector<std::size_t>> divisions;
  std::vector<std::size_t> blocks;
  if (together <= kMostDividedFreely) divide(together, kLargestBlock, blocks, divisions);
  else  // blocks of one size
    for (std::size_t size = 1; size <= kLargestBlock; ++size) divisions.emplace_back(size < 3 ? 0 : together / size, size);
  Series best;
  int least = std::numeric_limits<int>::max();
  for (const auto& division : divisions) {
    Series series = in_codes(units, division);
    const int seconds = seconds_of(series, units, costs);
    if (seconds < least) least = seconds, best = std::move(series);
  }
  return best;
}

}  // namespace ohmstead
