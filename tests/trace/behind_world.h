#pragma once
// Invented houses with switching devices, the truth about what is behind them, and somebody who
// answers a session that looks for it. Invented data, as in tests/trace/world_maker.h: how far a GFCI
// reaches and what a switch works are domain experience, no source.

#include <random>
#include <set>
#include <string>
#include <vector>

#include "tests/trace/simulated_house.h"
#include "trace/behind.h"

namespace ohmstead::test {

/// One device of the house whose points nobody has written down.
struct HiddenDevice {
  HandleRef handle;
  std::set<std::size_t> takes;  ///< places in house.points that go dead when it is opened
};

struct DeviceWorld {
  HouseMaker made;
  std::vector<HiddenDevice> devices;
};

/// An ordinary house of world_maker.h in which some receptacles of bath, kitchen, garage and outside
/// are GFCIs, and some rooms have a wall switch by the door. A GFCI takes itself and, each in part of
/// the houses, nothing more, the receptacles of its room, those of its breaker near by, or all of its
/// breaker; sometimes the lights on its breaker as well. A switch works the lights of its room that
/// share a breaker, half of a receptacle, a light outside, or nothing. With `traced`, the breaker of
/// every point has been proved before.
[[nodiscard]] DeviceWorld make_device_world(unsigned seed, bool traced);

/// What a session about one device came to.
struct BehindRun {
  int steps = 0, looks = 0, opened = 0;
  double seconds = 0;
  int found = 0, missed = 0;        ///< points behind it that were called so, and that were not
  int wrong = 0;                    ///< points called behind it, or not behind it, that are not so
  bool finished = false;
};

/// Answers the session until it is done. A share of `error` of the looks is wrong.
class DeviceWalker {
 public:
  DeviceWalker(const DeviceWorld& world, double error, unsigned seed) : world_(world), error_(error), random_(seed) {}
  Answer answer(const TraceSession& session);
  [[nodiscard]] double seconds() const { return seconds_; }
  int looks = 0, opened = 0;
  Clock clock;

 private:
  void walk_to(const House& house, Id<Room> room);
  [[nodiscard]] bool is_live(std::size_t point) const;
  const DeviceWorld& world_;
  double error_;
  std::mt19937 random_;
  std::vector<HandleRef> open_;
  double seconds_ = 0;
  std::vector<std::vector<int>> walk_;
  Id<Room> at_;
};

[[nodiscard]] BehindRun run_behind(const DeviceWorld& world, std::size_t device, double error, unsigned seed);

/// The same without a program: the device is opened, every point of the house is looked at, it is
/// closed, and what was dead is looked at again (common practice, no source).
[[nodiscard]] BehindRun walk_everywhere(const DeviceWorld& world, std::size_t device, double error, unsigned seed);

}  // namespace ohmstead::test
