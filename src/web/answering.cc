#include "web/answering.h"

#include <algorithm>
#include <exception>

namespace ohmstead::web {

namespace {

Response fault() { return refusal(500, "fault", "A fault of the program itself; nothing was changed by this request. Please report it."); }
Response stopping() { return refusal(503, "stopping", "The server is stopping."); }

Answer answer_of(const Handler& handler, const Request& request) try {
  return handler(request);
} catch (...) {
  return fault();
}

std::optional<Response> ask_once(const Parked& parked, bool over) try {
  auto answer = parked.answer(over);
  if (!answer && over) return fault();
  return answer;
} catch (...) {
  return fault();
}

}  // namespace

Answering::Answering(const AnsweringOptions& options, Handler handler) : options_(options), handler_(std::move(handler)) {
  for (unsigned i = 0; i < options_.workers; ++i) workers_.emplace_back([this] { work(); });
  watcher_ = std::thread([this] { watch(); });
}

void Answering::take(Request request, Asker asker) {
  {
    const std::lock_guard held(mutex_);
    if (!stopping_) {
      jobs_.push_back({std::move(request), std::move(asker)});
      jobs_changed_.notify_one();
      return;
    }
  }
  asker.done(stopping());
}

void Answering::wake() {
  const std::lock_guard held(mutex_);
  ++wakes_;
  ask_now_ = true;
  woken_.notify_one();
}

void Answering::stop() {
  {
    const std::lock_guard held(mutex_);
    stopping_ = true;
    jobs_changed_.notify_all();
  }
  for (std::thread& worker : workers_)
    if (worker.joinable()) worker.join();
  {
    const std::lock_guard held(mutex_);
    watch_ends_ = true;
    woken_.notify_one();
  }
  if (watcher_.joinable()) watcher_.join();
}

void Answering::work() {
  for (;;) {
    std::unique_lock held(mutex_);
    jobs_changed_.wait(held, [&] { return stopping_ || !jobs_.empty(); });
    if (jobs_.empty()) return;
    Job job = std::move(jobs_.front());
    jobs_.pop_front();
    const bool too_late = stopping_;
    held.unlock();
    if (too_late) {
      job.asker.done(stopping());
      continue;
    }
    Answer answer = answer_of(handler_, job.request);
    if (auto* response = std::get_if<Response>(&answer)) job.asker.done(std::move(*response));
    else park(std::move(std::get<Parked>(answer)), std::move(job.asker));
  }
}

void Answering::park(Parked parked, Asker asker) {
  std::unique_lock held(mutex_);
  if (parked_ >= options_.most_parked) {
    held.unlock();
    // It may have its answer already; if not, it cannot wait for it here.
    auto answer = ask_once(parked, false);
    return asker.done(answer ? std::move(*answer) : refusal(503, "too_many", "Too many devices wait for news; ask again in 3 seconds."));
  }
  ++parked_;
  const std::uint64_t wakes = wakes_;
  held.unlock();
  if (auto answer = ask_once(parked, false)) {
    parked.answer = nullptr;  // what it holds is free before the other end can ask again
    --parked_;
    asker.done(std::move(*answer));
    return;
  }
  const Moment until = std::chrono::steady_clock::now() + parked.at_most;
  held.lock();
  waiting_.push_back({std::move(parked), until, std::move(asker)});
  if (wakes_ != wakes) ask_now_ = true;  // it was asked before that change
  woken_.notify_one();                   // its time may be over before that of the others
}

std::list<Answering::Waiting> Answering::ask(std::list<Waiting> waiting, bool over, bool look) {
  const Moment now = std::chrono::steady_clock::now();
  std::erase_if(waiting, [&](Waiting& one) {
    const bool its_end = over || now >= one.until || (look && one.asker.gone && one.asker.gone());
    auto answer = ask_once(one.parked, its_end);
    if (!answer) return false;
    one.parked.answer = nullptr;
    --parked_;  // its place is free before it can ask again
    one.asker.done(std::move(*answer));
    return true;
  });
  return waiting;
}

void Answering::watch() {
  Moment looked = std::chrono::steady_clock::now();
  for (std::unique_lock held(mutex_);;) {
    Moment next = looked + options_.look_again;
    for (const Waiting& one : waiting_) next = std::min(next, one.until);
    if (!watch_ends_ && !ask_now_) {
      if (waiting_.empty()) woken_.wait(held);
      else woken_.wait_until(held, next);
    }
    if (watch_ends_ && waiting_.empty()) return;
    const Moment now = std::chrono::steady_clock::now();
    const bool due = std::ranges::any_of(waiting_, [&](const Waiting& one) { return now >= one.until; });
    const bool look = now >= looked + options_.look_again;
    if (!ask_now_ && !watch_ends_ && !due && !look) continue;
    if (look) looked = now;
    ask_now_ = false;
    const bool over = watch_ends_;
    std::list<Waiting> asked;
    asked.swap(waiting_);
    held.unlock();
    asked = ask(std::move(asked), over, look);
    held.lock();
    waiting_.splice(waiting_.end(), asked);
  }
}

}  // namespace ohmstead::web
