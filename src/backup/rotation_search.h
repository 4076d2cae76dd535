#pragma once
// The search behind rotation.h: masks of slots for one load after the other. Bit k of a mask is slot k; bit i of a set is load i.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace ohmstead::rotation_detail {

/// What a load takes, in several measures; only prunes. The last is 1: a piece.
inline constexpr std::size_t kMeasures = 5;
using Measures = std::array<int, kMeasures>;

struct Need {
  int slots = 1;        ///< on at least so many
  int longest_off = 0;  ///< slots off in a row, at most
  Measures takes{0, 0, 0, 0, 1};
};

/// A way for one load to be on, around the cycle.
struct Mask {
  std::uint32_t bits = 0;
  int blocks = 0;  ///< times it is switched on; 0: it is always on
};

/// Ways that meet a need and from which no slot can be left out without another switching, fewest blocks first.
[[nodiscard]] std::vector<Mask> masks_for(Need need, int slots);

/// Times around the cycle that a mask goes from off to on.
[[nodiscard]] int blocks_of(std::uint32_t bits, int slots);

/// Dynamic program over the loads; two states are one if, turned or mirrored, their slots have the same room left.
class Search {
 public:
  /// `allowed[set]`: may these loads be on together? With a set all smaller ones are allowed. `needs` in the order of the bits.
  Search(std::vector<bool> allowed, const std::vector<Need>& needs, int slots, std::uint64_t most_nodes);

  /// A mask for each load with the fewest blocks in all; nothing if there is none, or none was found before the work ran out.
  [[nodiscard]] std::optional<std::vector<std::uint32_t>> best();
  [[nodiscard]] bool stopped() const { return stopped_; }
  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  using Slots = std::vector<std::uint16_t>;  ///< for each slot the set that is on
  struct Known {
    int least = 0;       ///< no fewer blocks will do from here on
    bool exact = false;  ///< and so many do
  };

  void class_of_sets();
  void most_of_sets();
  [[nodiscard]] std::string key(std::size_t load, const Slots& slots) const;
  [[nodiscard]] std::uint32_t fits(std::size_t load, const Slots& slots) const;
  [[nodiscard]] bool can_be_below(std::size_t load, const Slots& slots, int below);
  struct Blocks {
    int least = -1;     ///< of the masks that fit; -1: not looked up yet
    int switched = 0;   ///< of those that are not always on
  };
  Blocks blocks_within(std::size_t load, std::uint32_t fit);
  /// Choosing which loads are always on: what room is left beside what all need, and how many blocks may still be spent.
  struct Choosing {
    std::vector<std::pair<std::size_t, int>> open;  ///< loads that could be, and their blocks if they are not
    const Slots& slots;
    std::size_t chosen = 0;                         ///< set of those that are
    Measures room{};
    int blocks_left = 0;
  };
  [[nodiscard]] bool some_always_on(Choosing& choosing, std::size_t next) const;
  [[nodiscard]] std::uint32_t free_slots(std::size_t load, std::uint32_t fit, const Slots& slots) const;
  /// Fewest blocks of this load and all after it if that is less than `below`; else `below` or more.
  int solve(std::size_t load, Slots& slots, int below);
  int try_masks(std::size_t load, Slots& slots, int below);

  std::vector<bool> allowed_;
  std::vector<Need> needs_;
  std::size_t slots_;
  std::uint64_t most_nodes_, nodes_ = 0;
  bool stopped_ = false, recording_ = true;
  std::vector<std::vector<Mask>> masks_;
  std::vector<int> least_after_;                     ///< blocks that loads from this one on need at least
  std::vector<std::vector<Blocks>> within_;          ///< [load][slots that it fits into]
  std::vector<std::vector<std::uint16_t>> classes_;  ///< [load][set]: sets with the same room for loads from this one on
  std::vector<std::vector<Measures>> most_;          ///< [load][set]: of loads from this one on, what fits beside the set
  std::vector<Measures> needed_;                     ///< [load]: times slots, what loads from this one on need
  std::unordered_map<std::string, Known> known_;
  std::vector<std::uint32_t> current_, best_;
  int blocks_so_far_ = 0, best_blocks_ = 0;
};

}  // namespace ohmstead::rotation_detail
