#pragma once
// How many requests of one device may wait at a time, so that no device takes the places of all.

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>

namespace ohmstead::web {

/// From any thread. Held by a shared_ptr.
class Waits : public std::enable_shared_from_this<Waits> {
 public:
  explicit Waits(int most_of_a_device) : most_(most_of_a_device) {}

  /// A place that is free again when the last copy is gone; null: this device has as many as it may.
  [[nodiscard]] std::shared_ptr<void> take(std::uint64_t device) {
    const std::lock_guard held(mutex_);
    if (of_device_[device] >= most_) return nullptr;
    ++of_device_[device];
    return {static_cast<void*>(this), [all = shared_from_this(), device](void*) { all->leave(device); }};
  }

 private:
  void leave(std::uint64_t device) {
    const std::lock_guard held(mutex_);
    if (--of_device_[device] == 0) of_device_.erase(device);
  }

  const int most_;
  std::mutex mutex_;
  std::map<std::uint64_t, int> of_device_;
};

}  // namespace ohmstead::web
