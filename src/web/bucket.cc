#include "web/bucket.h"

#include <algorithm>

namespace ohmstead::web {

double Bucket::left(Moment now) const {
  const double seconds = std::chrono::duration<double>(std::max(now - at_, Moment::duration::zero())).count();
  return std::min(pace_.at_once, left_ + seconds * pace_.a_second);
}

bool Bucket::take(Moment now) {
  const double there = left(now);
  if (there < 1) return false;
  left_ = there - 1;
  at_ = std::max(at_, now);
  return true;
}

bool Bucket::full(Moment now) const { return left(now) >= pace_.at_once; }

Bucket& Buckets::of(const std::string& name, Moment now) {
  static const std::string kOthers;
  const auto found = named_.find(name);
  if (found != named_.end()) return found->second;
  if (named_.size() >= kMostNames) std::erase_if(named_, [&](const auto& row) { return row.second.full(now); });
  return named_.try_emplace(named_.size() >= kMostNames ? kOthers : name, each_, now).first->second;
}

bool Buckets::take(const std::string& name, Moment now) {
  const std::lock_guard held(mutex_);
  Bucket& one = of(name, now);
  const Bucket before = one;
  if (!one.take(now)) return false;
  if (all_.take(now)) return true;
  one = before;
  return false;
}

}  // namespace ohmstead::web
