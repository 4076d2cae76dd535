#include "db/keeper.h"

#include <optional>
#include <utility>

#include "house/error.h"

namespace ohmstead {

Keeper::Keeper(HouseFile& file) : file_(file) { load(); }

/// The marks are read first: what is written meanwhile is then found the next time.
void Keeper::load() {
  const std::int64_t version = file_.version_of_others(), revision = file_.revision();
  kept_ = file_.load();
  version_ = version, revision_ = revision;
}

bool Keeper::changed_by_others() {
  if (file_.version_of_others() == version_) return false;
  House before = kept_;
  load();
  before.printed = kept_.printed;
  return kept_ != before;
}

void Keeper::operator()(const std::string& what, const House& next, const std::string& key) {
  std::optional<House> saved;
  revision_ = file_.change(what, [&](House& house) {
    kept_.printed = house.printed;
    if (house != kept_)
      throw Error(ErrorKind::conflict, "Another program changed this house meanwhile, so the last answer was not saved. Start again: everything saved before is there.");
    house = next;
    house.printed = kept_.printed;
    saved = house;
  }, key);
  if (saved) kept_ = std::move(*saved);
}

}  // namespace ohmstead
