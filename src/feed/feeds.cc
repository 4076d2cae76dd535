#include "feed/feeds.h"

#include <algorithm>

#include "house/index.h"

namespace ohmstead {

namespace {

/// Place in house.devices of the outermost device of a chain; -1 for none.
long outermost_at(const House& house, const Index<Device>& device_at, Id<Device> nearest) {
  long outermost = device_at.at(nearest);
  for (std::size_t steps = 0; outermost >= 0 && steps < house.devices.size(); ++steps) {
    const long next = device_at.at(house.devices[static_cast<std::size_t>(outermost)].behind);
    if (next < 0) break;
    outermost = next;
  }
  return outermost;
}

}  // namespace

Id<Device> outermost_device(const House& house, Id<Device> nearest) {
  const Index<Device> device_at(house.devices);
  const long at = outermost_at(house, device_at, nearest);
  return at < 0 ? Id<Device>{} : house.devices[static_cast<std::size_t>(at)].id;
}

Feeds declared_feeds(const House& house) {
  Feeds feeds{std::vector<Feed>(house.points.size()), std::vector<Feed>(house.devices.size())};
  const Index<Point> point_at(house.points);
  const Index<Device> device_at(house.devices);
  for (const DeclaredFeed& declared : house.declared_feeds) {
    const long point = point_at.at(declared.point), device = device_at.at(declared.device);
    if (point < 0 && device < 0) continue;
    Feed& feed = point >= 0 ? feeds.of_point[static_cast<std::size_t>(point)]
                            : feeds.of_device[static_cast<std::size_t>(device)];
    feed.standing = Standing::declared;
    feed.belief = 1;
    feed.taps.push_back({declared.hot, declared.breaker, declared.pole});
  }
  const auto inherit = [&](Feed& feed, Id<Device> behind) {
    const long outer = outermost_at(house, device_at, behind);
    if (outer >= 0) feed = feeds.of_device[static_cast<std::size_t>(outer)];
  };
  for (std::size_t i = 0; i < house.devices.size(); ++i)
    if (house.devices[i].behind) inherit(feeds.of_device[i], house.devices[i].behind);
  for (std::size_t i = 0; i < house.points.size(); ++i)
    if (house.points[i].behind) inherit(feeds.of_point[i], house.points[i].behind);
  return feeds;
}

}  // namespace ohmstead
