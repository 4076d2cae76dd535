#pragma once
// Readings that contradict each other: what was seen, when and by whom, that speaks against the
// breaker a point is most believed to hang on. Nothing is thrown away; somebody has to look again.

#include <string>
#include <vector>

#include "trace/conclude.h"

namespace ohmstead {

/// One counted observation, with what its round says about it.
struct Sight {
  Id<Observation> observation;  ///< as TraceSession::withdraw takes it
  bool dead = false;
  std::string at;               ///< UTC, `2026-11-25T09:30:00Z`
  std::string who;              ///< may be empty
  std::vector<HandleRef> open;  ///< what was off; empty: nothing
  bool operator==(const Sight&) const = default;
};

/// The point, or everything that hangs on one feed with it.
struct Contradiction {
  std::size_t point = 0;       ///< place in house.points: the first one with a reading against
  Standing standing = Standing::open;
  std::vector<Id<Breaker>> breakers;  ///< what it is most believed to hang on; more than one: a tie, or two feeds
  bool declared = false;       ///< somebody said that it hangs there
  std::vector<Sight> against;  ///< not empty; oldest first
  std::vector<Sight> in_favor; ///< dead when, and because, these breakers were off; oldest first
  bool operator==(const Contradiction&) const = default;
};

/// Contradictions in the order of the units. The most believed breaker is a declared one that is not
/// overruled by a proof, else the likeliest that the point was seen dead with, else the likeliest.
[[nodiscard]] std::vector<Contradiction> contradictions_of(const House& house, const Conclusions& conclusions);

/// Is everything that was seen but `against` in its favor, so that the doubt is about `against`?
[[nodiscard]] inline bool outweighed(const Contradiction& contradiction) {
  return contradiction.in_favor.size() > contradiction.against.size();
}

}  // namespace ohmstead
