#include "db/keeper.h"

#include <utility>

#include "house/error.h"

namespace ohmstead {

namespace {

House with_printed(House house, const std::vector<Printed>& printed) {
  house.printed = printed;
  return house;
}

}  // namespace

Keeper::Keeper(HouseFile& file) : file_(file) { load(); }

/// The marks are read first: what is written meanwhile is then found the next time.
void Keeper::load() {
  const std::int64_t version = file_.version_of_others(), revision = file_.revision();
  kept_ = std::make_shared<const House>(file_.load());
  version_ = version, revision_ = revision;
}

bool Keeper::changed_by_others() {
  if (file_.version_of_others() == version_) return false;
  const auto before = kept_;
  load();
  return *kept_ != with_printed(*before, kept_->printed);
}

void Keeper::operator()(const std::string& what, const House& next, const std::string& key) {
  const auto before = kept_;  // `next` may be it
  std::shared_ptr<const House> saved;
  revision_ = file_.change(what, [&](House& house) {
    if (house.printed != kept_->printed) kept_ = std::make_shared<const House>(with_printed(*kept_, house.printed));
    if (house != *kept_)
      throw Error(ErrorKind::conflict, "Another program changed this house meanwhile, so the last answer was not saved. Start again: everything saved before is there.");
    saved = std::make_shared<const House>(with_printed(next, kept_->printed));
    house = *saved;
  }, key);
  if (saved) kept_ = std::move(saved);
}

}  // namespace ohmstead
