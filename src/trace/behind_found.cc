#include "trace/behind_found.h"

#include <algorithm>
#include <set>

#include "feed/feeds.h"
#include "house/index.h"
#include "house/walking.h"

namespace ohmstead {

namespace {

/// What looks say of one device.
struct Finding {
  Id<Device> device;
  std::set<std::size_t> behind, not_behind;  ///< places in house.points
  bool gfci = false;
};

std::vector<Finding> findings_of(const House& house) {
  std::set<std::uint64_t> opened;
  for (const Opened& row : house.opened)
    if (row.handle.kind == HandleKind::device) opened.insert(first_of_group(house, row.handle).id);
  if (opened.empty()) return {};
  const Conclusions conclusions = conclude_units(house);
  const auto walk = walking_seconds(house);
  std::vector<Finding> findings;
  for (const Handle& handle : house.handles) {
    const Device* device = find_row(house, handle.device);
    if (!opened.contains(handle.id.value) || device == nullptr) continue;
    Finding finding{handle.device, {}, {}, device->kind == DeviceKind::gfci_receptacle};
    const auto points = find_behind(BehindGround{house, conclusions, walk}, {HandleKind::device, handle.id.value});
    for (std::size_t p = 0; p < points.size(); ++p) {
      if (points[p].standing == BehindStanding::behind) finding.behind.insert(p);
      if (points[p].standing == BehindStanding::not_behind) finding.not_behind.insert(p);
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

/// Changes `behind` in a house, finding by finding, nearest to the breaker first.
class Rewiring {
 public:
  explicit Rewiring(House& house) : house_(house) {}

  [[nodiscard]] bool is_behind(Id<Device> nearest, Id<Device> device) const {
    std::size_t steps = 0;
    for (Id<Device> at = nearest; at && steps <= house_.devices.size(); at = row(house_, at).behind, ++steps)
      if (at == device) return true;
    return false;
  }

  /// A point that is not behind the device leaves it, for what the device itself stands behind.
  bool leave(std::size_t p, Id<Device> device) {
    Point& point = house_.points[p];
    if (!is_behind(point.behind, device)) return true;
    if (point.behind != device || row(house_, device).at_point == point.id) return false;
    point.behind = row(house_, device).behind;
    return true;
  }

  bool put(std::size_t p, Id<Device> device, const Finding& finding) {
    Point& point = house_.points[p];
    if (is_behind(point.behind, device)) return true;
    if (point.hots > row(house_, device).poles) return false;
    if (!point.behind || is_behind(row(house_, device).behind, point.behind)) {
      point.behind = device;
      return true;
    }
    return put_whole(outermost_device(house_, point.behind), device, finding);
  }

  /// A device whose points are behind this one, as far as they were looked at, is behind it.
  bool put_whole(Id<Device> inner, Id<Device> device, const Finding& finding) {
    if (is_behind(device, inner) || row(house_, inner).poles > row(house_, device).poles) return false;
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      if (is_behind(house_.points[p].behind, inner) && finding.not_behind.contains(p)) return false;
    row(house_, inner).behind = device;
    return true;
  }

  /// Of a point or device that is behind something now, the outermost device has the declared feed.
  void move_declarations() {
    std::vector<DeclaredFeed> kept;
    const auto said = [&](Id<Device> device, int hot) {
      return std::ranges::any_of(house_.declared_feeds, [&](const DeclaredFeed& feed) { return feed.device == device && feed.hot == hot; }) ||
             std::ranges::any_of(kept, [&](const DeclaredFeed& feed) { return feed.device == device && feed.hot == hot; });
    };
    for (DeclaredFeed feed : house_.declared_feeds) {
      const Id<Device> nearest = feed.point ? row(house_, feed.point).behind : row(house_, feed.device).behind;
      if (nearest) {
        const Id<Device> outer = outermost_device(house_, nearest);
        if (said(outer, feed.hot)) continue;
        feed.point = {}, feed.device = outer;
      }
      kept.push_back(feed);
    }
    house_.declared_feeds = std::move(kept);
  }

 private:
  House& house_;
};

}  // namespace

HouseAsFound house_as_found(House house) {
  HouseAsFound result{std::move(house), {}};
  std::vector<Finding> findings = findings_of(result.house);
  std::ranges::stable_sort(findings, [](const Finding& a, const Finding& b) {
    return a.behind.size() != b.behind.size() ? a.behind.size() > b.behind.size() : a.gfci && !b.gfci;
  });
  Rewiring rewiring(result.house);
  for (std::size_t f = 0; f < findings.size(); ++f) {
    const Finding& finding = findings[f];
    for (const std::size_t p : finding.not_behind) {
      const bool was = rewiring.is_behind(result.house.points[p].behind, finding.device);
      if (was) result.found.push_back({finding.device, p, false, rewiring.leave(p, finding.device)});
    }
    // A device all of whose points are behind others nearer to the breaker is itself behind the nearest of them.
    for (std::size_t o = f; o-- > 0 && !finding.behind.empty();) {
      const Finding& outer = findings[o];
      if (std::ranges::includes(outer.behind, finding.behind) && !rewiring.is_behind(finding.device, outer.device))
        (void)rewiring.put_whole(outermost_device(result.house, finding.device), outer.device, outer);
    }
    for (const std::size_t p : finding.behind) result.found.push_back({finding.device, p, true, rewiring.put(p, finding.device, finding)});
  }
  if (!result.found.empty()) rewiring.move_declarations();
  const Index<Device> device_at(result.house.devices);
  std::ranges::stable_sort(result.found, [&](const FoundBehind& a, const FoundBehind& b) {
    return std::pair(device_at.at(a.device), a.point) < std::pair(device_at.at(b.device), b.point);
  });
  return result;
}

}  // namespace ohmstead
