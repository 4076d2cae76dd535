#pragma once
// Counts everything that others should see, so that who waits can be told.

#include <atomic>
#include <cstdint>
#include <functional>
#include <mutex>

namespace ohmstead::web {

/// From any thread.
class ChangeCounter {
 public:
  /// Begins at a number drawn when the server starts, so that a page of an earlier server sees a change.
  explicit ChangeCounter(std::uint64_t first) : now_(first) {}

  [[nodiscard]] std::uint64_t now() const { return now_; }
  /// One more, and whoever is to be told is told. Returns the new number.
  std::uint64_t step() {
    const std::uint64_t number = ++now_;
    look_again();
    return number;
  }
  /// Whoever is to be told is told, though nothing changed that all should see: what somebody waits for may be there.
  void look_again() {
    const std::lock_guard held(mutex_);
    if (told_) told_();
  }
  /// Who is told, in the thread of the change (Listener::wake); an empty function ends it, and is not called any more when this returns.
  void tell(std::function<void()> told) {
    const std::lock_guard held(mutex_);
    told_ = std::move(told);
  }

 private:
  std::atomic<std::uint64_t> now_;
  std::mutex mutex_;
  std::function<void()> told_;
};

}  // namespace ohmstead::web
