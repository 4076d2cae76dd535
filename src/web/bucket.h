#pragma once
// How often something may happen: a bucket that fills by and by, and is emptied by one each time.

#include <map>
#include <mutex>
#include <string>

#include "web/message.h"

namespace ohmstead::web {

struct Pace {
  double a_second = 10;  ///< in the long run
  double at_once = 20;   ///< after a pause
};

class Bucket {
 public:
  Bucket(const Pace& pace, Moment now) : pace_(pace), left_(pace.at_once), at_(now) {}
  /// Takes one if there is one.
  [[nodiscard]] bool take(Moment now);
  /// Is it as full as when it was made?
  [[nodiscard]] bool full(Moment now) const;

 private:
  [[nodiscard]] double left(Moment now) const;

  Pace pace_;
  double left_;
  Moment at_;
};

/// A bucket for each name (an address, a device) and one over all. From any thread.
class Buckets {
 public:
  /// Names whose bucket is kept; where there are more, those of full buckets are forgotten, then new names share one.
  static constexpr std::size_t kMostNames = 1024;

  Buckets(const Pace& each, const Pace& all, Moment now) : each_(each), all_(all, now) {}
  /// Takes one of the name's and one of all; takes nothing where either is empty.
  [[nodiscard]] bool take(const std::string& name, Moment now);

 private:
  [[nodiscard]] Bucket& of(const std::string& name, Moment now);

  std::mutex mutex_;
  Pace each_;
  Bucket all_;
  std::map<std::string, Bucket> named_;
};

}  // namespace ohmstead::web
