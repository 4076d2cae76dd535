#include "web/deadlines.h"

#include <poll.h>
#include <sys/socket.h>

#include <algorithm>

namespace ohmstead::web {

bool hung_up(int socket) {
  pollfd end{socket, POLLRDHUP, 0};
  return poll(&end, 1, 0) > 0 && (end.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0;
}

Deadlines::Deadlines(const DeadlineOptions& options) : options_(options), thread_([this] { watch(); }) {}

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
    watched_[number].socket = socket;
  }
  set(number, deadline, Phase::sends);
  return number;
}

void Deadlines::set(std::uint64_t number, Moment deadline, Phase phase) {
  const std::lock_guard held(mutex_);
  const auto found = watched_.find(number);
  if (found == watched_.end()) return;
  found->second = {found->second.socket, deadline, phase, false};
  if (!next_ || deadline < *next_) changed_.notify_one();
}

void Deadlines::rest(std::uint64_t number) {
  const std::lock_guard held(mutex_);
  if (const auto found = watched_.find(number); found != watched_.end()) found->second.deadline.reset();
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

bool Deadlines::look_for_ends(Moment now) {
  bool any = false;
  for (auto& [number, one] : watched_) {
    if (!one.deadline || one.phase != Phase::sends) continue;
    any = true;
    if (one.left || !hung_up(one.socket)) continue;
    one.left = true;
    one.deadline = std::min(*one.deadline, now + options_.grace);
  }
  return any;
}

void Deadlines::watch() {
  for (std::unique_lock held(mutex_); !stopping_;) {
    const Moment now = std::chrono::steady_clock::now();
    const bool any = look_for_ends(now);
    next_ = cut_off(now);
    if (any) next_ = next_ ? std::min(*next_, now + options_.look_again) : now + options_.look_again;
    if (next_) changed_.wait_until(held, *next_);
    else changed_.wait(held);
  }
}

}  // namespace ohmstead::web
