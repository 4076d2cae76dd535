#include "web/deadlines.h"

#include <sys/socket.h>

#include <algorithm>

namespace ohmstead::web {

Deadlines::Deadlines() : thread_([this] { watch(); }) {}

Deadlines::~Deadlines() {
  {
    const std::lock_guard held(mutex_);
    stopping_ = true;
    changed_.notify_one();
  }
  thread_.join();
}

std::uint64_t Deadlines::add(int socket, Moment deadline) {
  std::uint64_t number = 0;
  {
    const std::lock_guard held(mutex_);
    number = ++last_;
    watched_[number] = {socket, std::nullopt};
  }
  set(number, deadline);
  return number;
}

void Deadlines::set(std::uint64_t number, std::optional<Moment> deadline) {
  const std::lock_guard held(mutex_);
  const auto found = watched_.find(number);
  if (found == watched_.end()) return;
  found->second.deadline = deadline;
  if (deadline && (!next_ || *deadline < *next_)) changed_.notify_one();
}

void Deadlines::remove(std::uint64_t number) {
  const std::lock_guard held(mutex_);
  watched_.erase(number);
}

std::optional<Moment> Deadlines::cut_off(Moment now) {
  std::optional<Moment> next;
  for (auto& [number, one] : watched_) {
    if (!one.deadline) continue;
    if (*one.deadline <= now) {
      shutdown(one.socket, SHUT_RDWR);
      one.deadline.reset();
    } else {
      next = next ? std::min(*next, *one.deadline) : *one.deadline;
    }
  }
  return next;
}

void Deadlines::watch() {
  for (std::unique_lock held(mutex_); !stopping_;) {
    next_ = cut_off(std::chrono::steady_clock::now());
    if (next_) changed_.wait_until(held, *next_);
    else changed_.wait(held);
  }
}

}  // namespace ohmstead::web
