#include "backup/rotation_search.h"

#include <algorithm>
#include <bit>
#include <map>

namespace ohmstead::rotation_detail {

namespace {

constexpr int kNever = 10'000;  ///< more blocks than any timetable has

std::uint32_t all_of(std::size_t slots) { return (1U << slots) - 1; }

/// Bit k of the result is bit k - 1 of `bits`: what was on one slot before.
std::uint32_t turned(std::uint32_t bits, std::size_t slots) { return ((bits << 1) | (bits >> (slots - 1))) & all_of(slots); }

/// Longest run of slots off around the cycle; `slots` if it is never on.
int longest_off(std::uint32_t bits, std::size_t slots) {
  if (bits == 0) return static_cast<int>(slots);
  int run = 0;
  for (std::uint32_t off = ~bits & all_of(slots); off != 0; off &= turned(off, slots)) ++run;
  return run;
}

bool meets(std::uint32_t bits, const Need& need, std::size_t slots) {
  return bits != 0 && std::popcount(bits) >= need.slots && longest_off(bits, slots) <= need.longest_off;
}

/// May a slot at the end of a block be left out? Then the mask without it is as good, and smaller.
bool has_a_slot_too_many(std::uint32_t bits, const Need& need, std::size_t slots) {
  if (bits == all_of(slots)) return false;
  const std::uint32_t first = bits & ~turned(bits, slots);
  std::uint32_t last = bits;
  for (std::size_t k = 0; k < slots; ++k)
    if ((bits >> ((k + 1) % slots)) & 1U) last &= ~(1U << k);
  for (std::uint32_t ends = first | last; ends != 0; ends &= ends - 1)
    if (meets(bits & ~(ends & (~ends + 1)), need, slots)) return true;
  return false;
}

}  // namespace

int blocks_of(std::uint32_t bits, int slots) { return std::popcount(bits & ~turned(bits, static_cast<std::size_t>(slots))); }

std::vector<Mask> masks_for(Need need, int slots) {
  std::vector<Mask> masks;
  const auto count = static_cast<std::size_t>(slots);
  for (std::uint32_t bits = 1; bits <= all_of(count); ++bits)
    if (meets(bits, need, count) && !has_a_slot_too_many(bits, need, count)) masks.push_back({bits, blocks_of(bits, slots)});
  std::ranges::stable_sort(masks, [](const Mask& a, const Mask& b) { return a.blocks < b.blocks; });
  return masks;
}

Search::Search(std::vector<bool> allowed, const std::vector<Need>& needs, int slots, std::uint64_t most_nodes)
    : allowed_(std::move(allowed)), needs_(needs), slots_(static_cast<std::size_t>(slots)), most_nodes_(most_nodes), current_(needs.size()) {
  const std::size_t loads = needs_.size();
  least_after_.assign(loads + 1, 0), needed_.assign(loads + 1, Measures{});
  masks_.resize(loads);
  for (std::size_t i = loads; i-- > 0;) {
    masks_[i] = masks_for(needs_[i], slots);
    for (int fewest = slots; const Mask& mask : masks_[i])  // short times off may ask for more slots than the share does
      needs_[i].slots = fewest = std::min(fewest, std::popcount(mask.bits));
    least_after_[i] = least_after_[i + 1] + (masks_[i].empty() ? kNever : masks_[i].front().blocks);
    for (std::size_t m = 0; m < kMeasures; ++m) needed_[i][m] = needed_[i + 1][m] + needs_[i].slots * needs_[i].takes[m];
  }
  class_of_sets();
  most_of_sets();
  within_.assign(loads, std::vector<Blocks>(std::size_t{1} << slots_));
}

void Search::class_of_sets() {
  const std::size_t loads = needs_.size(), sets = allowed_.size();
  classes_.assign(loads + 1, std::vector<std::uint16_t>(sets, 0));
  for (std::size_t i = loads; i-- > 0;) {
    std::map<std::pair<int, int>, std::uint16_t> ids;
    for (std::size_t set = 0; set < (std::size_t{1} << i); ++set) {
      const std::size_t with = set | (std::size_t{1} << i);
      const std::pair<int, int> rest{classes_[i + 1][set], allowed_[with] ? classes_[i + 1][with] + 1 : 0};
      classes_[i][set] = ids.emplace(rest, static_cast<std::uint16_t>(ids.size())).first->second;
    }
  }
}

void Search::most_of_sets() {
  const std::size_t loads = needs_.size(), sets = allowed_.size();
  most_.assign(loads + 1, std::vector<Measures>(sets, Measures{}));
  for (std::size_t i = loads; i-- > 0;)
    for (std::size_t set = 0; set < (std::size_t{1} << i); ++set) {
      const std::size_t with = set | (std::size_t{1} << i);
      most_[i][set] = most_[i + 1][set];
      if (!allowed_[with]) continue;
      for (std::size_t m = 0; m < kMeasures; ++m) most_[i][set][m] = std::max(most_[i][set][m], needs_[i].takes[m] + most_[i + 1][with][m]);
    }
}

/// The classes of the slots, in the least of all turns and mirrors.
std::string Search::key(std::size_t load, const Slots& slots) const {
  std::u16string forward(slots_, u'\0');
  for (std::size_t k = 0; k < slots_; ++k) forward[k] = static_cast<char16_t>(classes_[load][slots[k]]);
  std::u16string least = forward, way = forward;
  for (int mirrored = 0; mirrored < 2; ++mirrored) {
    for (std::size_t k = 0; k < slots_; ++k) {
      std::ranges::rotate(way, way.begin() + 1);
      least = std::min(least, way);
    }
    std::ranges::reverse(way);
  }
  std::string made(1, static_cast<char>(load));
  for (const char16_t c : least) made += static_cast<char>(c & 0xFF), made += static_cast<char>(c >> 8);
  return made;
}

std::uint32_t Search::fits(std::size_t load, const Slots& slots) const {
  std::uint32_t bits = 0;
  for (std::size_t k = 0; k < slots_; ++k)
    if (allowed_[slots[k] | (std::size_t{1} << load)]) bits |= 1U << k;
  return bits;
}

/// At least so many blocks has this load if it may be on in these slots only.
Search::Blocks Search::blocks_within(std::size_t load, std::uint32_t fit) {
  Blocks& known = within_[load][fit];
  if (known.least >= 0) return known;
  known = {kNever, kNever};
  for (const Mask& mask : masks_[load]) {  // fewest blocks first
    if ((mask.bits & ~fit) != 0) continue;
    known.least = std::min(known.least, mask.blocks);
    if (mask.blocks == 0) continue;
    known.switched = mask.blocks;
    break;
  }
  return known;
}

/// Is there a choice of loads that are always on, together in each slot and with room for what the others need, that leaves few enough switched?
bool Search::some_always_on(Choosing& choosing, std::size_t next) const {
  if (choosing.blocks_left < 0) return false;
  if (next == choosing.open.size()) return true;
  const auto [load, blocks] = choosing.open[next];
  std::size_t with = choosing.chosen | (std::size_t{1} << load);
  Measures room = choosing.room;
  bool fit = std::ranges::all_of(choosing.slots, [&](std::uint16_t set) { return allowed_[set | with]; });
  for (std::size_t m = 0; m < kMeasures && fit; ++m) {
    room[m] -= (static_cast<int>(slots_) - needs_[load].slots) * needs_[load].takes[m];
    fit = room[m] >= 0;
  }
  if (fit) {
    std::swap(choosing.room, room), std::swap(choosing.chosen, with);
    const bool found = some_always_on(choosing, next + 1);
    std::swap(choosing.room, room), std::swap(choosing.chosen, with);
    if (found) return true;
  }
  choosing.blocks_left -= blocks;
  const bool found = some_always_on(choosing, next + 1);
  choosing.blocks_left += blocks;
  return found;
}

/// Could there be fewer blocks than that from this load on? Asks only for what is quick to see: false is certain.
bool Search::can_be_below(std::size_t load, const Slots& slots, int below) {
  Choosing choosing{.slots = slots, .blocks_left = below - 1};
  for (std::size_t m = 0; m < kMeasures; ++m) {
    for (const std::uint16_t set : slots) choosing.room[m] += most_[load][set][m];
    choosing.room[m] -= needed_[load][m];
    if (choosing.room[m] < 0) return false;
  }
  for (std::size_t i = load; i < needs_.size(); ++i) {
    const Blocks blocks = blocks_within(i, fits(i, slots));
    if (blocks.least >= kNever) return false;
    choosing.blocks_left -= blocks.least;
    if (blocks.least == 0) choosing.open.emplace_back(i, blocks.switched);
  }
  return some_always_on(choosing, 0);
}

int Search::solve(std::size_t load, Slots& slots, int below) {
  if (load == needs_.size()) {
    if (recording_ && (best_.empty() || blocks_so_far_ < best_blocks_)) best_ = current_, best_blocks_ = blocks_so_far_;
    return 0;
  }
  if (least_after_[load] >= below || stopped_) return below;
  if (++nodes_ > most_nodes_) {
    stopped_ = true;
    return below;
  }
  if (!can_be_below(load, slots, below)) return below;
  const std::string state = key(load, slots);
  if (const auto at = known_.find(state); at != known_.end() && (at->second.exact || at->second.least >= below)) return at->second.least;
  const int least = try_masks(load, slots, below);
  if (!stopped_) known_[state] = {least, least < below};
  return least;
}

/// Slots in which this load is in nobody's way: with it the same loads after it fit.
std::uint32_t Search::free_slots(std::size_t load, std::uint32_t fit, const Slots& slots) const {
  std::uint32_t bits = 0;
  for (std::size_t k = 0; k < slots_; ++k)
    if (((fit >> k) & 1U) != 0 && classes_[load + 1][slots[k] | (std::size_t{1} << load)] == classes_[load + 1][slots[k]]) bits |= 1U << k;
  return bits;
}

int Search::try_masks(std::size_t load, Slots& slots, int below) {
  const std::uint32_t fit = fits(load, slots), taken = ~free_slots(load, fit, slots);
  const auto flip = [&](std::uint32_t bits) {
    for (; bits != 0; bits &= bits - 1) slots[static_cast<std::size_t>(std::countr_zero(bits))] ^= static_cast<std::uint16_t>(1U << load);
  };
  std::vector<std::uint32_t> tried;  // what each took of slots that are not free; fewer blocks were tried first
  for (const Mask& mask : masks_[load]) {
    if (mask.blocks + least_after_[load + 1] >= below || stopped_) break;
    const std::uint32_t takes = mask.bits & taken;
    if ((mask.bits & ~fit) != 0 || std::ranges::any_of(tried, [&](std::uint32_t less) { return (less & ~takes) == 0; })) continue;
    tried.push_back(takes);
    flip(mask.bits), blocks_so_far_ += mask.blocks, current_[load] = mask.bits;
    below = std::min(below, mask.blocks + solve(load + 1, slots, below - mask.blocks));
    flip(mask.bits), blocks_so_far_ -= mask.blocks;
  }
  return below;
}

std::optional<std::vector<std::uint32_t>> Search::best() {
  Slots slots(slots_, 0);
  // Few blocks are looked for first: what was learnt on the way there stays known.
  int least = 0, below = least_after_.front() + 1;
  for (int more = 1; (least = solve(0, slots, below)) >= below && below < kNever && !stopped_; more *= 2) below = more > 64 ? kNever : below + more;
  if (least >= kNever || stopped_) return best_.empty() ? std::nullopt : std::optional(best_);
  recording_ = false;
  std::vector<std::uint32_t> made;
  int left = least;
  for (std::size_t load = 0; load < needs_.size() && !stopped_; ++load) {  // the same way once more, by what is known now
    const std::uint32_t fit = fits(load, slots);
    const auto at = std::ranges::find_if(masks_[load], [&](const Mask& mask) {
      if ((mask.bits & ~fit) != 0 || mask.blocks + least_after_[load + 1] > left) return false;
      Slots next = slots;
      for (std::size_t k = 0; k < slots_; ++k) next[k] = static_cast<std::uint16_t>(next[k] | (((mask.bits >> k) & 1U) << load));
      if (mask.blocks + solve(load + 1, next, left - mask.blocks + 1) > left) return false;
      return slots = next, true;
    });
    if (at == masks_[load].end()) break;
    made.push_back(at->bits), left -= at->blocks;
  }
  return made.size() == needs_.size() ? made : best_;
}

}  // namespace ohmstead::rotation_detail
