#pragma once
// Runs the handler for requests in a few threads, keeps those that are parked, and asks them again when something changed. No socket:
// a slow handler holds up no reading and writing.

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <list>
#include <mutex>
#include <thread>
#include <vector>

#include "web/message.h"

namespace ohmstead::web {

struct AnsweringOptions {
  unsigned workers = 4;
  unsigned most_parked = 64;
  std::chrono::milliseconds look_again{1000};  ///< how often it looks whether who is parked is still there
};

class Answering {
 public:
  /// Whom a request is from: `done` is called once, in any thread; `gone` says that nobody waits for it any more.
  struct Asker {
    std::function<void(Response)> done;
    std::function<bool()> gone;
  };

  Answering(const AnsweringOptions& options, Handler handler);
  ~Answering() { stop(); }
  Answering(const Answering&) = delete;
  Answering& operator=(const Answering&) = delete;

  /// Returns at once. After stop(): answered 503 before it returns.
  void take(Request request, Asker asker);
  void wake();
  /// No handler runs any more when it returns, and everybody has an answer: who was parked as if the time were over.
  void stop();

 private:
  struct Job {
    Request request;
    Asker asker;
  };
  struct Waiting {
    Parked parked;
    Moment until;
    Asker asker;
  };

  void work();
  void watch();
  void park(Parked parked, Asker asker);
  /// Asks each once; gives back who still waits.
  std::list<Waiting> ask(std::list<Waiting> waiting, bool over, bool look);

  AnsweringOptions options_;
  Handler handler_;
  std::mutex mutex_;
  std::condition_variable jobs_changed_, woken_;
  std::deque<Job> jobs_;
  std::list<Waiting> waiting_;
  std::atomic<unsigned> parked_{0};  ///< of waiting_, and those that are being asked; raised with mutex_ held
  std::uint64_t wakes_ = 0;
  bool ask_now_ = false, stopping_ = false, watch_ends_ = false;
  std::vector<std::thread> workers_;
  std::thread watcher_;
};

}  // namespace ohmstead::web
