#pragma once
// Which breaker poles feed what: the conclusions that the feed graph is built from. They come
// from src/trace (concluded from observations) or straight from what was declared.

#include <vector>

#include "house/house.h"

namespace ohmstead {

/// How a feed is known, weakest first.
enum class Standing {
  open,      ///< not established
  disputed,  ///< the evidence contradicts itself
  likely,    ///< some evidence, not enough to rely on
  declared,  ///< somebody said so
  proved,    ///< seen dead with exactly its device open and live with it closed, belief >= 0.99
};
OHMSTEAD_WORDS(Standing, "open", "disputed", "likely", "declared", "proved")

/// One hot conductor of a point or device, joined to one pole of a breaker.
struct Tap {
  int hot = 1;  ///< 1-based
  Id<Breaker> breaker;
  int pole = 1;  ///< 1-based
  auto operator<=>(const Tap&) const = default;
};

/// What feeds one point or device. Several taps on one hot: it is fed from both.
struct Feed {
  Standing standing = Standing::open;
  double belief = 0;  ///< 0..1; 1 for a declaration nobody contradicted
  std::vector<Tap> taps;
  bool operator==(const Feed&) const = default;
};

/// May a statement about danger rest on it?
[[nodiscard]] inline bool relied_on(Standing standing) { return standing >= Standing::declared; }

/// Feeds of a house, in the order of house.points and house.devices. A point behind a device has
/// the taps of the outermost device; the graph reads those of the device.
struct Feeds {
  std::vector<Feed> of_point;
  std::vector<Feed> of_device;
  bool operator==(const Feeds&) const = default;
};

/// Feeds from declarations alone; everything else is open.
[[nodiscard]] Feeds declared_feeds(const House& house);

/// The outermost device on the way from a point or device to its breaker, or none when it stands
/// directly on its circuit. A chain that runs in a circle ends where it began.
[[nodiscard]] Id<Device> outermost_device(const House& house, Id<Device> nearest);

}  // namespace ohmstead
